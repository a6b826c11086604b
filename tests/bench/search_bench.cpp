// How long a search takes beside a yardstick: a plain dense min-plus loop over tables that are ready, which keeps no
// loads, shares nothing and decides ties as they come. Sizes are layers x nodes. The ratio to the yardstick is shown as
// a counter; it is measured with the yardstick run just before it on the same tables.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <memory>
#include <random>

#include "fingerway/search/banded_search.hpp"
#include "fingerway/search/paths.hpp"
#include "measure/yardsticks.hpp"

namespace {

using namespace fingerway;

/// Every layer its own tables, up to `distinct`; after that they are shared, as a passage shares them.
LayeredGraph drawn_graph(std::size_t layers, std::size_t nodes, std::size_t distinct) {
  std::mt19937_64 random(41);
  const auto draw = [&random] { return static_cast<std::int64_t>(random() % 100'000'000); };
  LayeredGraph graph;
  for (std::size_t l = 0; l < layers; ++l) {
    graph.nodes.emplace_back(nodes);
    graph.node_loads.emplace_back(nodes);
    std::generate(graph.nodes[l].begin(), graph.nodes[l].end(), draw);
    if (l == 0) continue;
    if (l > distinct) {
      graph.steps.push_back(graph.steps[l - 1 - distinct]);
      continue;
    }
    Steps steps{.from = nodes,
                .to = nodes,
                .weight = std::vector<Weight>(nodes * nodes),
                .load = std::vector<Load>(nodes * nodes)};
    std::generate(steps.weight.begin(), steps.weight.end(), draw);
    std::generate(steps.load.begin(), steps.load.end(), draw);
    graph.steps.push_back(std::make_shared<const Steps>(std::move(steps)));
  }
  return graph;
}

/// Ready tables as bands of one node: what the search of passages costs beside its prices.
class ReadyBands {
 public:
  explicit ReadyBands(const LayeredGraph& graph) : graph_(graph) {}
  [[nodiscard]] std::size_t bands(std::size_t layer) const { return graph_.nodes[layer].size(); }
  template <class Visit>
  void each_band(std::size_t layer, const Visit& visit) const {
    for (std::uint32_t i = 0; i < bands(layer); ++i) visit(i, i + 1, place(layer, i, i));
  }
  [[nodiscard]] static BandPlace place(std::size_t, std::uint32_t band, std::uint32_t node) {
    return {.band = band, .node = node, .mark = {node, 0}};
  }
  [[nodiscard]] Weight own(std::size_t layer, const BandPlace& place) const { return graph_.nodes[layer][place.node]; }

  struct From {
    const Weight* row;
    [[nodiscard]] Weight glance(const BandMark& mark) const { return row[mark[0]]; }
    [[nodiscard]] Weight bound(const BandPlace& to, Weight) const { return row[to.node]; }
    [[nodiscard]] Weight cost(const BandPlace& to, Weight) const { return row[to.node]; }
  };
  [[nodiscard]] From steps(std::size_t layer, const BandPlace& from, Look) const {
    const Steps& steps = *graph_.steps[layer];
    return {steps.weight.data() + from.node * steps.to};
  }

 private:
  const LayeredGraph& graph_;
};

Weight by_bands(const LayeredGraph& graph) {
  ReadyBands bands(graph);
  BandedSearch<ReadyBands, Sum> search(bands, graph.layer_count());
  for (std::size_t l = 0; l < graph.layer_count(); ++l) search.take();
  return search.weight();
}

double seconds(const std::chrono::steady_clock::time_point since) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - since).count();
}

/// Times `search` against the yardstick, which runs outside the measured time.
template <class Search>
void against_yardstick(benchmark::State& state, Search search) {
  const LayeredGraph graph =
      drawn_graph(static_cast<std::size_t>(state.range(0)), static_cast<std::size_t>(state.range(1)),
                  static_cast<std::size_t>(state.range(2)));
  double yardstick = 0;
  double own = 0;
  for (auto _ : state) {
    state.PauseTiming();
    std::vector<std::uint32_t> path;
    const auto yardstick_start = std::chrono::steady_clock::now();
    const Weight expected = dense_min_plus(graph, path);
    yardstick += seconds(yardstick_start);
    state.ResumeTiming();
    const auto own_start = std::chrono::steady_clock::now();
    const Weight found = search(graph);
    own += seconds(own_start);
    if (found < expected) state.SkipWithError("lighter than the lightest path");
  }
  state.counters["x yardstick"] = own / yardstick;
}

void best(benchmark::State& state) {
  against_yardstick(state, [](const LayeredGraph& graph) { return best_path(graph)->weight; });
}
void best_by_bands(benchmark::State& state) { against_yardstick(state, by_bands); }
void best_by_boost(benchmark::State& state) {
  against_yardstick(state, [](const LayeredGraph& graph) { return best_path_by_boost(graph)->weight; });
}
void smoothest(benchmark::State& state) {
  against_yardstick(state, [](const LayeredGraph& graph) { return smoothest_path(graph)->weight; });
}
void ten_best(benchmark::State& state) {
  const NodeLabel own_label = [](std::size_t, std::size_t index) -> std::uint64_t { return index; };
  against_yardstick(state, [&](const LayeredGraph& graph) { return best_paths(graph, 10, own_label).back().weight; });
}
void through_every_node(benchmark::State& state) {
  against_yardstick(state, [](const LayeredGraph& graph) {
    const std::vector<std::vector<Weight>> through = weights_through(graph);
    return *std::min_element(through[0].begin(), through[0].end());
  });
}
void yardstick(benchmark::State& state) {
  against_yardstick(state, [](const LayeredGraph& graph) {
    std::vector<std::uint32_t> path;
    return dense_min_plus(graph, path);
  });
}

/// Layers, nodes a layer, distinct tables of steps.
void sizes(benchmark::internal::Benchmark* benchmark) {
  benchmark->Args({400, 100, 400})->Args({10'000, 50, 500})->Unit(benchmark::kMillisecond);
}

BENCHMARK(yardstick)->Apply(sizes);
BENCHMARK(best)->Apply(sizes);
BENCHMARK(best_by_bands)->Apply(sizes);
BENCHMARK(best_by_boost)->Apply(sizes);
BENCHMARK(smoothest)->Apply(sizes);
BENCHMARK(ten_best)->Apply(sizes);
BENCHMARK(through_every_node)->Apply(sizes);

}  // namespace
