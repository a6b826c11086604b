// What this part answers: one instrument in the hands of one player, with all that is worked out once for both.
// It holds no passage.
#pragma once

#include "fingerway/mechanism/candidates.hpp"
#include "fingerway/motion/transition.hpp"

namespace fingerway {

/// An instrument, a hand at a level, and what follows from them.
struct Played {
  Instrument instrument;
  Works works;
  Derivation derivation;
  HandOnInstrument hand;
};

[[nodiscard]] Played played(Instrument instrument, const MotionNumbers& numbers, Level level);

}  // namespace fingerway
