// What this part answers: a plan or a comparison as one HTML file to look at and to print, finger lanes included.
// The file needs no script and asks for nothing outside itself.
#pragma once

#include <string>
#include <vector>

#include "fingerway/decide/compare.hpp"
#include "fingerway/plan/plan.hpp"
#include "fingerway/report/lanes.hpp"

namespace fingerway {

/// A line of engraved music as SVG, with the notes whose lanes stand under it. The SVG may come from anywhere: only
/// what draws is taken over.
struct PageSystem {
  std::string svg;
  LaneSpan span;
};

/// The page of the first plan; `plans` must not be empty. With engraved systems, each has its lanes under it.
[[nodiscard]] std::string plan_page(const Played& played, const Passage& passage, const std::vector<Plan>& plans,
                                    const std::vector<PageSystem>& engraved = {});

/// Both instruments, one above the other on one time axis.
[[nodiscard]] std::string compare_page(const Played& stock, const Played& converted, const Passage& passage,
                                       const Comparison& comparison, const std::vector<PageSystem>& engraved = {});

}  // namespace fingerway
