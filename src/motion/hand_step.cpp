#include "fingerway/motion/hand_step.hpp"

#include <algorithm>
#include <bit>

namespace fingerway {
namespace {

/// One bit a finger of the hand, by digit.
using FingerBits = std::uint32_t;
/// Fingers that have a neighbour above them.
constexpr FingerBits with_next = 0b01111;

template <class Visit>
void each_finger(FingerBits fingers, const Visit& visit) {
  for (; fingers != 0; fingers &= fingers - 1) visit(static_cast<std::size_t>(std::countr_zero(fingers)));
}

/// Which fingers go which way in one change, and which hold the same touch before and after.
struct Ways {
  FingerBits down = 0;
  FingerBits up = 0;
  FingerBits aside = 0;
  FingerBits holding = 0;

  [[nodiscard]] FingerBits moving() const { return down | up | aside; }

  void add(Direction direction, bool holds, FingerBits finger) {
    switch (direction) {
      case Direction::none:
        if (holds) holding |= finger;
        break;
      case Direction::down:
        down |= finger;
        break;
      case Direction::up:
        up |= finger;
        break;
      case Direction::aside:
        aside |= finger;
        break;
    }
  }
};

void add_effort(HandStep& step, const MotionNumbers& n, const Ways& w) {
  const FingerBits moving = w.moving();
  step.movers = static_cast<std::uint8_t>(std::popcount(moving));
  step.ways = static_cast<std::uint8_t>(int(w.down != 0) | int(w.up != 0) << 1 | int(w.aside != 0) << 2);
  step.groups = static_cast<std::uint8_t>(std::popcount(step.ways));
  const FingerBits only_one = (moving ^ (moving >> 1U)) & with_next;
  const auto parts = [](FingerBits way) { return way ^ (way >> 1U); };
  const FingerBits contrary = moving & (moving >> 1U) & with_next & (parts(w.down) | parts(w.up) | parts(w.aside));
  step.differences = static_cast<std::uint8_t>(std::popcount(only_one) + 2 * std::popcount(contrary));
  const double points = n.independence_points.value;
  // The index tells how much the others move along when one finger moves alone; those that go the same way anyway are
  // no loss, and with three of them there is none at all.
  for (FingerBits way : {w.down, w.up, w.aside}) {
    const double alone = std::max(0.0, 1.0 - (std::popcount(way) - 1) / 3.0);
    each_finger(way, [&](std::size_t f) { step.individuation += points * alone * (1.0 - n.individuation[f].value); });
  }
  if (moving == 0) return;
  // A finger that must hold its touch in a hand of which others move tends to be taken along, more so beside them.
  const FingerBits beside = ((moving & with_next) << 1U) | (with_next & (moving >> 1U));
  each_finger(w.holding, [&](std::size_t f) {
    const double share = (beside >> f & 1U) != 0 ? 1.0 : n.far_holder_share.value;
    step.holding += points * share * (1.0 - n.stationarity[f].value);
  });
}

/// How much wider the fingers scatter when they do not all go the same way.
double contrary_factor(const MotionNumbers& n, const HandStep& left, const HandStep& right) {
  if (left.groups > 1 || right.groups > 1) return n.contrary_one_hand.value;
  const auto ways = static_cast<unsigned>(left.ways | right.ways);
  return std::popcount(ways) > 1 ? n.contrary_two_hands.value : 1.0;
}

}  // namespace

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

HandStep hand_step(const HandOnInstrument& hand, Hand side, const HandPosture& from, const HandPosture& to) {
  HandStep result;
  Ways ways;
  for (std::size_t d = 0; d < 5; ++d) {
    const Finger finger = all_fingers[side == Hand::left ? d : d + 5];
    const Move& move = hand.move(finger, from.at[d], to.at[d]);
    if (move.kind == MoveKind::impossible) return {.possible = false};
    ways.add(move.direction, hand.holds(finger, to.at[d]), FingerBits{1} << d);
    if (move.kind == MoveKind::stay) continue;
    result.busy = std::max(result.busy, move.busy);
    result.busy_again = std::max(result.busy_again, move.busy_again);
    result.gap = std::max(result.gap, move.gap);
    if (move.crosses) {
      result.crosses = true;
      result.crossing_gap = std::max(result.crossing_gap, move.gap);
    }
    result.travel = std::max(result.travel, move.travel);
    result.moves += move.points.value();
  }
  add_effort(result, hand.numbers(), ways);
  return result;
}

Step joined(const HandOnInstrument& hand, const HandStep& left, const HandStep& right, const StepContext& context) {
  Step result;
  result.possible = left.possible && right.possible;
  if (!result.possible) return result;
  const MotionNumbers& n = hand.numbers();
  const Ms hides = std::max(context.tongued ? Ms(n.tongue_hides.value) : Ms(0), context.silence);
  result.movers = left.movers + right.movers;
  result.slowest =
      context.back_and_forth ? std::max(left.busy_again, right.busy_again) : std::max(left.busy, right.busy);
  if (left.crosses || right.crosses) {
    const Ms silent = std::max(Ms(0), std::max(left.crossing_gap, right.crossing_gap) - hides);
    result.slowest = std::max(result.slowest, silent + Ms(n.shortest_sounding.value));
  }
  result.travel = std::max(left.travel, right.travel);
  auto term = [&](Term name) -> double& { return result.terms[static_cast<std::size_t>(name)]; };
  term(Term::moves) = left.moves + right.moves;
  if (result.movers > 0) {
    const LevelNumbers& level = n.levels[static_cast<std::size_t>(hand.level())];
    const double range = n.spread[static_cast<std::size_t>(result.movers - 1)].value;
    result.spread = Ms(contrary_factor(n, left, right) * level.onset_scatter.value * range);
    result.gap = std::max(Ms(0), std::max(left.gap, right.gap) + result.spread - hides);
    // Fingers of one hand that all go the same way move as one; the first of each such group counts in full.
    const int groups = left.groups + right.groups;
    term(Term::fingers) = n.per_finger.value * (groups - 1 + n.same_way_share.value * (result.movers - groups));
    term(Term::differences) = n.per_difference.value * (left.differences + right.differences);
    term(Term::individuation) = left.individuation + right.individuation;
    term(Term::holding) = left.holding + right.holding;
  }
  result.time = std::max(result.slowest + result.spread, result.travel);
  return result;
}

}  // namespace fingerway
