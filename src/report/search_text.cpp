#include "fingerway/report/search.hpp"

#include "payoff_view.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string key_words(const Instrument& instrument, TouchId touch) {
  return touch_words(instrument, touch) + " (" + std::string(words(instrument.touches[touch.index].finger)) + ")";
}

std::string pad_name(const Instrument& instrument, PadId pad) {
  const Pad& p = instrument.pads[pad.index];
  return "the " + (p.label.empty() ? p.id : p.label);
}

std::string pair_words(const HardPair& pair) { return pitch_words(pair.low) + "~" + pitch_words(pair.high); }

std::string price_words(const std::vector<ElementaryChange>& changes) {
  std::vector<std::string> names;
  for (const ElementaryChange& change : changes) {
    names.emplace_back(change.price == PriceClass::small    ? "small"
                       : change.price == PriceClass::middle ? "middle"
                                                            : "large");
  }
  return listed(names);
}

std::string pairs_text(const SearchReport& report) {
  Table table({{.head = "pair"},
               {.head = "played", .align = Align::right},
               {.head = "stock", .align = Align::right},
               {.head = "as in", .widest = 60}});
  for (const HardPair& pair : report.result.pairs) {
    table.row({pair_words(pair), rounded(pair.played, 0), rounded(pair.rate.value(), 1),
               site_words(report.repertoire, pair.example)});
  }
  return table.text();
}

std::string set_text(const SearchReport& report, std::size_t number) {
  const ProposedSet& set = report.result.proposed[number];
  const Instrument& instrument = report.stock.instrument;
  std::string text = "\n" + std::to_string(number + 1) + ". saves " + rounded(set.balance.gain, 0) + " points, " +
                     percent(set.balance.share()) + "; relieves " + rounded(set.balance.relieved, 0) + ", spoils " +
                     rounded(set.balance.spoiled, 0) + " notes as played; price class " + price_words(set.changes) +
                     "\n";
  for (const ElementaryChange& change : set.changes) text += paragraph("   - ", change_words(instrument, change));
  std::vector<std::string> rates;
  for (std::size_t p = 0; p < set.rates.size(); ++p) {
    const HardPair& pair = report.result.pairs[p];
    rates.push_back(pair_words(pair) + " " + rounded(pair.rate.value(), 1) + " → " + rounded(set.rates[p].value(), 1));
  }
  text += paragraph("   notes a second: ", joined(rates, ", "));
  std::vector<std::string> lost;
  for (const LostFingering& one : set.lost) {
    lost.push_back(pitch_words(one.note) + " as " + compact(instrument, one.fingering));
  }
  if (!lost.empty()) text += paragraph("   loses: ", joined(lost, "; "));
  return text;
}

}  // namespace

std::string change_words(const Instrument& instrument, const ElementaryChange& change) {
  switch (change.kind) {
    case ChangeKind::opens:
      return key_words(instrument, change.touch) + " also lets " + pad_name(instrument, change.pad) + " open";
    case ChangeKind::closes: {
      std::string text =
          key_words(instrument, change.touch) + " also holds " + pad_name(instrument, change.pad) + " shut";
      if (change.price == PriceClass::large) text += ", which is parted from its lever and sprung open";
      return text;
    }
    case ChangeKind::duplicate:
      return "a second " + touch_words(instrument, change.touch) + " for the " + std::string(words(change.finger)) +
             ", beside its " + touch_words(instrument, change.beside);
    case ChangeKind::roller:
      break;
  }
  return "a roller between " + touch_words(instrument, change.touch) + " and " +
         touch_words(instrument, change.beside) + " (" +
         std::string(words(instrument.touches[change.touch.index].finger)) + ")";
}

std::string search_text(const SearchReport& report) {
  const SearchResult& result = report.result;
  std::string text = heading("What would help? " + report.repertoire.name, '=');
  std::vector<Labelled> lines = {{"Repertoire", report.repertoire.file}};
  for (Labelled& line : instrument_lines(report.stock)) lines.push_back(std::move(line));
  lines.push_back({"Tried", counted(result.tried, "set", "sets") + " of up to three of " +
                                counted(result.changes, "change", "changes") + " within reach"});
  text += labelled_lines(lines) + "\n";
  if (result.pairs.empty()) {
    return text + paragraph("", "No change from note to note is laborious or out of reach: there is nothing to help.") +
           foot();
  }
  text += heading("Pairs of notes that are too hard, in notes a second there and back") + pairs_text(report);
  text += "\n" + heading("Changes that would help");
  if (result.proposed.empty()) text += paragraph("", "None of the sets tried saves anything over this repertoire.");
  for (std::size_t i = 0; i < result.proposed.size(); ++i) text += set_text(report, i);
  text += "\n" + compact_key();
  text +=
      bullets("What this rests on",
              {"Only the mechanism and the hand are looked at: not the room on the body, the posts, the weight or the "
               "seal. The pads' place along the body is taken from the keys that move them now.",
               "Price classes: small for a roller, middle for an arm or tab on keys that are there, large where a pad "
               "is parted from its lever or a new key is made. They are assumed.",
               "Write a proposal as a conversion file to plan, compare and price it like any other."});
  for (const Remark& skipped : report.repertoire.skipped) {
    text += paragraph("", "Skipped: " + skipped.within + ": " + skipped.what);
  }
  return text + foot();
}

}  // namespace fingerway
