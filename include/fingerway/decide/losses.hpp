// What this part answers: where one plan of a passage costs more than another.
// It plans nothing.
#pragma once

#include <vector>

#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// A note at which the player's own way costs more: its fingering and the change to it.
struct Loss {
  std::size_t note = 0;
  Points points{0};
};

/// Every note that costs more than a twentieth of a point more, the dearest first. Both plans are of one passage.
[[nodiscard]] std::vector<Loss> losses(const Plan& own, const Plan& best);

}  // namespace fingerway
