#include "fingerway/motion/transition.hpp"

#include "fingerway/motion/hand_step.hpp"

namespace fingerway {

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

Step step(const HandOnInstrument& hand, const Posture& from, const Posture& to, const StepContext& context) {
  return joined(hand, hand_step(hand, Hand::left, hand_of(from, Hand::left), hand_of(to, Hand::left)),
                hand_step(hand, Hand::right, hand_of(from, Hand::right), hand_of(to, Hand::right)), context);
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
