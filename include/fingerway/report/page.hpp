// What this part answers: a plan or a comparison as one HTML file to look at and to print, finger lanes included.
// The file needs no script and asks for nothing outside itself.
#pragma once

#include <string>
#include <vector>

#include "fingerway/decide/compare.hpp"
#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// The page of the first plan; `plans` must not be empty.
[[nodiscard]] std::string plan_page(const Played& played, const Passage& passage, const std::vector<Plan>& plans);

/// Both instruments, one above the other on one time axis.
[[nodiscard]] std::string compare_page(const Played& stock, const Played& converted, const Passage& passage,
                                       const Comparison& comparison);

}  // namespace fingerway
