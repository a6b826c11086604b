// What this part answers: layered graphs for tests, drawn from a fixed seed, and what trying every path says of them.
// It shares no code with the searches it checks.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <random>
#include <vector>

#include "fingerway/search/layers.hpp"

namespace fingerway {

/// What a drawn graph may look like.
struct GraphShape {
  std::size_t fewest_layers = 1;
  std::size_t most_layers = 5;
  std::size_t fewest_nodes = 1;  ///< a layer
  std::size_t most_nodes = 4;
  Weight lowest_weight = 0;
  Weight highest_weight = 3;  ///< few different weights make many ties
  Load highest_load = 3;
  int forbidden_steps = 20;  ///< per cent
  int forbidden_nodes = 5;   ///< per cent
  int shared_steps = 30;     ///< per cent, where an earlier layer has steps of the right size
};

/// Draws graphs; the same seed draws the same ones with every compiler and library.
class GraphDrawer {
 public:
  explicit GraphDrawer(std::uint64_t seed) : random_(seed) {}

  std::int64_t between(std::int64_t low, std::int64_t high) {
    return low + static_cast<std::int64_t>(random_() % static_cast<std::uint64_t>(high - low + 1));
  }
  std::size_t size_between(std::size_t low, std::size_t high) {
    return static_cast<std::size_t>(between(static_cast<std::int64_t>(low), static_cast<std::int64_t>(high)));
  }
  bool happens(int per_cent) { return between(0, 99) < per_cent; }

  LayeredGraph graph(const GraphShape& shape) {
    LayeredGraph graph;
    const std::size_t layers = size_between(shape.fewest_layers, shape.most_layers);
    for (std::size_t l = 0; l < layers; ++l) {
      const std::size_t nodes = size_between(shape.fewest_nodes, shape.most_nodes);
      std::vector<Weight>& weights = graph.nodes.emplace_back();
      std::vector<Load>& loads = graph.node_loads.emplace_back();
      for (std::size_t i = 0; i < nodes; ++i) {
        weights.push_back(weight(shape, shape.forbidden_nodes));
        loads.push_back(between(0, shape.highest_load));
      }
      if (l > 0) graph.steps.push_back(steps(shape, graph, l));
    }
    return graph;
  }

 private:
  Weight weight(const GraphShape& shape, int forbidden_per_cent) {
    return happens(forbidden_per_cent) ? forbidden : between(shape.lowest_weight, shape.highest_weight);
  }

  std::shared_ptr<const Steps> steps(const GraphShape& shape, const LayeredGraph& graph, std::size_t l) {
    const std::size_t from = graph.nodes[l - 1].size();
    const std::size_t to = graph.nodes[l].size();
    for (const std::shared_ptr<const Steps>& earlier : graph.steps) {
      if (earlier->from == from && earlier->to == to && happens(shape.shared_steps)) return earlier;
    }
    Steps steps{.from = from, .to = to, .weight = {}, .load = {}};
    for (std::size_t k = 0; k < from * to; ++k) {
      steps.weight.push_back(weight(shape, shape.forbidden_steps));
      steps.load.push_back(between(0, shape.highest_load));
    }
    return std::make_shared<const Steps>(std::move(steps));
  }

  std::mt19937_64 random_;
};

/// Every allowed path, in lexicographic order, by trying all of them.
inline std::vector<Path> every_path(const LayeredGraph& graph) {
  std::vector<Path> found;
  const std::function<void(const Path&)> extend = [&](const Path& path) {
    const std::size_t l = path.at.size();
    if (l == graph.nodes.size()) {
      found.push_back(path);
      return;
    }
    for (std::size_t i = 0; i < graph.nodes[l].size(); ++i) {
      Path longer = path;
      longer.at.push_back(static_cast<std::uint32_t>(i));
      if (graph.nodes[l][i] == forbidden) continue;
      longer.weight += graph.nodes[l][i];
      longer.largest_load = std::max(longer.largest_load, graph.node_loads[l][i]);
      if (l > 0) {
        const Steps& steps = *graph.steps[l - 1];
        const std::size_t k = path.at.back() * graph.nodes[l].size() + i;
        if (steps.weight[k] == forbidden) continue;
        longer.weight += steps.weight[k];
        longer.largest_load = std::max(longer.largest_load, steps.load[k]);
      }
      extend(longer);
    }
  };
  extend(Path{});
  return found;
}

/// The first of the paths of least weight; the paths come in lexicographic order.
inline std::optional<Path> lightest(const std::vector<Path>& paths) {
  const auto best =
      std::min_element(paths.begin(), paths.end(), [](const Path& a, const Path& b) { return a.weight < b.weight; });
  return best == paths.end() ? std::nullopt : std::optional<Path>(*best);
}

/// Graphs of all small kinds: with many ties, many forbidden steps, single layers, single nodes, empty layers.
inline std::vector<LayeredGraph> small_graphs() {
  std::vector<GraphShape> shapes(8);
  shapes[1].highest_weight = 0;  // everything ties
  shapes[2].forbidden_steps = 60;
  shapes[3].most_layers = 1;
  shapes[4].most_nodes = 1;
  shapes[5].fewest_nodes = 0;  // some layers are empty
  shapes[6].lowest_weight = -3;
  shapes[7] = {.fewest_layers = 2, .most_layers = 3, .fewest_nodes = 4, .most_nodes = 9, .highest_weight = 50};
  std::vector<LayeredGraph> graphs;
  GraphDrawer drawer(20'240'607);
  for (const GraphShape& shape : shapes) {
    for (int n = 0; n < 100; ++n) graphs.push_back(drawer.graph(shape));
  }
  return graphs;
}

}  // namespace fingerway
