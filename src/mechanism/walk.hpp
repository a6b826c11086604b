// What this part answers: all hands that set the pads as one target demands, as families of interchangeable holds.
// Private to mechanism.
#pragma once

#include <vector>

#include "fingerway/mechanism/candidates.hpp"

namespace fingerway {

/// Touches that have a say in the pads a target demands, at the start of the note too.
[[nodiscard]] TouchSet touches_that_matter(const Works& works, const Target& target);

/// Walks finger by finger through the holds, taking those that press the same of `telling` as one, and dropping a
/// branch as soon as a demanded pad that no later finger can move stands wrong. `telling` must contain
/// touches_that_matter(). Families come in the order of the walk.
[[nodiscard]] std::vector<Family> walk(const Instrument& instrument, const Works& works,
                                       const std::array<std::vector<Hold>, finger_count>& holds, const Target& target,
                                       std::size_t target_index, TouchSet telling);

}  // namespace fingerway
