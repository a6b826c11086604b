// How long a search takes beside a yardstick: a plain dense min-plus loop over tables that are ready, which keeps no
// loads, shares nothing and decides ties as they come. Sizes are layers x nodes. The ratio to the yardstick is shown as
// a counter; it is measured with the yardstick run just before it on the same tables.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <memory>
#include <random>

#include "fingerway/search/paths.hpp"
#include "fingerway/search/rows.hpp"
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

/// Ready tables as rows that are priced when asked for: what the search of passages costs beside its prices.
class ReadyRows {
 public:
  explicit ReadyRows(const Steps& steps) : steps_(steps), runs_{0, static_cast<std::uint32_t>(steps.to)} {}
  [[nodiscard]] std::size_t rows() const { return steps_.from; }
  [[nodiscard]] std::span<const std::uint32_t> runs() const { return runs_; }
  void start_row(std::size_t row) {
    row_ = row;
    const auto first = steps_.weight.begin() + static_cast<std::ptrdiff_t>(row * steps_.to);
    least_ = *std::min_element(first, first + static_cast<std::ptrdiff_t>(steps_.to));
  }
  [[nodiscard]] Weight least_of_row() const { return least_; }
  [[nodiscard]] Weight least_of_run(std::size_t) const { return least_; }
  [[nodiscard]] Weight weight(std::size_t, std::size_t column, Weight) const { return steps_.weight_at(row_, column); }
  [[nodiscard]] std::optional<Load> limiting_load(std::size_t, std::size_t column) const {
    return steps_.load_at(row_, column);
  }

 private:
  const Steps& steps_;
  std::array<std::uint32_t, 2> runs_;
  std::size_t row_ = 0;
  Weight least_ = 0;
};

Weight by_rows(const LayeredGraph& graph) {
  std::vector<Weight> ahead = graph.nodes.back();
  for (std::size_t l = graph.layer_count() - 1; l-- > 0;) {
    ReadyRows rows(*graph.steps[l]);
    ahead = ways_on(rows, std::span<const Weight>(ahead)).weight;
    for (std::size_t i = 0; i < ahead.size(); ++i) ahead[i] += graph.nodes[l][i];
  }
  return *std::min_element(ahead.begin(), ahead.end());
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
void best_by_rows(benchmark::State& state) { against_yardstick(state, by_rows); }
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
BENCHMARK(best_by_rows)->Apply(sizes);
BENCHMARK(best_by_boost)->Apply(sizes);
BENCHMARK(smoothest)->Apply(sizes);
BENCHMARK(ten_best)->Apply(sizes);
BENCHMARK(through_every_node)->Apply(sizes);

}  // namespace
