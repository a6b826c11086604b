// What this part answers: the postures of one hand, numbered as they come up, and what changing between two of them is.
// Private to plan. Few postures and few kinds of change recur through a passage, so each is worked out once.
#pragma once

#include <map>
#include <vector>

#include "fingerway/motion/hand_step.hpp"

namespace fingerway {

/// The number of a posture of one hand, or of a kind of change.
using HandNumber = std::uint32_t;

class HandChanges {
 public:
  HandChanges(const HandOnInstrument& hand, Hand side) : hand_(hand), side_(side) {}

  [[nodiscard]] HandNumber number(const HandPosture& posture);
  [[nodiscard]] const HandPosture& posture(HandNumber number) const { return postures_[number]; }
  /// Changes that cost the same have the same number.
  [[nodiscard]] HandNumber change(HandNumber from, HandNumber to);
  [[nodiscard]] const HandStep& step(HandNumber change) const { return *steps_[change]; }
  /// How many kinds of change there are so far.
  [[nodiscard]] std::size_t kinds() const { return steps_.size(); }

 private:
  static constexpr HandNumber unknown = ~HandNumber{0};

  [[nodiscard]] HandNumber worked_out(HandNumber from, HandNumber to);

  const HandOnInstrument& hand_;
  Hand side_;
  std::map<HandPosture, HandNumber> numbers_;
  std::vector<HandPosture> postures_;
  std::vector<std::vector<HandNumber>> changes_;  ///< from posture, to posture; `unknown` where not worked out
  std::map<HandStep, HandNumber> kinds_;
  std::vector<const HandStep*> steps_;  ///< into kinds_
};

}  // namespace fingerway
