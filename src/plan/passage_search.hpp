// What this part answers: the best path through a passage, priced as it goes. Private to plan.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "fingerway/plan/plan.hpp"
#include "passage_ways.hpp"

namespace fingerway {

/// The best path through a passage, and the least limiting load of any path where that was sought too.
struct Found {
  std::vector<std::uint32_t> at;
  Weight weight = 0;
  std::optional<Load> least_limit;
};
enum class Sought : std::uint8_t { path, path_and_limit };

/// On one note only some ways may be taken.
struct OnlyAt {
  std::size_t note = 0;
  std::function<bool(std::uint32_t way)> allowed;
};

/// Goes through the passage once, from its end. The path is empty where none of the ways allowed can be reached; a
/// passage as it is can always be played somehow.
[[nodiscard]] Found search(const PassageWays& passage, const std::optional<OnlyAt>& only, Sought sought);

/// The plan along a path.
[[nodiscard]] Plan plan_along(const Passage& passage, const PassageWays& ways, const std::vector<std::uint32_t>& at,
                              std::optional<Load> least_limit);

}  // namespace fingerway
