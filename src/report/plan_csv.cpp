#include <fmt/format.h>

#include "fingerway/plan/trills.hpp"
#include "fingerway/report/csv.hpp"
#include "fingerway/report/view.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

/// A field as RFC 4180 wants it: quoted where it holds a comma, a quote or a line break.
std::string field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + "\"";
}

/// The shortest text that reads back as the same number.
std::string exact(double value) { return fmt::format("{}", value); }

std::string row(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) line += (i > 0 ? "," : "") + field(cells[i]);
  return line + "\r\n";
}

std::vector<std::string> cells_of(const Played& played, const Passage& passage, const Plan& plan, std::size_t i) {
  const NoteView note = note_view(played, passage, plan, i);
  const NoteEvent& event = passage.notes[i];
  const PlannedNote& planned = plan.notes[i];
  const auto& arrive = planned.arrive;
  std::vector<std::string> moves;
  if (note.arrival) {
    for (const MoveView& move : note.arrival->moves) moves.push_back(move.words);
  }
  const auto of_arrival = [&](auto number) { return arrive ? exact(number(*arrive)) : std::string(); };
  return {std::to_string(i),
          note.bar,
          note.beat,
          name(event.spelling),
          event.other ? name(*event.other) : "",
          std::to_string(sounding(event.pitch, played.instrument.transposition).key),
          exact(passage.tempo.at(event.onset).count()),
          exact((passage.tempo.at(event.onset + event.length) - passage.tempo.at(event.onset)).count()),
          note.compact,
          note.other_compact,
          planned.candidate ? one_line(note.fingering) : "",
          note.mark,
          note.matters ? "yes" : "no",
          note.origin,
          note.standing,
          planned.rate ? exact(planned.rate->value()) : "",
          of_arrival([](const Arrival& a) { return a.step.time.count(); }),
          of_arrival([](const Arrival& a) { return a.context.available.count(); }),
          of_arrival([](const Arrival& a) { return a.load(); }),
          of_arrival([](const Arrival& a) { return a.step.gap.count(); }),
          of_arrival([](const Arrival& a) { return a.step.awkwardness().value(); }),
          joined(moves, "; "),
          joined(note.warnings, "; ")};
}

}  // namespace

std::string plan_csv(const Played& played, const Passage& passage, const Plan& plan) {
  std::string text = row({"index",          "measure",        "beat",      "written",
                          "written_with",   "sounding_midi",  "onset_ms",  "length_ms",
                          "fingering",      "fingering_with", "by_finger", "mark",
                          "choice_matters", "origin",         "standing",  "notes_per_second",
                          "time_ms",        "available_ms",   "load",      "gap_ms",
                          "awkwardness",    "moves",          "warnings"});
  for (std::size_t i = 0; i < plan.notes.size(); ++i) text += row(cells_of(played, passage, plan, i));
  return text;
}

}  // namespace fingerway
