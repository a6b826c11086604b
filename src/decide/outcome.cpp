#include "fingerway/decide/outcome.hpp"

#include <algorithm>
#include <cmath>

namespace fingerway {
namespace {

Verdict worse(Verdict a, Verdict b) { return std::max(a, b); }

Verdict verdict_of(const MotionNumbers& numbers, const NoteEvent& event, const PlannedNote& note) {
  if (!note.candidate || (event.other && !note.other)) return Verdict::out_of_reach;
  Verdict result = Verdict::fluent;
  if (note.rate) result = worse(result, verdict(numbers, *note.rate));
  if (note.arrive) {
    result = worse(result, note.arrive->step.possible ? change_verdict(note.arrive->load()) : Verdict::out_of_reach);
  }
  return result;
}

OutcomeNote kept(const PlannedNote& note) {
  OutcomeNote result;
  if (note.candidate) result.fingering = note.candidate->fingering;
  if (note.other) result.other = note.other->fingering;
  if (note.rate) result.rate = note.rate->value();
  if (note.arrive) {
    result.arrive = OutcomeChange{.time_ms = note.arrive->step.time.count(),
                                  .available_ms = note.arrive->context.available.count(),
                                  .possible = note.arrive->step.possible};
  }
  return result;
}

}  // namespace

Verdict change_verdict(double load) {
  if (load > 1.0) return Verdict::out_of_reach;
  if (load > workable_load) return Verdict::laborious;
  return load > fluent_load ? Verdict::workable : Verdict::fluent;
}

PassageOutcome outcome_of(const Played& played, const Passage& passage, OutcomeDetail detail) {
  const Plan plan = plan_passage(played, passage, {}).front();
  const MotionNumbers& numbers = played.hand.numbers();
  PassageOutcome result;
  result.micro_points = plan.summary.weight;
  result.awkwardness = plan.summary.awkwardness.value();
  result.worst_load = plan.summary.worst_load;
  result.complete = plan.summary.complete;
  result.fits = plan.summary.fits && plan.summary.complete;
  if (plan.summary.ceiling) result.ceiling = plan.summary.ceiling->value();
  if (plan.summary.best_ceiling) result.best_ceiling = plan.summary.best_ceiling->value();
  const Weight missing = weight(Points(numbers.misfit_points.value + numbers.overload_points.value));
  result.verdicts.reserve(plan.notes.size());
  if (detail == OutcomeDetail::notes) result.notes.reserve(plan.notes.size());
  for (std::size_t i = 0; i < plan.notes.size(); ++i) {
    const PlannedNote& note = plan.notes[i];
    result.verdicts.push_back(verdict_of(numbers, passage.notes[i], note));
    if (!note.candidate) result.micro_points += missing;
    if (detail == OutcomeDetail::notes) result.notes.push_back(kept(note));
  }
  return result;
}

}  // namespace fingerway
