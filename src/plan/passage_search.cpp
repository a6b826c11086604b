#include "passage_search.hpp"

#include <algorithm>

#include "back_pointers.hpp"
#include "plan_writer.hpp"

namespace fingerway {
namespace {

void keep_only(const std::optional<OnlyAt>& only, std::size_t note, std::vector<Weight>& ahead) {
  if (!only || only->note != note) return;
  for (std::uint32_t i = 0; i < ahead.size(); ++i) {
    if (!only->allowed(i)) ahead[i] = forbidden;
  }
}

}  // namespace

Found search(const PassageWays& passage, const std::optional<OnlyAt>& only) {
  Found found;
  if (passage.size() == 0) return found;
  BackPointers pointers;
  const std::size_t last = passage.size() - 1;
  std::vector<Weight> ahead = passage.ways(last)->weights;
  keep_only(only, last, ahead);
  std::vector<Load> loads(ahead.size(), 0);
  for (std::size_t i = last; i-- > 0;) {
    const auto prices = passage.prices(i);
    const std::vector<Weight>& own = prices->from().weights;
    const std::size_t width = ahead.size();
    WaysOn on = prices->remembered.ways_on(*prices, own, std::move(ahead));
    loads = prices->remembered.smoothest_on(*prices, own.size(), loads);
    pointers.add(on.next, width);
    ahead = std::move(on.weight);
    keep_only(only, i, ahead);
  }
  const auto best = std::ranges::min_element(ahead);
  if (is_forbidden(*best)) return found;
  found.weight = *best;
  found.at.reserve(passage.size());
  found.at.push_back(static_cast<std::uint32_t>(best - ahead.begin()));
  for (std::size_t i = 0; i < last; ++i) found.at.push_back(pointers.next(last - 1 - i, found.at.back()));
  found.least_limit = std::ranges::min(loads);
  return found;
}

Plan plan_along(const Passage& passage, const PassageWays& ways, const std::vector<std::uint32_t>& at,
                std::optional<Load> least_limit) {
  PlanWriter writer(ways.workshop().played(), passage);
  for (std::size_t i = 0; i < at.size(); ++i) {
    const auto note = ways.ways(i);
    writer.add(note->note, node(*note, ways.workshop().changes(), at[i]), note->weights[at[i]]);
  }
  return writer.done(least_limit);
}

}  // namespace fingerway
