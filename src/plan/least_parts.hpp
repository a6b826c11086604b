// What this part answers: what a finger has to do at least where it may be in any of several states.
// Private to plan. Made once for each finger and states, and kept.
#pragma once

#include <array>
#include <memory>
#include <span>
#include <vector>

#include "fingerway/motion/hand.hpp"

namespace fingerway {

/// A finger in any of several states.
struct Several {
  std::vector<FingerPart> from;  ///< to each state, from any of these
  std::vector<FingerPart> to;    ///< from each state, to any of these
  bool alike = true;             ///< it never depends on which of them it is which way the finger goes
};

class LeastParts {
 public:
  explicit LeastParts(const HandOnInstrument& hand) : hand_(hand) {}

  /// Stays where it is.
  [[nodiscard]] const Several& of(Finger finger, std::span<const StateIndex> states);

 private:
  struct Known {
    std::vector<StateIndex> states;
    std::unique_ptr<Several> several;
  };

  const HandOnInstrument& hand_;
  std::array<std::vector<Known>, finger_count> known_;  ///< few
};

}  // namespace fingerway
