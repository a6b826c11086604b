// What this part answers: the move between two states of one finger, by the table of moves in DEVELOPERS.md.
// Private to motion: hand.cpp asks it once for every pair of states.
#pragma once

#include "fingerway/motion/hand.hpp"

namespace fingerway {

/// What moving one finger of one hand on one instrument depends on.
struct FingerFacts {
  const Instrument& instrument;
  const MotionNumbers& numbers;
  Ms half_cycle;
};

[[nodiscard]] Move move_between(const FingerFacts& facts, const FingerState& from, const FingerState& to);

}  // namespace fingerway
