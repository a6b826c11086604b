// What this part answers: what an instrument answers to a fingering learned on another, in words and as JSON has it.
// It works out nothing (decide/relearning, decide/borrowed).
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fingerway/decide/relearning.hpp"

namespace fingerway {

/// "other-note".
[[nodiscard]] std::string_view carried_id(CarriedResult result);
/// "sounds D2": what follows after the fingering. `sounds` are the notes that answer.
[[nodiscard]] std::string carried_words(CarriedResult result, const std::vector<WrittenPitch>& sounds);

}  // namespace fingerway
