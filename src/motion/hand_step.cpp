#include "fingerway/motion/hand_step.hpp"

namespace fingerway {

HandPosture hand_of(const Posture& posture, Hand side) {
  HandPosture half;
  const std::size_t first = side == Hand::left ? 0 : 5;
  std::copy_n(posture.at.begin() + static_cast<std::ptrdiff_t>(first), 5, half.at.begin());
  return half;
}

Posture joined(const HandPosture& left, const HandPosture& right) {
  Posture posture;
  std::ranges::copy(left.at, posture.at.begin());
  std::ranges::copy(right.at, posture.at.begin() + 5);
  return posture;
}

Joining::Joining(const HandOnInstrument& hand, const StepContext& context)
    : hand_(&hand),
      hides_(static_cast<float>(
          std::max(context.tongued ? hand.numbers().tongue_hides.value : 0.0, context.silence.count()))),
      shortest_sounding_(static_cast<float>(hand.numbers().shortest_sounding.value)),
      back_and_forth_(context.back_and_forth) {}

Step joined(const HandOnInstrument& hand, const HandStep& left, const HandStep& right, const StepContext& context) {
  Step result;
  result.possible = left.possible() && right.possible();
  if (!result.possible) return result;
  const Joining joining(hand, context);
  const WholeStep whole = joining.whole(joining.share(left), joining.share(right));
  result.movers = whole.movers;
  result.slowest = Ms(whole.slowest);
  result.spread = Ms(whole.spread);
  result.gap = Ms(whole.gap);
  result.travel = Ms(whole.travel);
  result.time = Ms(whole.time);
  result.awkward = whole.awkward;
  const Together& l = hand.together(left.tally.ways());
  const Together& r = hand.together(right.tally.ways());
  const auto term = [&](Term name) -> double& { return result.terms[static_cast<std::size_t>(name)]; };
  term(Term::fingers) = hand.fingers_points(l.ways, r.ways, whole.movers);
  term(Term::differences) = hand.numbers().per_difference.value * (l.differences + r.differences);
  term(Term::individuation) = l.individuation + r.individuation;
  term(Term::holding) = l.holding + r.holding;
  term(Term::moves) = left.moves + right.moves;
  return result;
}

}  // namespace fingerway
