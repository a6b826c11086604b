// What this part answers: the least weight to the end, one layer at a time, over steps that are priced only when asked
// for. It is the search for passages of any length: nothing is stored but one way on for each node.
// Equal in its answers to `best_path` (paths.hpp) over the same steps written out; the tests hold them to it.
#pragma once

#include <algorithm>
#include <concepts>
#include <numeric>
#include <optional>
#include <span>
#include <vector>

#include "fingerway/search/layers.hpp"

namespace fingerway {

/// Steps from one layer (rows) to the next (columns) that can be priced one by one.
template <class S>
concept StepRows = requires(S& steps, std::size_t i, Weight enough, std::span<const std::uint32_t> order) {
  { steps.rows() } -> std::convertible_to<std::size_t>;
  { steps.columns() } -> std::convertible_to<std::size_t>;
  steps.arrange(order);                                        // column k now means node order[k]
  steps.start_row(i);                                          // the following speak of row i
  { steps.least_of_row() } -> std::convertible_to<Weight>;     // no step of the row weighs less
  { steps.weight(i, enough) } -> std::convertible_to<Weight>;  // of column i; if more than `enough`, any such
  { steps.limiting_load(i) } -> std::convertible_to<std::optional<Load>>;  // nothing: no such step
};

/// The way on from each node of a layer.
struct WaysOn {
  std::vector<Weight> weight;       ///< to the end, the nodes' own included; `forbidden` where there is none
  std::vector<std::uint32_t> next;  ///< the node of the next layer; of equals the lowest
};

/// Sorts what is ahead, so that a row is left as soon as nothing better can come: most steps are never priced.
template <class T>
[[nodiscard]] std::vector<std::uint32_t> lightest_first(std::span<const T> ahead) {
  std::vector<std::uint32_t> order(ahead.size());
  std::iota(order.begin(), order.end(), 0U);
  std::ranges::stable_sort(order, {}, [&](std::uint32_t i) { return ahead[i]; });
  return order;
}

/// From the least weights ahead of one layer (`ahead`, by column) to those of the layer before it, whose nodes weigh
/// `own`.
template <StepRows Steps>
[[nodiscard]] WaysOn ways_on(Steps& steps, std::span<const Weight> own, std::span<const Weight> ahead) {
  const std::vector<std::uint32_t> order = lightest_first(ahead);
  std::vector<Weight> sorted;
  for (const std::uint32_t j : order) sorted.push_back(ahead[j]);
  steps.arrange(order);
  WaysOn result{.weight = std::vector<Weight>(own.size(), forbidden),
                .next = std::vector<std::uint32_t>(own.size(), 0)};
  for (std::size_t i = 0; i < own.size(); ++i) {
    if (is_forbidden(own[i])) continue;
    steps.start_row(i);
    const Weight floor = steps.least_of_row();
    Weight least = forbidden;
    std::uint32_t next = 0;
    for (std::size_t k = 0; k < sorted.size() && sorted[k] + floor <= least; ++k) {
      const Weight total = sorted[k] + steps.weight(k, least - sorted[k]);
      if (total < least || (total == least && order[k] < next)) {
        least = total;
        next = order[k];
      }
    }
    if (is_forbidden(least)) continue;
    result.weight[i] = own[i] + least;
    result.next[i] = next;
  }
  return result;
}

/// The same for the smallest largest load on the way to the end; the largest number where there is no way. Nodes have
/// no load here.
template <StepRows Steps>
[[nodiscard]] std::vector<Load> smoothest_on(Steps& steps, std::size_t nodes, std::span<const Load> ahead) {
  constexpr Load no_way = std::numeric_limits<Load>::max();
  const std::vector<std::uint32_t> order = lightest_first(ahead);
  steps.arrange(order);
  std::vector<Load> result(nodes, no_way);
  for (std::size_t i = 0; i < nodes; ++i) {
    steps.start_row(i);
    for (std::size_t k = 0; k < order.size() && ahead[order[k]] < result[i]; ++k) {
      if (const std::optional<Load> load = steps.limiting_load(k)) {
        result[i] = std::min(result[i], std::max(*load, ahead[order[k]]));
      }
    }
  }
  return result;
}

/// What went on before over the same steps, for when the same lies ahead again: after a change elsewhere, or in music
/// that repeats. Weights ahead that differ by the same amount everywhere are the same but for that amount.
class RememberedWays {
 public:
  /// As ways_on(); `own` and the steps must be the same at every call.
  template <StepRows Steps>
  [[nodiscard]] WaysOn ways_on(Steps& steps, std::span<const Weight> own, std::vector<Weight> ahead) {
    const Weight least = ahead.empty() ? 0 : std::ranges::min(ahead);
    if (is_forbidden(least)) return fingerway::ways_on(steps, own, std::span<const Weight>(ahead));
    for (Weight& weight : ahead) weight = is_forbidden(weight) ? forbidden : weight - least;
    Remembered& kept = found(ahead);
    if (kept.ahead.empty()) {
      kept.on = fingerway::ways_on(steps, own, std::span<const Weight>(ahead));
      kept.ahead = std::move(ahead);
    }
    WaysOn on = kept.on;
    for (Weight& weight : on.weight) weight = is_forbidden(weight) ? forbidden : weight + least;
    return on;
  }
  /// As smoothest_on().
  template <StepRows Steps>
  [[nodiscard]] std::vector<Load> smoothest_on(Steps& steps, std::size_t nodes, const std::vector<Load>& ahead) {
    if (loads_.empty() || ahead != loads_ahead_) {
      loads_ = fingerway::smoothest_on(steps, nodes, std::span<const Load>(ahead));
      loads_ahead_ = ahead;
    }
    return loads_;
  }

 private:
  struct Remembered {
    std::vector<Weight> ahead;
    WaysOn on;
  };
  static constexpr std::size_t most = 4;

  /// What is remembered for the same ahead; else an empty place for it, the oldest.
  Remembered& found(const std::vector<Weight>& ahead) {
    const auto known = std::ranges::find(kept_, ahead, &Remembered::ahead);
    if (known != kept_.end()) return *known;
    if (kept_.size() < most) return kept_.emplace_back();
    oldest_ = (oldest_ + 1) % most;
    kept_[oldest_] = {};
    return kept_[oldest_];
  }

  std::vector<Remembered> kept_;
  std::size_t oldest_ = 0;
  std::vector<Load> loads_ahead_, loads_;
};

}  // namespace fingerway
