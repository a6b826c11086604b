// What this part answers: where the fingers can be on each note of a passage, idle ones included.
// Private to plan.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "fingerway/motion/hand_step.hpp"
#include "fingerway/plan/played.hpp"

namespace fingerway {

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

/// All postures of one hand with a fingering: one for each combination of places of its idle fingers.
[[nodiscard]] std::vector<HandPosture> hand_postures(const Played& played, const Candidate& candidate,
                                                     const IdlePlaces& places, Hand side);
/// The same of both hands: each of the left with each of the right.
[[nodiscard]] std::vector<Posture> postures(const Played& played, const Candidate& candidate, const IdlePlaces& places);

}  // namespace fingerway
