// What the search is measured against: a plain loop over ready tables, and a stored graph of Boost.Graph.
#pragma once

#include "fingerway/search/layers.hpp"

namespace fingerway {

/// The plain dense min-plus loop: forward, with one back pointer a node, no loads, ties as they come.
[[nodiscard]] Weight dense_min_plus(const LayeredGraph& graph, std::vector<std::uint32_t>& path);

/// The same graph as a stored boost::adjacency_list, built and searched by dag_shortest_paths.
struct BoostAnswer {
  Weight weight = 0;
  double building = 0;  ///< processor seconds
  double search = 0;
};
[[nodiscard]] BoostAnswer stored_boost_graph(const LayeredGraph& graph);

}  // namespace fingerway
