// What this part answers: where the fingers can be on each note of a passage, idle ones included.
// Private to plan.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "fingerway/motion/hand_step.hpp"
#include "fingerway/plan/played.hpp"

namespace fingerway {

/// Left and right.
template <class T>
using BothHands = std::array<T, 2>;
inline constexpr std::array<Hand, 2> both_hands = {Hand::left, Hand::right};

/// For one note: for each finger, the touches it may be over while idle. Empty: at ease over its first touch.
using IdlePlaces = std::array<TouchSet, finger_count>;

/// For one note: what its admitted fingerings make each finger press.
struct FingerUse {
  std::array<TouchSet, finger_count> homes;   ///< home touches of the holds, and touches flicked
  std::array<TouchSet, finger_count> needed;  ///< of them those that some fingering cannot do without
};

[[nodiscard]] FingerUse finger_use(const Played& played, const std::vector<const Candidate*>& admitted);

/// Where fingers may wait. An idle finger is over a touch that it could press on the last note on which it was of use,
/// or one that the next note needs; before its first use, where that is. It is a bound on the model, not exact: with
/// every place on every note plans come out up to about 2 % lighter, at many times the cost (tests/plan/every_way.hpp).
[[nodiscard]] std::vector<IdlePlaces> idle_places(const std::vector<FingerUse>& uses);

/// One hand in any of several postures: each finger in one of some states.
class HandStates {
 public:
  /// Fingers must be added thumb first.
  void add_finger(const std::vector<StateIndex>& states);

  [[nodiscard]] std::span<const StateIndex> of(std::size_t digit) const {
    return {states_.data() + begin_[digit], states_.data() + begin_[digit + 1]};
  }
  /// Fingers that may be in more than one, one bit each.
  [[nodiscard]] unsigned several() const { return several_; }
  /// Of each finger the first.
  [[nodiscard]] const HandPosture& first() const { return first_; }
  /// One posture for each combination, the thumb's state changing last.
  void spell_out(std::vector<HandPosture>& postures) const;

 private:
  std::vector<StateIndex> states_;
  std::array<std::uint16_t, 6> begin_{};
  HandPosture first_;
  std::uint8_t fingers_ = 0, several_ = 0;
};

/// Where one hand can be with a fingering.
[[nodiscard]] HandStates hand_states(const Played& played, const Candidate& candidate, const IdlePlaces& places,
                                     Hand side);
/// All postures with a fingering: each of the left hand with each of the right.
[[nodiscard]] std::vector<Posture> postures(const Played& played, const Candidate& candidate, const IdlePlaces& places);

}  // namespace fingerway
