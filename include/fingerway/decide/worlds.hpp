// What this part answers: other worlds that are as plausible as ours: another hand, level and tempo, other constants
// within their ranges. It draws no conclusion from them.
#pragma once

#include <cstddef>
#include <string_view>

#include "fingerway/instrument/instrument.hpp"
#include "fingerway/motion/numbers.hpp"
#include "fingerway/music/passage.hpp"

namespace fingerway {

/// One way things may be. World 0 is the one asked for; every other is drawn from its own number alone, so that fewer
/// samples are the first of more.
struct World {
  std::size_t number = 0;
  Level level = Level::amateur;
  MotionNumbers numbers;
  double tempo = 1.0;  ///< factor on every tempo
};

/// Tempos are drawn up to this share slower or faster.
inline constexpr double tempo_spread = 0.1;

/// How far off an assumed place of a touch may be (assumed: about a third of a key's width).
inline constexpr Mm place_spread{3.0};

/// Every number is drawn evenly from its range, each for itself, but for the three reaches of the hand: a hand is large
/// or small as a whole. The level asked for is kept in half of the worlds, each other one drawn in a quarter.
[[nodiscard]] World world(std::size_t number, const MotionNumbers& numbers, Level level);
/// The instrument with every assumed place of a touch moved up to `place_spread` along and across; a touch moves alike
/// whatever conversions are laid over. Measured places stay.
[[nodiscard]] Instrument in_world(const World& world, Instrument instrument);
/// The passage at that world's tempo.
[[nodiscard]] Passage in_world(const World& world, Passage passage);

}  // namespace fingerway
