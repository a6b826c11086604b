#include "fingerway/motion/transition.hpp"

#include <algorithm>
#include <bit>

namespace fingerway {
namespace {

/// One bit a finger, by index.
using FingerBits = std::uint32_t;
constexpr FingerBits left_hand = 0b00000'11111;
constexpr FingerBits right_hand = left_hand << 5U;
/// Fingers that have a neighbour above them in the same hand.
constexpr FingerBits with_next = 0b01111'01111;

/// What happens in one change, gathered over the fingers.
struct Tally {
  std::array<const Move*, finger_count> moves{};
  FingerBits down = 0;
  FingerBits up = 0;
  FingerBits aside = 0;
  FingerBits holding = 0;  ///< hold the same touch before and after

  [[nodiscard]] FingerBits moving() const { return down | up | aside; }
};

Tally tally(const HandOnInstrument& hand, const Posture& from, const Posture& to) {
  Tally t;
  for (std::size_t f = 0; f < finger_count; ++f) {
    const Move& move = hand.move(all_fingers[f], from.at[f], to.at[f]);
    t.moves[f] = &move;
    const FingerBits bit = FingerBits{1} << f;
    switch (move.direction) {
      case Direction::none:
        if (hand.holds(all_fingers[f], to.at[f])) t.holding |= bit;
        break;
      case Direction::down:
        t.down |= bit;
        break;
      case Direction::up:
        t.up |= bit;
        break;
      case Direction::aside:
        t.aside |= bit;
        break;
    }
  }
  return t;
}

/// How much wider the fingers scatter when they do not all go the same way.
double contrary_factor(const MotionNumbers& n, const Tally& t) {
  const auto ways = [&](FingerBits fingers) {
    return int((t.down & fingers) != 0) + int((t.up & fingers) != 0) + int((t.aside & fingers) != 0);
  };
  if (ways(left_hand) > 1 || ways(right_hand) > 1) return n.contrary_one_hand.value;
  return ways(left_hand | right_hand) > 1 ? n.contrary_two_hands.value : 1.0;
}

Ms hidden(const MotionNumbers& n, const StepContext& context) {
  return std::max(context.tongued ? Ms(n.tongue_hides.value) : Ms(0), context.silence);
}

template <class Visit>
void each_finger(FingerBits fingers, const Visit& visit) {
  for (; fingers != 0; fingers &= fingers - 1) visit(static_cast<std::size_t>(std::countr_zero(fingers)));
}

void add_terms(Step& step, const MotionNumbers& n, const Tally& t) {
  auto term = [&](Term name) -> double& { return step.terms[static_cast<std::size_t>(name)]; };
  const FingerBits moving = t.moving();
  // Fingers of one hand that all go the same way move as one; the first of each such group counts in full.
  int groups = 0;
  for (FingerBits way : {t.down, t.up, t.aside}) {
    groups += int((way & left_hand) != 0) + int((way & right_hand) != 0);
  }
  const int followers = std::popcount(moving) - groups;
  term(Term::fingers) = n.per_finger.value * (groups - 1 + n.same_way_share.value * followers);
  const FingerBits only_one = (moving ^ (moving >> 1U)) & with_next;
  const auto parts = [](FingerBits way) { return way ^ (way >> 1U); };
  const FingerBits contrary = moving & (moving >> 1U) & with_next & (parts(t.down) | parts(t.up) | parts(t.aside));
  term(Term::differences) = n.per_difference.value * (std::popcount(only_one) + 2 * std::popcount(contrary));
  const double points = n.independence_points.value;
  // The index tells how much the others move along when one finger moves alone; those that go the same way anyway are
  // no loss, and with three of them there is none at all.
  for (FingerBits hand : {left_hand, right_hand}) {
    for (FingerBits way : {t.down & hand, t.up & hand, t.aside & hand}) {
      const double alone = std::max(0.0, 1.0 - (std::popcount(way) - 1) / 3.0);
      each_finger(way, [&](std::size_t f) {
        term(Term::individuation) += points * alone * (1.0 - n.individuation[f % 5].value);
      });
    }
  }
  // A finger that must hold its touch in a hand of which others move tends to be taken along, more so beside them.
  const FingerBits beside = ((moving & with_next) << 1U) | (with_next & (moving >> 1U));
  for (FingerBits hand : {left_hand, right_hand}) {
    if ((moving & hand) == 0) continue;
    each_finger(t.holding & hand, [&](std::size_t f) {
      const double share = (beside >> f & 1U) != 0 ? 1.0 : n.far_holder_share.value;
      term(Term::holding) += points * share * (1.0 - n.stationarity[f % 5].value);
    });
  }
}

}  // namespace

std::string_view words(Term term) {
  switch (term) {
    case Term::fingers:
      return "more than one finger";
    case Term::differences:
      return "neighbours doing different things";
    case Term::individuation:
      return "fingers that move others along";
    case Term::holding:
      return "neighbours that must hold still";
    case Term::moves:
      break;
  }
  return "jumps, slides, rolls and travel";
}

Points Step::awkwardness() const {
  double sum = 0.0;
  for (double t : terms) sum += t;
  return Points(sum);
}

Step step(const HandOnInstrument& hand, const Posture& from, const Posture& to, const StepContext& context) {
  const MotionNumbers& n = hand.numbers();
  const Tally t = tally(hand, from, to);
  Step result;
  result.movers = std::popcount(t.moving());
  Ms raw_gap(0);
  const Ms hides = hidden(n, context);
  double moves_points = 0.0;
  for (const Move* move : t.moves) {
    if (move->kind == MoveKind::stay) continue;
    if (move->kind == MoveKind::impossible) {
      result.possible = false;
      return result;
    }
    Ms need = context.back_and_forth ? move->busy_again : move->busy;
    if (move->crosses) need = std::max(need, std::max(Ms(0), move->gap - hides) + Ms(n.shortest_sounding.value));
    result.slowest = std::max(result.slowest, need);
    result.travel = std::max(result.travel, move->travel);
    raw_gap = std::max(raw_gap, move->gap);
    moves_points += move->points.value();
  }
  result.terms[static_cast<std::size_t>(Term::moves)] = moves_points;
  if (result.movers > 0) {
    const LevelNumbers& level = n.levels[static_cast<std::size_t>(hand.level())];
    const double range = n.spread[static_cast<std::size_t>(result.movers - 1)].value;
    result.spread = Ms(contrary_factor(n, t) * level.onset_scatter.value * range);
    result.gap = std::max(Ms(0), raw_gap + result.spread - hides);
    add_terms(result, n, t);
  }
  result.time = std::max(result.slowest + result.spread, result.travel);
  return result;
}

std::vector<FingerMove> finger_moves(const HandOnInstrument& hand, const Posture& from, const Posture& to) {
  std::vector<FingerMove> moves;
  for (Finger finger : all_fingers) {
    const std::size_t f = index(finger);
    const Move& move = hand.move(finger, from.at[f], to.at[f]);
    if (move.kind == MoveKind::stay) continue;
    const auto& states = hand.states(finger).all;
    moves.push_back({.finger = finger, .move = move, .from = states[from.at[f]], .to = states[to.at[f]]});
  }
  return moves;
}

Points strain(const HandOnInstrument& hand, const Posture& posture) {
  Points sum(0);
  for (Finger finger : all_fingers) {
    const std::size_t f = index(finger);
    if (digit(finger) >= 1 && digit(finger) <= 3) sum += hand.reach(finger, posture.at[f], posture.at[f + 1]);
  }
  return sum;
}

NotesPerSecond trill_rate(const HandOnInstrument& hand, const Posture& a, const Posture& b) {
  const StepContext trilling{.available = Ms(0), .silence = Ms(0), .tongued = false, .back_and_forth = true};
  const Step there = step(hand, a, b, trilling);
  const Step back = step(hand, b, a, trilling);
  const Ms both = there.time + back.time;
  if (!there.possible || !back.possible || both <= Ms(0)) return NotesPerSecond(0);
  return NotesPerSecond(2000.0 / both.count());
}

}  // namespace fingerway
