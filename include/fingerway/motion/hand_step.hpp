// What this part answers: one hand's part in a change from note to note, and how two parts make the whole.
// All that a change costs in time and effort is a function of these two parts; the search prices pairs of them.
#pragma once

#include <array>

#include "fingerway/motion/transition.hpp"

namespace fingerway {

/// Where the five fingers of one hand are, thumb first.
struct HandPosture {
  std::array<StateIndex, 5> at{};

  friend auto operator<=>(const HandPosture&, const HandPosture&) = default;
};
/// One hand of a posture.
[[nodiscard]] HandPosture hand_of(const Posture& posture, Hand side);
[[nodiscard]] Posture joined(const HandPosture& left, const HandPosture& right);

/// What one hand does in a change, whatever the other does and whatever the music asks.
struct HandStep {
  bool possible = true;
  bool crosses = false;          ///< some finger leaves one touch for another
  std::uint8_t movers = 0;       ///< fingers that move for the next note
  std::uint8_t groups = 0;       ///< ways in which fingers move: 0 to 3 of down, up, aside
  std::uint8_t ways = 0;         ///< which: bits 1, 2, 4
  std::uint8_t differences = 0;  ///< neighbouring fingers that do different things; contrary ones count twice
  Ms busy{0}, busy_again{0};     ///< of the busiest finger, once and back and forth
  Ms gap{0}, crossing_gap{0};    ///< largest, of all fingers and of those that cross
  Ms travel{0};                  ///< longest way of an idle finger
  double individuation = 0.0;    ///< points
  double holding = 0.0;          ///< points
  double moves = 0.0;            ///< points

  friend auto operator<=>(const HandStep&, const HandStep&) = default;
};

/// One hand's part in the change between two postures.
[[nodiscard]] HandStep hand_step(const HandOnInstrument& hand, Hand side, const HandPosture& from,
                                 const HandPosture& to);

/// The change of the whole hand, from what the left and the right one do.
[[nodiscard]] Step joined(const HandOnInstrument& hand, const HandStep& left, const HandStep& right,
                          const StepContext& context);

}  // namespace fingerway
