#include <algorithm>
#include <map>

#include "compare_view.hpp"
#include "fingerway/report/text.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

/// Fingerings that differ only in touches held without need, told as one.
struct Family {
  const Candidate* lean = nullptr;
  TouchSet may_stay;
};

std::vector<Family> families(const std::vector<Candidate>& candidates) {
  std::map<Fingering, std::size_t> place;
  std::vector<Family> result;
  const auto key = [](const Candidate& c) {
    return Fingering{.pressed = c.fingering.pressed - c.spare, .half = c.fingering.half, .flicked = c.fingering.flicked};
  };
  // Table lines come first and stand for themselves, even where a touch of theirs could go.
  for (const Candidate& c : candidates) {
    if (c.origin != Origin::table && !c.minimal) continue;
    place.emplace(key(c), result.size());
    result.push_back({.lean = &c, .may_stay = {}});
  }
  for (const Candidate& c : candidates) {
    const auto found = place.find(key(c));
    if (found != place.end()) result[found->second].may_stay |= c.fingering.pressed - result[found->second].lean->fingering.pressed;
  }
  return result;
}

std::string facts_of(const TableFingering& line, const Candidate& candidate) {
  std::vector<std::string> facts;
  if (candidate.origin == Origin::table) {
    facts.emplace_back(words(line.standing));
    if (line.cents) facts.push_back(rounded(line.cents->value(), 0) + " cents");
    for (Trait trait : line.traits) facts.emplace_back(words(trait));
    if (doubtful(line.evidence.confidence) || !line.confirmed_whole) facts.emplace_back("doubtful source");
  } else {
    facts.push_back("derived, as " + (line.mark.empty() ? std::string(words(line.standing)) : "“" + line.mark + "”"));
  }
  return joined(facts, ", ");
}

std::string note_text(const Instrument& instrument, WrittenPitch pitch, const std::vector<Candidate>& candidates) {
  std::string text = "\n" + pitch_words(pitch) + "\n";
  Table table({{.head = "  mark", .widest = 16}, {.head = "fingering", .widest = 44}, {.head = "", .widest = 34}});
  for (const Family& family : families(candidates)) {
    const TableFingering& line = instrument.table[family.lean->line];
    const bool own = family.lean->origin == Origin::table;
    table.row({"  " + (own ? line.mark : ""), compact(instrument, family.lean->fingering), facts_of(line, *family.lean)});
    if (!family.may_stay.empty()) {
      table.remark("may stay down, one or more: " + touches_short(instrument, family.may_stay, Script::signs));
    }
  }
  const std::string body = table.text();
  // The head of the columns stands once, at the top of the chart.
  return text + body.substr(body.find('\n') + 1);
}

std::string conversion_text(const ConversionSheet& sheet) {
  std::vector<Labelled> lines = {{"Conversion", sheet.name.empty() ? sheet.id : sheet.name}};
  if (!sheet.what.empty()) lines.push_back({"What it does", sheet.what});
  if (sheet.cost_low && sheet.cost_high) {
    lines.push_back({"Cost", rounded(*sheet.cost_low, 0) + " to " + rounded(*sheet.cost_high, 0) + " " + sheet.currency +
                                 (sheet.figures_basis.empty() ? "" : " (" + sheet.figures_basis + " figures)")});
  }
  if (sheet.grams) lines.push_back({"Weight added", rounded(*sheet.grams, 0) + " g"});
  if (sheet.hours) lines.push_back({"Bench hours", rounded(*sheet.hours, 0)});
  return "\n" + labelled_lines(lines) + bullets("Work for the repairer", sheet.work) + bullets("Upkeep", sheet.upkeep);
}

}  // namespace

std::string chart_text(const Played& played) {
  std::string text = heading("Fingering chart", '=') + labelled_lines(instrument_lines(played)) + "\n" + compact_key() +
                     paragraph("", "Table fingerings come first, then the leanest of each derived way. Touches that "
                                   "may stay down do not change the note; try them.");
  for (const auto& [pitch, candidates] : played.derivation.by_pitch) {
    text += note_text(played.instrument, pitch, candidates);
  }
  return text + foot();
}

std::string chart_against_text(const Played& played, const Played& other) {
  const Difference change = difference(played.instrument, played.derivation, other.instrument, other.derivation);
  std::string text = heading("Fingerings gained and lost", '=') +
                     labelled_lines({{"From", instrument_words(played.instrument)}, {"To", instrument_words(other.instrument)}}) +
                     "\n" + compact_key();
  text += changed_text("Gained", changed_notes(other.instrument, change.gained));
  text += changed_text("Lost", changed_notes(played.instrument, change.lost));
  for (const ConversionSheet& sheet : other.instrument.conversions) text += conversion_text(sheet);
  text += bullets("Regulation check list", regulation_check_list(other.instrument));
  return text + foot();
}

}  // namespace fingerway
