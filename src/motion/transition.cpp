#include "fingerway/motion/transition.hpp"

#include <algorithm>

namespace fingerway {
namespace {

/// What happens in one change, counted over the fingers.
struct Tally {
  std::array<const Move*, finger_count> moves{};
  std::array<bool, 2> down{};
  std::array<bool, 2> up{};
  std::array<bool, 2> aside{};
  int movers = 0;
};

bool moving(const Move& move) { return move.direction != Direction::none; }

Tally tally(const HandOnInstrument& hand, const Posture& from, const Posture& to) {
  Tally t;
  for (Finger finger : all_fingers) {
    const std::size_t f = index(finger);
    const Move& move = hand.move(finger, from.at[f], to.at[f]);
    t.moves[f] = &move;
    if (!moving(move)) continue;
    ++t.movers;
    const auto side = static_cast<std::size_t>(hand_of(finger));
    t.down[side] |= move.direction == Direction::down;
    t.up[side] |= move.direction == Direction::up;
    t.aside[side] |= move.direction == Direction::aside;
  }
  return t;
}

/// How much wider the fingers scatter when they do not all go the same way.
double contrary_factor(const MotionNumbers& n, const Tally& t) {
  for (std::size_t side : {0U, 1U}) {
    if (int(t.down[side]) + int(t.up[side]) + int(t.aside[side]) > 1) return n.contrary_one_hand.value;
  }
  const bool contrary = (t.down[0] && (t.up[1] || t.aside[1])) || (t.up[0] && (t.down[1] || t.aside[1])) ||
                        (t.aside[0] && (t.down[1] || t.up[1]));
  return contrary ? n.contrary_two_hands.value : 1.0;
}

Ms hidden(const MotionNumbers& n, const StepContext& context) {
  return std::max(context.tongued ? Ms(n.tongue_hides.value) : Ms(0), context.silence);
}

void add_terms(Step& step, const HandOnInstrument& hand, const Tally& t, const Posture& to) {
  const MotionNumbers& n = hand.numbers();
  auto term = [&](Term name) -> double& { return step.terms[static_cast<std::size_t>(name)]; };
  term(Term::fingers) = n.per_finger.value * (t.movers - 1);
  for (Finger finger : all_fingers) {
    const std::size_t f = index(finger);
    const Move& move = *t.moves[f];
    if (moving(move)) {
      term(Term::individuation) += n.independence_points.value * (1.0 - n.individuation[digit(finger)].value);
    }
    term(Term::moves) += move.points.value();
    if (digit(finger) == 4) continue;
    const Move& next = *t.moves[f + 1];
    if (moving(move) && moving(next) && move.direction != next.direction) {
      term(Term::differences) += 2 * n.per_difference.value;
    } else if (moving(move) != moving(next)) {
      term(Term::differences) += n.per_difference.value;
    }
    // A finger that must hold its touch beside one that moves tends to be taken along.
    const auto must_hold = [&](std::size_t g) {
      return !moving(*t.moves[g]) && to.at[g] < hand.states(all_fingers[g]).holds;
    };
    if (moving(move) && must_hold(f + 1)) {
      term(Term::holding) += n.independence_points.value * (1.0 - n.stationarity[digit(finger) + 1].value);
    }
    if (moving(next) && must_hold(f)) {
      term(Term::holding) += n.independence_points.value * (1.0 - n.stationarity[digit(finger)].value);
    }
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
  result.movers = t.movers;
  Ms raw_gap(0);
  const Ms hides = hidden(n, context);
  for (const Move* move : t.moves) {
    if (move->kind == MoveKind::impossible) {
      result.possible = false;
      return result;
    }
    Ms need = context.back_and_forth ? move->busy_again : move->busy;
    if (move->crosses) need = std::max(need, std::max(Ms(0), move->gap - hides) + Ms(n.shortest_sounding.value));
    result.slowest = std::max(result.slowest, need);
    result.travel = std::max(result.travel, move->travel);
    raw_gap = std::max(raw_gap, move->gap);
  }
  if (t.movers > 0) {
    const LevelNumbers& level = n.levels[static_cast<std::size_t>(hand.level())];
    const double range = n.spread[static_cast<std::size_t>(t.movers - 1)].value;
    result.spread = Ms(contrary_factor(n, t) * level.onset_scatter.value * range);
    result.gap = std::max(Ms(0), raw_gap + result.spread - hides);
    add_terms(result, hand, t, to);
  } else {
    for (const Move* move : t.moves) result.terms[static_cast<std::size_t>(Term::moves)] += move->points.value();
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
