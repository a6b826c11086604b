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

/// Steps from one layer (rows) to the next (columns) that can be priced one by one. Columns stand in runs, whose steps
/// have a bound in common.
template <class S>
concept StepRows = requires(S& steps, std::size_t i, Weight enough) {
  { steps.rows() } -> std::convertible_to<std::size_t>;
  { steps.runs() } -> std::convertible_to<std::span<const std::uint32_t>>;  // first columns, and the end behind them
  steps.start_row(i);                                                       // the following speak of row i
  { steps.least_of_row() } -> std::convertible_to<Weight>;                  // no step of the row weighs less
  { steps.least_of_run(i) } -> std::convertible_to<Weight>;                 // no step of the row to run i does
  { steps.weight(i, i, enough) } -> std::convertible_to<Weight>;  // to run, column; if more than `enough`, any such
  { steps.limiting_load(i, i) } -> std::convertible_to<std::optional<Load>>;  // nothing: no such step
};

/// The way on from each node of a layer.
struct WaysOn {
  std::vector<Weight> weight;       ///< to the end, the nodes' own left out; `forbidden` where there is none
  std::vector<std::uint32_t> next;  ///< the node of the next layer; of equals the lowest
};

/// The runs with what is least ahead of each; the one with the least comes first, so that a row is left as soon as
/// nothing better can come.
template <class T>
struct RunsAhead {
  std::vector<T> least;
  std::vector<std::uint32_t> order;

  RunsAhead(std::span<const std::uint32_t> runs, std::span<const T> ahead)
      : least(runs.size() - 1), order(least.size()) {
    for (std::size_t r = 0; r < least.size(); ++r) {
      least[r] = *std::min_element(ahead.begin() + runs[r], ahead.begin() + runs[r + 1]);
    }
    std::iota(order.begin(), order.end(), 0U);
    std::ranges::stable_sort(order, {}, [&](std::uint32_t r) { return least[r]; });
  }
};

/// From the least weights ahead of one layer (`ahead`, by column) to what is ahead of the nodes of the layer before it.
template <StepRows Steps>
[[nodiscard]] WaysOn ways_on(Steps& steps, std::span<const Weight> ahead) {
  const std::span<const std::uint32_t> runs = steps.runs();
  const RunsAhead<Weight> by_run(runs, ahead);
  WaysOn result{.weight = std::vector<Weight>(steps.rows(), forbidden),
                .next = std::vector<std::uint32_t>(steps.rows(), 0)};
  std::uint32_t run = 0;
  for (std::size_t i = 0; i < result.next.size(); ++i) {
    steps.start_row(i);
    Weight least = forbidden;
    std::uint32_t next = 0;
    const auto offer = [&](std::uint32_t r, std::uint32_t column) {
      if (is_forbidden(ahead[column])) return;
      const Weight total = ahead[column] + steps.weight(r, column, least - ahead[column]);
      if (total < least || (total == least && column < next)) {
        least = total;
        next = column;
        run = r;
      }
    };
    // Rows beside each other mostly go on alike.
    if (i > 0 && !is_forbidden(result.weight[i - 1])) offer(run, result.next[i - 1]);
    const Weight floor = steps.least_of_row();
    for (const std::uint32_t r : by_run.order) {
      if (by_run.least[r] + floor > least) break;
      if (by_run.least[r] + steps.least_of_run(r) > least) continue;
      for (std::uint32_t column = runs[r]; column < runs[r + 1]; ++column) offer(r, column);
    }
    if (is_forbidden(least)) continue;
    result.weight[i] = least;
    result.next[i] = next;
  }
  return result;
}

/// The same for the smallest largest load on the way to the end; the largest number where there is no way. Nodes have
/// no load here.
template <StepRows Steps>
[[nodiscard]] std::vector<Load> smoothest_on(Steps& steps, std::span<const Load> ahead) {
  const std::span<const std::uint32_t> runs = steps.runs();
  const RunsAhead<Load> by_run(runs, ahead);
  std::vector<Load> result(steps.rows(), std::numeric_limits<Load>::max());
  for (std::size_t i = 0; i < result.size(); ++i) {
    steps.start_row(i);
    for (const std::uint32_t r : by_run.order) {
      if (by_run.least[r] >= result[i]) break;
      for (std::uint32_t column = runs[r]; column < runs[r + 1] && by_run.least[r] < result[i]; ++column) {
        if (ahead[column] >= result[i]) continue;
        if (const std::optional<Load> load = steps.limiting_load(r, column)) {
          result[i] = std::min(result[i], std::max(*load, ahead[column]));
        }
      }
    }
  }
  return result;
}

}  // namespace fingerway
