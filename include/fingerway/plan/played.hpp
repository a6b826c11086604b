// What this part answers: one instrument in the hands of one player, with all that is worked out once for both.
// It holds no passage.
#pragma once

#include "fingerway/mechanism/candidates.hpp"
#include "fingerway/motion/player.hpp"
#include "fingerway/motion/transition.hpp"

namespace fingerway {

/// An instrument, a player's hand on it, and what follows from them. The derivation holds only what the player plays.
struct Played {
  Instrument instrument;
  Works works;
  Derivation derivation;
  HandOnInstrument hand;
  Player player = {};
};

/// In the hands of a typical player of that level.
[[nodiscard]] Played played(Instrument instrument, const MotionNumbers& numbers, Level level);
/// In the hands of one particular player, whose touches must be those of the instrument.
[[nodiscard]] Played played(Instrument instrument, const MotionNumbers& numbers, const Player& player);

/// True where the player can and knows how to play a note so. A fingering counts as the largest one of the table, or of
/// the player's own lists, that it contains; what it holds besides, the player must be ready to hold through.
[[nodiscard]] bool plays(const Player& player, const Instrument& instrument, WrittenPitch pitch,
                         const Fingering& fingering);

}  // namespace fingerway
