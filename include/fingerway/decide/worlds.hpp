// What this part answers: other worlds that are as plausible as ours: another hand, level and tempo, other constants
// within their ranges. It draws no conclusion from them.
#pragma once

#include <cstddef>
#include <string_view>

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

/// Every number is drawn evenly from its range, each for itself, but for the three reaches of the hand: a hand is large
/// or small as a whole. The level asked for is kept in half of the worlds, each other one drawn in a quarter.
[[nodiscard]] World world(std::size_t number, const MotionNumbers& numbers, Level level);
/// The passage at that world's tempo.
[[nodiscard]] Passage in_world(const World& world, Passage passage);

}  // namespace fingerway
