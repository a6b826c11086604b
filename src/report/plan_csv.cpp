#include "csv_row.hpp"
#include "fingerway/report/csv.hpp"
#include "fingerway/report/view.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::vector<std::string> cells_of(const Played& played, const Passage& passage, const Plan& plan, std::size_t i) {
  const NoteView note = note_view(played, passage, plan, i);
  const NoteEvent& event = passage.notes[i];
  const PlannedNote& planned = plan.notes[i];
  const auto& arrive = planned.arrive;
  std::vector<std::string> moves;
  if (note.arrival) {
    for (const MoveView& move : note.arrival->moves) moves.push_back(move.words);
  }
  const auto of_arrival = [&](auto number) { return arrive ? csv_number(number(*arrive)) : std::string(); };
  return {std::to_string(i),
          note.bar,
          note.beat,
          name(event.spelling),
          event.other ? name(*event.other) : "",
          std::to_string(sounding(event.pitch, played.instrument.transposition).key),
          csv_number(passage.tempo.at(event.onset).count()),
          csv_number((passage.tempo.at(event.onset + event.length) - passage.tempo.at(event.onset)).count()),
          note.compact,
          note.other_compact,
          planned.candidate ? one_line(note.fingering) : "",
          note.mark,
          note.matters ? "yes" : "no",
          note.origin,
          note.standing,
          planned.rate ? csv_number(planned.rate->value()) : "",
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
  std::string text = csv_row({"index",          "measure",        "beat",      "written",
                              "written_with",   "sounding_midi",  "onset_ms",  "length_ms",
                              "fingering",      "fingering_with", "by_finger", "mark",
                              "choice_matters", "origin",         "standing",  "notes_per_second",
                              "time_ms",        "available_ms",   "load",      "gap_ms",
                              "awkwardness",    "moves",          "warnings"});
  for (std::size_t i = 0; i < plan.notes.size(); ++i) text += csv_row(cells_of(played, passage, plan, i));
  return text;
}

}  // namespace fingerway
