#include "compare_view.hpp"
#include "fingerway/report/text.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string facts_of(const TableFingering& line, const Candidate& candidate) {
  std::vector<std::string> facts;
  if (candidate.origin == Origin::table) {
    facts.emplace_back(words(line.standing));
    if (line.way == Way::harmonic) {
      facts.push_back("partial " + std::to_string(line.partial) + " of " +
                      name(chart_spelling(line.partial_of.value_or(line.pitch))));
    } else if (line.way != Way::plain) {
      facts.emplace_back(words(line.way));
    }
    if (line.cents) facts.push_back(rounded(line.cents->value(), 0) + " cents");
    for (Trait trait : line.traits) facts.emplace_back(words(trait));
    if (doubtful(line.evidence.confidence) || !line.confirmed_whole) facts.emplace_back("doubtful source");
  } else {
    facts.push_back("derived, as " + (line.mark.empty() ? std::string(words(line.standing)) : "“" + line.mark + "”"));
  }
  return joined(facts, ", ");
}

std::string note_text(const Played& played, WrittenPitch pitch, const std::vector<Candidate>& candidates) {
  const Instrument& instrument = played.instrument;
  std::string text = "\n" + pitch_words(pitch) + "\n";
  Table table({{.head = "  mark", .widest = 16}, {.head = "fingering", .widest = 44}, {.head = "", .widest = 34}});
  for (const Candidate& candidate : candidates) {
    const TableFingering& line = instrument.table[candidate.line];
    const bool own = candidate.origin == Origin::table;
    table.row({"  " + (own ? line.mark : ""), compact(instrument, candidate.fingering), facts_of(line, candidate)});
    const TouchSet stay = may_stay_down(played.instrument, played.derivation, pitch, candidate);
    if (own && !line.evidence.disputed.empty()) table.remark("sources disagree: " + line.evidence.disputed);
    if (!stay.empty()) table.remark("may stay down, one or more: " + touches_short(instrument, stay, Script::signs));
  }
  const std::string body = table.text();
  // The head of the columns stands once, at the top of the chart.
  return text + body.substr(body.find('\n') + 1);
}

/// What sources say differently about the keywork itself; about a fingering it stands with the fingering.
std::vector<std::string> disputes(const Instrument& instrument) {
  std::vector<std::string> lines;
  const auto add = [&](const std::string& part, const Evidence& evidence) {
    if (!evidence.disputed.empty()) lines.push_back(part + ": " + evidence.disputed);
  };
  for (const Pad& pad : instrument.pads) add(pad.label, pad.evidence);
  for (std::size_t i = 0; i < instrument.touches.size(); ++i) {
    if (!instrument.touches[i].removed) add(touch_words(instrument, TouchId(i)), instrument.touches[i].evidence);
  }
  for (const Rule& rule : instrument.rules) add(touches_short(instrument, rule.when, Script::signs), rule.evidence);
  return lines;
}

std::string conversion_text(const ConversionSheet& sheet) {
  std::vector<Labelled> lines = {{"Conversion", sheet.name.empty() ? sheet.id : sheet.name}};
  if (!sheet.what.empty()) lines.push_back({"What it does", sheet.what});
  if (sheet.cost_low && sheet.cost_high) {
    lines.push_back({"Cost", rounded(*sheet.cost_low, 0) + " to " + rounded(*sheet.cost_high, 0) + " " +
                                 sheet.currency +
                                 (sheet.figures_basis.empty() ? "" : " (" + sheet.figures_basis + " figures)")});
  }
  if (sheet.grams) lines.push_back({"Weight added", rounded(*sheet.grams, 0) + " g"});
  if (sheet.hours) lines.push_back({"Bench hours", rounded(*sheet.hours, 0)});
  return "\n" + labelled_lines(lines) + bullets("Work for the repairer", sheet.work) + bullets("Upkeep", sheet.upkeep);
}

}  // namespace

std::string chart_text(const Played& played) {
  std::string text = heading("Fingering chart", '=') + labelled_lines(instrument_lines(played)) + "\n" + compact_key() +
                     paragraph("",
                               "Table fingerings come first, then derived ones that hold no touch without need. "
                               "Touches that may stay down do not change the note.");
  for (const auto& [pitch, candidates] : played.derivation.by_pitch) {
    text += note_text(played, pitch, candidates);
  }
  return text + bullets("Where sources disagree about the keywork", disputes(played.instrument)) + foot();
}

std::string chart_against_text(const Played& played, const Played& other) {
  const Difference change = difference(played.instrument, played.derivation, other.instrument, other.derivation);
  std::string text =
      heading("Fingerings gained and lost", '=') +
      labelled_lines({{"From", instrument_words(played.instrument)}, {"To", instrument_words(other.instrument)}}) +
      "\n" + compact_key();
  text += changed_text("Gained", changed_notes(other.instrument, change.gained));
  text += changed_text("Lost", changed_notes(played.instrument, change.lost));
  if (!change.altered.empty()) {
    text += changed_text("The same touches, another sound", changed_notes(other.instrument, change.altered));
  }
  for (const ConversionSheet& sheet : other.instrument.conversions) text += conversion_text(sheet);
  text += bullets("Regulation check list", regulation_check_list(other.instrument));
  return text + foot();
}

}  // namespace fingerway
