#include "fingerway/plan/weigh.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace fingerway {
namespace {

bool drawback(Trait trait) {
  switch (trait) {
    case Trait::sharp:
    case Trait::flat:
    case Trait::stuffy:
    case Trait::unstable:
    case Trait::resistant:
      return true;
    case Trait::soft:
    case Trait::stable:
    case Trait::resonant:
      break;
  }
  return false;
}

/// The source names what is good about it and nothing bad.
bool praised(const TableFingering& line) {
  const auto good = [](Trait trait) { return trait == Trait::resonant || trait == Trait::stable; };
  return std::ranges::any_of(line.traits, good) && std::ranges::none_of(line.traits, drawback);
}

bool against(Trait trait, Dynamic dynamic) {
  switch (trait) {
    case Trait::soft:
    case Trait::stuffy:
      return dynamic >= Dynamic::f;
    case Trait::unstable:
    case Trait::resistant:
      return dynamic >= Dynamic::f || (dynamic >= Dynamic::ppp && dynamic <= Dynamic::p);
    case Trait::sharp:
    case Trait::flat:
    case Trait::stable:
    case Trait::resonant:
      break;
  }
  return false;
}

/// The posture of what is held; idle fingers anywhere.
Posture held_in(const Played& played, const Candidate& candidate) {
  Posture posture;
  for (std::size_t f = 0; f < finger_count; ++f) {
    const FingerStates& states = played.hand.states(all_fingers[f]);
    posture.at[f] = candidate.hold[f] != 0 ? states.holding(candidate.hold[f]) : states.at_ease();
  }
  return posture;
}

}  // namespace

std::string_view words(NoteTerm term) {
  switch (term) {
    case NoteTerm::standing:
      return "alternate, trill fingering or overblown partial";
    case NoteTerm::traits:
      return "tuning or tone drawbacks, as long as the note lasts";
    case NoteTerm::dynamic:
      return "against the dynamic";
    case NoteTerm::doubtful:
      return "doubtful source";
    case NoteTerm::spare:
      return "touches held without need";
    case NoteTerm::shading:
      return "pads shut below the note";
    case NoteTerm::strain:
      return "reach";
    case NoteTerm::rest:
      return "a touch that should rest";
    case NoteTerm::habit:
      break;
  }
  return "not what the player is used to";
}

std::string_view words(StepTerm term) {
  switch (term) {
    case StepTerm::effort:
      return "awkwardness, weighed by how fast it must go";
    case StepTerm::tightness:
      return "little time";
    case StepTerm::overload:
      return "too little time";
    case StepTerm::gap:
      return "audible gap";
    case StepTerm::passing:
      break;
  }
  return "passing notes";
}

Points NoteCost::total() const { return Points(std::accumulate(terms.begin(), terms.end(), 0.0)); }
Points StepCost::total() const { return Points(std::accumulate(terms.begin(), terms.end(), 0.0)); }

NoteCost note_cost(const Played& played, const Candidate& candidate, const NoteContext& context) {
  const MotionNumbers& n = played.hand.numbers();
  const TableFingering& line = played.instrument.table[candidate.line];
  const double seconds = context.length.count() / 1000.0;
  NoteCost cost;
  auto term = [&](NoteTerm name) -> double& { return cost.terms[static_cast<std::size_t>(name)]; };
  if (line.standing == Standing::alternate) {
    term(NoteTerm::standing) = n.alternate_points.value;
    // What sounds as well or better does not get worse by lasting.
    if (!praised(line)) term(NoteTerm::standing) += n.alternate_points_per_second.value * seconds;
  } else if (line.standing == Standing::trill_only && !context.trilled) {
    // In motion as quick as a trill the ear does not judge such a fingering; beyond it soon does.
    const double judged = std::max(0.0, seconds - 1.0 / n.workable_from.value);
    term(NoteTerm::standing) = n.trill_only_points.value + n.trill_only_points_per_second.value * judged;
    // It is for going there and back, not for passing through.
    const bool passes = context.after && context.before && *context.after != *context.before;
    if (passes) term(NoteTerm::standing) += n.pass_through_points.value;
  }
  // Lines stand in order of preference; so little only decides between equals.
  term(NoteTerm::standing) += n.later_line_points.value * played.derivation.targets[candidate.line].place;
  if (line.way == Way::harmonic && !context.trilled) term(NoteTerm::standing) += n.harmonic_points.value;
  for (Trait trait : line.traits) {
    if (drawback(trait)) term(NoteTerm::traits) += n.trait_points_per_second.value * seconds;
    if (against(trait, context.dynamic)) term(NoteTerm::dynamic) += n.dynamic_points.value;
  }
  if (doubtful(line.evidence.confidence)) term(NoteTerm::doubtful) = n.doubtful_points.value;
  if (!line.confirmed_whole) term(NoteTerm::doubtful) += n.doubtful_points.value;
  // Only what the candidate adds to its table line counts: the line's own muting keys are meant.
  const TouchSet added = candidate.spare - line.fingering.pressed;
  term(NoteTerm::spare) = n.spare_points.value * added.size();
  const PadStates pads = press(played.works, candidate.fingering.pressed, candidate.fingering.half);
  const PadSet shut = pads.closed - played.derivation.targets[candidate.line].states.closed;
  term(NoteTerm::shading) = n.shade_points_per_second.value * seconds * shut.size();
  term(NoteTerm::strain) = strain(played.hand, held_in(played, candidate)).value();
  const Fingering& f = candidate.fingering;
  term(NoteTerm::rest) = n.rest_points.value * ((f.pressed | f.flicked) & played.player.resting).size();
  const OwnFingering own{.pitch = line.pitch, .fingering = f, .after = context.after, .before = context.before};
  if (custom_of(played.player, own) == Custom::broken) term(NoteTerm::habit) = n.habit_points.value;
  return cost;
}

StepCost step_cost(const MotionNumbers& n, const Step& step, const StepContext& context, double passing) {
  const double load = step.load(context.available);
  StepCost cost;
  auto term = [&](StepTerm name) -> double& { return cost.terms[static_cast<std::size_t>(name)]; };
  term(StepTerm::effort) = step.awkwardness().value() * haste(n, load);
  term(StepTerm::tightness) = tightness(n, load);
  term(StepTerm::overload) = overload(n, load);
  term(StepTerm::gap) = n.gap_points.value * step.gap.count();
  term(StepTerm::passing) = n.blip_points.value * passing;
  return cost;
}

Weight weight(const StepCost& cost) {
  StepCost quiet = cost;
  Points passing(std::exchange(quiet.terms[static_cast<std::size_t>(StepTerm::passing)], 0.0));
  return weight(quiet.total()) + weight(passing);
}
Load load_units(double load) { return weight(Points(std::min(load, 1e6))); }

}  // namespace fingerway
