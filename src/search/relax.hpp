// What this part answers: the passes over a layered graph that all searches share: what is the least weight from each
// node to the end, from the start to each node, and which path does the first imply. Private to `search`.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "fingerway/search/paths.hpp"

namespace fingerway {

/// One weight a node, layer after layer in one block.
class NodeWeights {
 public:
  explicit NodeWeights(const LayeredGraph& graph);

  [[nodiscard]] std::span<Weight> layer(std::size_t l) { return {&values_[first_[l]], first_[l + 1] - first_[l]}; }
  [[nodiscard]] std::span<const Weight> layer(std::size_t l) const {
    return {&values_[first_[l]], first_[l + 1] - first_[l]};
  }

 private:
  std::vector<std::size_t> first_;  // one more than layers
  std::vector<Weight> values_;      // one more than nodes, so that an empty layer at the end has an address
};

/// True when the graph has the shape its header promises; for assert.
[[nodiscard]] bool is_well_formed(const LayeredGraph& graph);

/// True when some layer has no node at all, so that no path can exist.
[[nodiscard]] bool has_empty_layer(const LayeredGraph& graph);

/// Anything forbidden becomes `forbidden` itself, so that adding two more weights cannot overflow.
[[nodiscard]] constexpr Weight saturated(Weight sum) { return is_forbidden(sum) ? forbidden : sum; }

/// Which nodes and steps a search may use: all of them, or those up to a load.
struct AnyLoad {
  [[nodiscard]] static Weight weight(Weight w, const Load*) { return w; }
};
struct UpToLoad {
  Load limit;
  [[nodiscard]] Weight weight(Weight w, const Load* load) const { return *load <= limit ? w : forbidden; }
};

/// The least `step + to_go` over a row of steps. Four minima side by side: a single one would wait for itself at every
/// step, and baseline x86-64 has no vector minimum of 64-bit integers.
template <class Rule>
[[nodiscard]] Weight least_onward(const Steps& steps, std::size_t i, std::span<const Weight> to_go, Rule rule) {
  const Weight* weight = steps.weight.data() + i * steps.to;
  const Load* load = steps.load.data() + i * steps.to;
  const Weight* onward = to_go.data();
  const std::size_t n = steps.to;
  std::array<Weight, 4> least = {2 * forbidden, 2 * forbidden, 2 * forbidden, 2 * forbidden};
  std::size_t j = 0;
  for (; j + 4 <= n; j += 4) {
    for (std::size_t lane = 0; lane < 4; ++lane) {
      least[lane] = std::min(least[lane], rule.weight(weight[j + lane], load + j + lane) + onward[j + lane]);
    }
  }
  for (; j < n; ++j) least[0] = std::min(least[0], rule.weight(weight[j], load + j) + onward[j]);
  return std::min(std::min(least[0], least[1]), std::min(least[2], least[3]));
}

/// For every node the least weight from it (its own included) to the end; no layer may be empty.
template <class Rule>
[[nodiscard]] NodeWeights weights_to_go(const LayeredGraph& graph, Rule rule) {
  NodeWeights to_go(graph);
  for (std::size_t l = graph.layer_count(); l-- > 0;) {
    const std::span<Weight> here = to_go.layer(l);
    const bool last = l + 1 == graph.layer_count();
    for (std::size_t i = 0; i < here.size(); ++i) {
      const Weight own = rule.weight(graph.nodes[l][i], &graph.node_loads[l][i]);
      const Weight onward = last ? 0 : saturated(least_onward(*graph.steps[l], i, to_go.layer(l + 1), rule));
      here[i] = saturated(own + onward);
    }
  }
  return to_go;
}

/// The lexicographically first of the lightest paths, read off the weights to go: at each layer the first node that
/// still reaches the least weight. So no back pointers are kept; one row of steps a layer is added up again instead.
template <class Rule>
[[nodiscard]] std::optional<Path> first_lightest(const LayeredGraph& graph, const NodeWeights& to_go, Rule rule) {
  std::vector<std::uint32_t> at;
  at.reserve(graph.layer_count());
  for (std::size_t l = 0; l < graph.layer_count(); ++l) {
    const std::span<const Weight> here = to_go.layer(l);
    std::size_t chosen = 0;
    Weight least = forbidden;
    for (std::size_t j = 0; j < here.size(); ++j) {
      Weight total = here[j];
      if (l > 0) {
        const Steps& steps = *graph.steps[l - 1];
        const std::size_t k = at.back() * steps.to + j;
        total += rule.weight(steps.weight[k], &steps.load[k]);
      }
      if (!is_forbidden(total) && total < least) {
        least = total;
        chosen = j;
      }
    }
    if (is_forbidden(least)) return std::nullopt;
    at.push_back(static_cast<std::uint32_t>(chosen));
  }
  return priced(graph, at);
}

/// For every node the least weight from the start to it, its own included; no layer may be empty.
[[nodiscard]] NodeWeights weights_so_far(const LayeredGraph& graph);

}  // namespace fingerway
