// What this part answers: who plays, in words and in JSON: level, what was measured, what is ruled out or not learned.
// Private to report.
#pragma once

#include <string>
#include <vector>

#include "fingerway/plan/played.hpp"
#include "json_value.hpp"

namespace fingerway {

/// "typical hand, amateur level", or the player's name, level and what was measured.
[[nodiscard]] std::string player_line(const Played& played);
/// What the player's own limits and wishes are, one sentence each; empty for a typical player.
[[nodiscard]] std::vector<std::string> player_terms(const Played& played);
/// Null for a typical player.
[[nodiscard]] Json player_json(const Played& played);

}  // namespace fingerway
