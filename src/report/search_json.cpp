#include "fingerway/report/search.hpp"

#include "fingerway/report/view.hpp"
#include "json_parts.hpp"

namespace fingerway {
namespace {

std::string_view kind_id(ChangeKind kind) {
  switch (kind) {
    case ChangeKind::opens:
      return "opens";
    case ChangeKind::closes:
      return "closes";
    case ChangeKind::duplicate:
      return "duplicate";
    case ChangeKind::roller:
      break;
  }
  return "roller";
}

std::string_view price_id(PriceClass price) {
  switch (price) {
    case PriceClass::small:
      return "small";
    case PriceClass::middle:
      return "middle";
    case PriceClass::large:
      break;
  }
  return "large";
}

Json change_json(const Instrument& instrument, const ElementaryChange& change) {
  const bool linkage = change.kind == ChangeKind::opens || change.kind == ChangeKind::closes;
  Json json = Json::object();
  json.with("kind", kind_id(change.kind)).with("touch", full_name(instrument.touches[change.touch.index]));
  if (linkage) json.with("pad", instrument.pads[change.pad.index].id);
  if (!linkage) json.with("beside", full_name(instrument.touches[change.beside.index]));
  json.with("finger", code(change.finger))
      .with("price", price_id(change.price))
      .with("words", change_words(instrument, change));
  return json;
}

Json set_json(const SearchReport& report, const ProposedSet& set) {
  Json changes = Json::list();
  for (const ElementaryChange& change : set.changes) changes.add(change_json(report.stock.instrument, change));
  Json rates = Json::list();
  for (NotesPerSecond rate : set.rates) rates.add(rate.value());
  Json lost = Json::list();
  for (const LostFingering& one : set.lost) {
    Json fingering = Json::object();
    fingering.with("note", name(chart_spelling(one.note)))
        .with("pressed", full_names_json(report.stock.instrument, one.fingering.pressed))
        .with("played", one.played);
    lost.add(fingering);
  }
  Json json = Json::object();
  json.with("changes", changes)
      .with("price_steps", set.price)
      .with("notes_per_second", rates)
      .with("gain", set.balance.gain)
      .with("share", set.balance.share())
      .with("relieved_by_share", set.balance.relieved)
      .with("spoiled_by_share", set.balance.spoiled)
      .with("lost", lost);
  return json;
}

}  // namespace

std::string search_json(const SearchReport& report) {
  Json pairs = Json::list();
  for (const HardPair& pair : report.result.pairs) {
    Json one = Json::object();
    one.with("low", name(chart_spelling(pair.low)))
        .with("high", name(chart_spelling(pair.high)))
        .with("played", pair.played)
        .with("notes_per_second", pair.rate.value());
    pairs.add(one);
  }
  Json sets = Json::list();
  for (const ProposedSet& set : report.result.proposed) sets.add(set_json(report, set));
  Json json = document("payoff-search");
  json.with("instrument", instrument_json(report.stock))
      .with("repertoire", report.repertoire.file)
      .with("changes_within_reach", report.result.changes)
      .with("sets_tried", report.result.tried)
      .with("hard_pairs", pairs)
      .with("proposed", sets)
      .with("cautions", cautions());
  return text_of(json);
}

}  // namespace fingerway
