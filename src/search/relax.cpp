#include "search/relax.hpp"

namespace fingerway {

NodeWeights::NodeWeights(const LayeredGraph& graph) {
  first_.reserve(graph.layer_count() + 1);
  first_.push_back(0);
  for (const std::vector<Weight>& layer : graph.nodes) first_.push_back(first_.back() + layer.size());
  values_.resize(first_.back() + 1);
}

bool is_well_formed(const LayeredGraph& graph) {
  const std::size_t layers = graph.layer_count();
  if (graph.node_loads.size() != layers || graph.steps.size() + 1 != std::max<std::size_t>(layers, 1)) return false;
  for (std::size_t l = 0; l < layers; ++l) {
    if (graph.node_loads[l].size() != graph.nodes[l].size()) return false;
  }
  for (std::size_t l = 0; l + 1 < layers; ++l) {
    const std::size_t from = graph.nodes[l].size();
    const std::size_t to = graph.nodes[l + 1].size();
    if (from == 0 || to == 0) continue;
    const Steps* steps = graph.steps[l].get();
    if (steps == nullptr || steps->from != from || steps->to != to) return false;
    if (steps->weight.size() != from * to || steps->load.size() != from * to) return false;
  }
  return true;
}

bool has_empty_layer(const LayeredGraph& graph) {
  return std::any_of(graph.nodes.begin(), graph.nodes.end(), [](const auto& layer) { return layer.empty(); });
}

NodeWeights weights_so_far(const LayeredGraph& graph) {
  NodeWeights so_far(graph);
  for (std::size_t l = 0; l < graph.layer_count(); ++l) {
    const std::span<Weight> here = so_far.layer(l);
    if (l == 0) {
      std::fill(here.begin(), here.end(), 0);
    } else {
      const Steps& steps = *graph.steps[l - 1];
      const std::span<const Weight> before = so_far.layer(l - 1);
      std::fill(here.begin(), here.end(), 2 * forbidden);
      for (std::size_t i = 0; i < steps.from; ++i) {
        const Weight* row = steps.weight.data() + i * steps.to;
        for (std::size_t j = 0; j < steps.to; ++j) here[j] = std::min(here[j], before[i] + row[j]);
      }
    }
    for (std::size_t i = 0; i < here.size(); ++i) here[i] = saturated(saturated(here[i]) + graph.nodes[l][i]);
  }
  return so_far;
}

}  // namespace fingerway
