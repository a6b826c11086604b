#include "measure/yardsticks.hpp"

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dag_shortest_paths.hpp>
#include <optional>

#include "measure/clock.hpp"

namespace fingerway {

Weight dense_min_plus(const LayeredGraph& graph, std::vector<std::uint32_t>& path) {
  const std::size_t layers = graph.layer_count();
  std::vector<std::vector<std::uint32_t>> back(layers);
  std::vector<Weight> before = graph.nodes[0];
  for (std::size_t l = 1; l < layers; ++l) {
    const std::size_t from = before.size();
    const std::size_t to = graph.nodes[l].size();
    const Weight* weight = graph.steps[l - 1]->weight.data();
    std::vector<Weight> here(to, forbidden);
    back[l].resize(to);
    for (std::size_t i = 0; i < from; ++i) {
      for (std::size_t j = 0; j < to; ++j) {
        const Weight total = before[i] + weight[i * to + j];
        if (total < here[j]) {
          here[j] = total;
          back[l][j] = static_cast<std::uint32_t>(i);
        }
      }
    }
    for (std::size_t j = 0; j < to; ++j) here[j] += graph.nodes[l][j];
    before = std::move(here);
  }
  const auto best = std::min_element(before.begin(), before.end());
  path.assign(layers, static_cast<std::uint32_t>(best - before.begin()));
  for (std::size_t l = layers - 1; l > 0; --l) path[l - 1] = back[l][path[l]];
  return *best;
}

BoostAnswer stored_boost_graph(const LayeredGraph& graph) {
  using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property,
                                      boost::property<boost::edge_weight_t, Weight>>;
  BoostAnswer answer;
  std::optional<Graph> held;
  std::vector<std::size_t> first = {0};
  answer.building = timed([&] {
    for (const auto& layer : graph.nodes) first.push_back(first.back() + layer.size());
    // One vertex before all others and one behind them; an edge carries the weight of the node it leads to.
    const std::size_t start = first.back();
    const std::size_t end = start + 1;
    Graph& stored = held.emplace(start + 2);
    for (std::size_t i = 0; i < graph.nodes[0].size(); ++i) add_edge(start, i, graph.nodes[0][i], stored);
    for (std::size_t l = 0; l + 1 < graph.nodes.size(); ++l) {
      for (std::size_t i = 0; i < graph.nodes[l].size(); ++i) {
        for (std::size_t j = 0; j < graph.nodes[l + 1].size(); ++j) {
          const Weight weight = graph.steps[l]->weight_at(i, j) + graph.nodes[l + 1][j];
          if (!is_forbidden(weight)) add_edge(first[l] + i, first[l + 1] + j, weight, stored);
        }
      }
    }
    for (std::size_t v = first[first.size() - 2]; v < start; ++v) add_edge(v, end, Weight{0}, stored);
  });
  const Graph& stored = *held;
  std::vector<Weight> distance(num_vertices(stored));
  answer.search = timed([&] {
    boost::dag_shortest_paths(
        stored, first.back(),
        boost::distance_map(boost::make_iterator_property_map(distance.begin(), get(boost::vertex_index, stored)))
            .distance_inf(forbidden));
  });
  answer.weight = distance[first.back() + 1];
  return answer;
}

}  // namespace fingerway
