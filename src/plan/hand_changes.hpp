// What this part answers: the postures of one hand, numbered as they come up, and what changing between two of them is.
// Private to plan. Few postures and few kinds of change recur through a passage, so each is worked out once.
#pragma once

#include <vector>

#include "fingerway/motion/hand_step.hpp"
#include "numbered.hpp"

namespace fingerway {

/// The number of a posture of one hand, or of a kind of change.
using HandNumber = std::uint32_t;

class HandChanges {
 public:
  HandChanges(const HandOnInstrument& hand, Hand side) : hand_(hand), side_(side) {}

  [[nodiscard]] HandNumber number(const HandPosture& posture) { return postures_.number(posture); }
  [[nodiscard]] const HandPosture& posture(HandNumber number) const { return postures_[number]; }
  /// Changes that cost the same have the same number.
  [[nodiscard]] HandNumber change(HandNumber from, HandNumber to) {
    if (from < changes_.size() && to < changes_[from].size() && changes_[from][to] != unknown)
      return changes_[from][to];
    return newly_met(from, to);
  }
  [[nodiscard]] const HandStep& step(HandNumber change) const { return kinds_[change]; }

 private:
  static constexpr HandNumber unknown = ~HandNumber{0};
  struct PostureHash {
    std::size_t operator()(const HandPosture& posture) const;
  };
  struct StepHash {
    std::size_t operator()(const HandStep& step) const;
  };

  [[nodiscard]] HandNumber newly_met(HandNumber from, HandNumber to);

  const HandOnInstrument& hand_;
  Hand side_;
  Numbered<HandPosture, PostureHash> postures_;
  Numbered<HandStep, StepHash> kinds_;
  std::vector<std::vector<HandNumber>> changes_;  ///< from posture, to posture; `unknown` where not worked out
};

}  // namespace fingerway
