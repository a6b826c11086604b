// What this part answers: the best path through a layered graph, the next best ones, the smoothest one.
// It knows nothing musical. Ties fall to the node of lower index, looked at from the first layer on: of equally good
// paths the lexicographically first is found. A graph without layers has one path, the empty one.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "fingerway/search/layers.hpp"

namespace fingerway {

/// The path of least weight; nothing when no path is allowed, or a layer is empty. Time linear in the number of steps,
/// memory in the number of nodes.
[[nodiscard]] std::optional<Path> best_path(const LayeredGraph& graph);

/// The same answer from Boost.Graph's shortest paths over the same steps: slower, kept as a check on `best_path`.
[[nodiscard]] std::optional<Path> best_path_by_boost(const LayeredGraph& graph);

/// A label a node; paths that differ only within labels count as one.
using NodeLabel = std::function<std::uint64_t(std::size_t layer, std::size_t index)>;

/// Up to k paths of least weight, all different in their labels, lightest first. The first is `best_path`; each is the
/// best (and first) path of its labels; of equal weights after the first, that label sequence comes earlier whose first
/// differing label has the lower node among its nodes. Labels are asked for once a node. Time at most k searches of the
/// whole graph (plus log k for each node), memory linear in nodes + k x (layers + k), whatever the labels.
[[nodiscard]] std::vector<Path> best_paths(const LayeredGraph& graph, std::size_t k, const NodeLabel& label);

/// The path whose largest load (of nodes and steps) is smallest; among those the one of least weight. Linear like
/// `best_path`; nothing under the same conditions.
[[nodiscard]] std::optional<Path> smoothest_path(const LayeredGraph& graph);

/// The same graph with some nodes left out; `allowed[l]` lists, rising, the node indices kept in layer l. Paths found
/// in it are numbered as in the restricted graph; `allowed` maps them back. Steps shared before are shared after, where
/// the same nodes are kept.
[[nodiscard]] LayeredGraph restricted(const LayeredGraph& graph,
                                      const std::vector<std::vector<std::uint32_t>>& allowed);

/// Weight and load of a given path; nothing when it uses a forbidden step or node, or does not fit the graph.
[[nodiscard]] std::optional<Path> priced(const LayeredGraph& graph, const std::vector<std::uint32_t>& at);

/// For every node of one layer: the least weight of any path through it (`forbidden` when there is none). This is what
/// a choice costs, its consequences up- and downstream included. Empty when there is no such layer.
[[nodiscard]] std::vector<Weight> weights_through(const LayeredGraph& graph, std::size_t layer);

/// The same for every node of every layer, for the price of two searches.
[[nodiscard]] std::vector<std::vector<Weight>> weights_through(const LayeredGraph& graph);

}  // namespace fingerway
