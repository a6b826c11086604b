#include <algorithm>

#include "carried_words.hpp"
#include "fingerway/report/text.hpp"
#include "json_parts.hpp"
#include "payoff_view.hpp"

namespace fingerway {
namespace {

std::string_view hardship_id(Hardship hardship) {
  switch (hardship) {
    case Hardship::change:
      return "change";
    case Hardship::trill:
      return "trill";
    case Hardship::no_fingering:
      break;
  }
  return "no-fingering";
}

std::string_view finding_id(PayoffFinding f) {
  return f == PayoffFinding::no_difference ? std::string_view("no-difference") : words(f);
}

Json optional_json(const std::optional<double>& value) { return value ? Json(*value) : Json(); }

std::string pitch_id(WrittenPitch pitch) { return name(chart_spelling(pitch)); }

Json fingering_json(const Instrument& instrument, const Fingering& fingering) {
  Json json = Json::object();
  json.with("pressed", full_names_json(instrument, fingering.pressed))
      .with("half", full_names_json(instrument, fingering.half))
      .with("flicked", full_names_json(instrument, fingering.flicked));
  return json;
}

void add_site(Json& json, const Repertoire& repertoire, const NoteSite& site) {
  const Passage& passage = repertoire.pieces[site.piece].passage;
  const NoteEvent& note = passage.notes[site.note];
  json.with("passage", site.piece)
      .with("note", site.note)
      .with("measure", passage.measures[note.place.measure].name)
      .with("beat", beat_name(passage, note))
      .with("written", name(note.spelling))
      .with("before_it", site.note > 0 ? Json(name(passage.notes[site.note - 1].spelling)) : Json())
      .with("written_with", note.other ? Json(name(*note.other)) : Json());
}

Json turns_json(const Repertoire& repertoire, const std::vector<Turn>& turns) {
  Json list = Json::list();
  for (const Turn& turn : turns) {
    Json one = Json::object();
    add_site(one, repertoire, turn.site);
    one.with("hard_by", hardship_id(turn.hardship))
        .with("verdict_before", verdict_id(turn.before))
        .with("verdict_after", verdict_id(turn.after))
        .with("figure_before", optional_json(turn.before_figure))
        .with("figure_after", optional_json(turn.after_figure))
        .with("unit", turn.hardship == Hardship::trill ? "notes/s" : "ms")
        .with("available_ms", turn.available_ms);
    list.add(one);
  }
  return list;
}

Json side_json(const PassageOutcome& outcome) {
  Json json = Json::object();
  json.with("points", outcome.points())
      .with("awkwardness", outcome.awkwardness)
      .with("worst_load", outcome.worst_load)
      .with("complete", outcome.complete)
      .with("fits", outcome.fits)
      .with("ceiling_qpm", optional_json(outcome.ceiling))
      .with("best_ceiling_qpm", optional_json(outcome.best_ceiling));
  return json;
}

/// Null without samples.
Json piece_standing(const PayoffReport& report, std::size_t variant, std::size_t piece) {
  if (report.payoff.worlds == 0) return {};
  return Json(report.payoff.standing[variant].pieces[piece]);
}

Json pieces_json(const PayoffReport& report, std::size_t v, const SetInFull& set) {
  Json list = Json::list();
  for (std::size_t p = 0; p < set.pieces.size(); ++p) {
    const PiecePayoff& piece = set.pieces[p];
    Json one = Json::object();
    one.with("passage", p)
        .with("before", side_json(report.payoff.stock[p]))
        .with("after", side_json(set.outcomes[p]))
        .with("gain", piece.balance.gain)
        .with("share", piece.balance.share())
        .with("relieved", piece.balance.relieved)
        .with("spoiled", piece.balance.spoiled)
        .with("notes_changed", piece.notes_changed)
        .with("finding", finding_id(finding(piece.balance)))
        .with("finding_stands", piece_standing(report, v, p));
    list.add(one);
  }
  return list;
}

Json relearning_json(const Repertoire& repertoire, const Relearning& relearning) {
  Json pairs = Json::list();
  for (const RelearnedPair& pair : relearning.pairs) {
    Json one = Json::object();
    one.with("from", pitch_id(pair.from))
        .with("to", pitch_id(pair.to))
        .with("played", pair.played)
        .with("changed", pair.changed);
    Json example = Json::object();
    add_site(example, repertoire, pair.example);
    one.with("example", example);
    pairs.add(one);
  }
  Json json = Json::object();
  json.with("played", relearning.played)
      .with("changed", relearning.changed)
      .with("frequent", relearning.frequent)
      .with("frequent_changed", relearning.frequent_changed)
      .with("pairs", pairs);
  return json;
}

Json carried_json(const Instrument& own, const SetInFull& set) {
  Json list = Json::list();
  for (const CarriedFingering& carried : set.habits) {
    Json sounds = Json::list();
    for (WrittenPitch pitch : carried.sounds) sounds.add(pitch_id(pitch));
    Json one = Json::object();
    one.with("note", pitch_id(carried.note))
        .with("fingering", fingering_json(own, carried.fingering))
        .with("result", carried_id(carried.result))
        .with("sounds", sounds)
        .with("played", carried.played);
    list.add(one);
  }
  return list;
}

Json lost_json(const Instrument& stock, const SetInFull& set) {
  Json list = Json::list();
  for (const LostFingering& lost : set.lost) {
    Json one = Json::object();
    one.with("note", pitch_id(lost.note))
        .with("fingering", fingering_json(stock, lost.fingering))
        .with("played", lost.played);
    list.add(one);
  }
  return list;
}

Json cost_json(const SetCost& cost) {
  Json json = Json::object();
  json.with("known", cost.known)
      .with("from", cost.known ? Json(cost.low) : Json())
      .with("to", cost.known ? Json(cost.high) : Json())
      .with("currency", cost.currency)
      .with("grams", cost.grams)
      .with("hours", cost.hours);
  return json;
}

Json standing_json(const SetStanding& standing) {
  Json json = Json::object();
  json.with("same_finding", standing.same_finding)
      .with("pays", standing.pays)
      .with("best", standing.best)
      .with("least_share", standing.least_share)
      .with("greatest_share", standing.greatest_share);
  return json;
}

Json set_json(const PayoffReport& report, std::size_t v) {
  const SetPayoff& sum = report.payoff.sets[v];
  const SetInFull set = report.in_full(v);
  const Variant& variant = report.variants[v];
  Json members = Json::list();
  for (std::size_t member : variant.members) members.add(report.conversions[member].id);
  const auto& front = report.payoff.front;
  Json json = Json::object();
  json.with("conversions", members)
      .with("cost", cost_json(variant.cost))
      .with("within_budget", within(variant.cost, report.payoff.budget))
      .with("on_front", std::ranges::find(front, v) != front.end())
      .with("gain", sum.balance.gain)
      .with("share", sum.balance.share())
      .with("relieved_by_share", sum.balance.relieved)
      .with("spoiled_by_share", sum.balance.spoiled)
      .with("finding", finding_id(finding(sum.balance)))
      .with("changed_share", sum.changed_share)
      .with("passages", pieces_json(report, v, set))
      .with("relieved", turns_json(report.repertoire, set.relieved))
      .with("spoiled", turns_json(report.repertoire, set.spoiled))
      .with("relearning", relearning_json(report.repertoire, set.relearning))
      .with("carried_to_stock", carried_json(variant.played.instrument, set))
      .with("harmless_habits", set.harmless_habits)
      .with("lost", lost_json(report.variants.front().played.instrument, set))
      .with("standing", report.payoff.worlds > 0 ? standing_json(report.payoff.standing[v]) : Json())
      .with("regulation_check", regulation_check_list(variant.played.instrument));
  return json;
}

Json conversion_json(const ConversionSheet& sheet) {
  Json json = Json::object();
  json.with("id", sheet.id)
      .with("name", sheet.name)
      .with("what", sheet.what)
      .with("figures_basis", sheet.figures_basis)
      .with("work", sheet.work)
      .with("upkeep", sheet.upkeep);
  return json;
}

Json repertoire_json(const Repertoire& repertoire) {
  Json passages = Json::list();
  for (const Piece& piece : repertoire.pieces) {
    Json one = Json::object();
    one.with("name", piece.name)
        .with("file", piece.passage.file)
        .with("bars", piece.bars)
        .with("weight", piece.weight)
        .with("times", piece.times)
        .with("notes", piece.passage.notes.size())
        .with("tempo_qpm", piece.passage.tempo.tempo_at(ScoreTime()).value());
    passages.add(one);
  }
  Json skipped = Json::list();
  for (const Remark& remark : repertoire.skipped) {
    Json one = Json::object();
    one.with("file", remark.within).with("why", remark.what);
    skipped.add(one);
  }
  Json json = Json::object();
  json.with("name", repertoire.name).with("file", repertoire.file).with("passages", passages).with("skipped", skipped);
  return json;
}

}  // namespace

void payoff_json(const PayoffReport& report, const TextSink& sink) {
  Json conversions = Json::list();
  for (const ConversionSheet& sheet : report.conversions) conversions.add(conversion_json(sheet));
  Json refused = Json::list();
  for (const RefusedSet& set : report.refused) {
    Json members = Json::list();
    for (std::size_t member : set.members) members.add(report.conversions[member].id);
    Json one = Json::object();
    one.with("conversions", members).with("why", set.why);
    refused.add(one);
  }
  Json json = document("payoff");
  json.with("instrument", instrument_json(report.variants.front().played))
      .with("repertoire", repertoire_json(report.repertoire))
      .with("conversions", conversions)
      .with("refused", refused)
      .with("budget", optional_json(report.payoff.budget))
      .with("samples", report.payoff.worlds)
      .with("stock_points", report.payoff.sets.front().balance.stock_points)
      .with("noticeable_share", noticeable_share)
      .with("best", report.payoff.best)
      .with("sets", Json())
      .with("advice", advice(report))
      .with("rests_on", rests_on(report))
      .with("cautions", cautions());
  send_with_list(
      text_of(json), "sets", report.variants.size(), [&](std::size_t v) { return set_json(report, v); }, sink);
}

}  // namespace fingerway
