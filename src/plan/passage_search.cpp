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
  std::vector<Weight> ahead, own;
  passage.weights(last, *passage.shape(last), ahead);
  keep_only(only, last, ahead);
  std::vector<Load> loads(ahead.size(), 0);
  for (std::size_t i = last; i-- > 0;) {
    const auto shape = passage.shape(i);
    RememberedWays& remembered = passage.remembered(i);
    const auto steps = [&]() -> StepPrices& { return passage.prices(i); };
    Weight more = 0;
    const WaysOn& on = remembered.ways_on(steps, ahead, more);
    pointers.add(on.next, ahead.size());
    loads = remembered.smoothest_on(steps, loads);
    passage.weights(i, *shape, own);
    ahead.resize(own.size());
    for (std::size_t way = 0; way < own.size(); ++way) {
      ahead[way] = is_forbidden(on.weight[way]) ? forbidden : on.weight[way] + more + own[way];
    }
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
    const auto shape = ways.shape(i);
    const Node node = ways.node(i, *shape, at[i]);
    writer.add({.pitch = shape->first->pitch,
                .other = shape->other,
                .candidate = node.candidate ? &shape->first->candidates[*node.candidate] : nullptr,
                .second = node.other ? &shape->seconds->candidates[*node.other] : nullptr},
               node, shape->pairs.empty() ? weight(node.cost.total()) : shape->pairs[at[i]].weight);
  }
  return writer.done(least_limit);
}

}  // namespace fingerway
