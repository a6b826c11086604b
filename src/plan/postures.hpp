// What this part answers: where the fingers can be on each note of a passage, idle ones included.
// Private to plan.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "fingerway/plan/played.hpp"

namespace fingerway {

/// For one note: for each finger, the touches it may be over while idle. Empty: at ease over its first touch.
using IdlePlaces = std::array<TouchSet, finger_count>;

/// For one note: what its admitted fingerings make each finger press.
struct FingerUse {
  std::array<TouchSet, finger_count> homes;   ///< home touches of the holds, and touches flicked
  std::array<TouchSet, finger_count> needed;  ///< of them those that some fingering cannot do without
  std::array<bool, finger_count> always{};    ///< no admitted fingering leaves the finger idle
};

[[nodiscard]] FingerUse finger_use(const Played& played, const std::vector<const Candidate*>& admitted);

/// An idle finger is where it last let go, or where the next note needs it; before its first use, where that is. So it
/// sets out for its next touch at most one note ahead of the note before it (assumed: nobody plans further with a
/// finger that has nothing to do; travelling earlier costs the same).
[[nodiscard]] std::vector<IdlePlaces> idle_places(const std::vector<FingerUse>& uses);

/// All postures of a fingering: one for each combination of places of its idle fingers.
[[nodiscard]] std::vector<Posture> postures(const Played& played, const Candidate& candidate, const IdlePlaces& places);
}  // namespace fingerway
