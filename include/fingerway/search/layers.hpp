// What this part answers: the layered graph a path is sought through, as numbers only.
// It knows nothing musical: layers of nodes, a weight and a load on every node and step.
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <vector>

namespace fingerway {

/// A search weight in micro-points: an integer, so that ties are exact under every compiler. May be negative.
using Weight = std::int64_t;
/// A load in millionths (1'000'000 = the step takes all the time there is); never negative.
using Load = std::int64_t;
/// The weight of a step or node that must not be taken. No weight may be greater, and the sum of the allowed weights
/// along any path must stay between -forbidden / 2 and forbidden / 2 (half a billion points for each of two
/// thousand notes fit); what reaches forbidden / 2 counts as forbidden.
inline constexpr Weight forbidden = std::numeric_limits<Weight>::max() / 4;

/// True for `forbidden`, also after allowed weights were added to it.
[[nodiscard]] constexpr bool is_forbidden(Weight weight) { return weight >= forbidden / 2; }

/// All steps from one layer to the next: row-major, `from` rows by `to` columns.
struct Steps {
  std::size_t from = 0;
  std::size_t to = 0;
  std::vector<Weight> weight;  ///< from x to; `forbidden` = no step
  std::vector<Load> load;      ///< from x to

  /// The weight of the step from node i to node j of the next layer.
  [[nodiscard]] Weight weight_at(std::size_t i, std::size_t j) const { return weight[i * to + j]; }
  /// The load of the step from node i to node j of the next layer.
  [[nodiscard]] Load load_at(std::size_t i, std::size_t j) const { return load[i * to + j]; }

  friend bool operator==(const Steps&, const Steps&) = default;
};

/// The graph: `nodes[l][i]` is the weight of node i of layer l (`forbidden` = not to be used), `steps[l]` leads from
/// layer l to l + 1. Equal steps may be shared between layers; the graph stores a pointer a layer, never an edge a
/// step.
struct LayeredGraph {
  std::vector<std::vector<Weight>> nodes;
  std::vector<std::vector<Load>> node_loads;        ///< same shape as `nodes`
  std::vector<std::shared_ptr<const Steps>> steps;  ///< one fewer than `nodes`; null only beside an empty layer

  /// How many layers there are: nodes on every path.
  [[nodiscard]] std::size_t layer_count() const { return nodes.size(); }
};

/// One node a layer.
struct Path {
  std::vector<std::uint32_t> at;
  Weight weight = 0;
  Load largest_load = 0;  ///< over its nodes and steps

  friend bool operator==(const Path&, const Path&) = default;
};

}  // namespace fingerway
