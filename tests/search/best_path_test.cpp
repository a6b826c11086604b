#include <catch2/catch.hpp>
#include <numeric>

#include "fingerway/search/paths.hpp"
#include "search/graphs.hpp"

using namespace fingerway;

namespace {

std::shared_ptr<const Steps> steps_of(std::size_t from, std::size_t to, std::vector<Weight> weight) {
  std::vector<Load> load(weight.size(), 0);
  return std::make_shared<const Steps>(
      Steps{.from = from, .to = to, .weight = std::move(weight), .load = std::move(load)});
}

/// The textbook: one table, one row a layer, walked from the end; absence is absence, ties fall to the lower index.
std::optional<std::vector<std::uint32_t>> textbook_best(const LayeredGraph& graph) {
  const std::size_t layers = graph.layer_count();
  struct Onward {
    std::optional<Weight> weight;
    std::uint32_t next = 0;
  };
  std::vector<std::vector<Onward>> table(layers);
  for (std::size_t l = layers; l-- > 0;) {
    table[l].resize(graph.nodes[l].size());
    for (std::size_t i = 0; i < table[l].size(); ++i) {
      if (graph.nodes[l][i] == forbidden) continue;
      if (l + 1 == layers) {
        table[l][i].weight = graph.nodes[l][i];
        continue;
      }
      for (std::size_t j = 0; j < table[l + 1].size(); ++j) {
        const Weight step = graph.steps[l]->weight_at(i, j);
        if (step == forbidden || !table[l + 1][j].weight) continue;
        const Weight total = graph.nodes[l][i] + step + *table[l + 1][j].weight;
        if (!table[l][i].weight || total < *table[l][i].weight) {
          table[l][i] = {.weight = total, .next = static_cast<std::uint32_t>(j)};
        }
      }
    }
  }
  std::optional<std::uint32_t> at;
  for (std::size_t i = 0; i < table[0].size(); ++i) {
    if (table[0][i].weight && (!at || *table[0][i].weight < *table[0][*at].weight)) at = static_cast<std::uint32_t>(i);
  }
  if (!at) return std::nullopt;
  std::vector<std::uint32_t> path;
  for (std::size_t l = 0; l < layers; ++l) {
    path.push_back(*at);
    at = table[l][*at].next;
  }
  return path;
}

}  // namespace

TEST_CASE("the best path of a graph that can be added up in the head") {
  LayeredGraph graph;
  graph.nodes = {{1, 0}, {0, 5, 0}, {2, 0}};
  graph.node_loads = {{7, 0}, {0, 0, 0}, {0, 3}};
  graph.steps = {steps_of(2, 3, {4, 1, forbidden, 9, 9, 6}), steps_of(3, 2, {3, 4, 0, 0, 5, 1})};
  const std::optional<Path> best = best_path(graph);
  REQUIRE(best);
  CHECK(best->at == std::vector<std::uint32_t>{0, 1, 1});  // 1 + 1 + 5; the way 1, 2, 1 weighs 7 as well
  CHECK(best->weight == 7);
  CHECK(best->largest_load == 7);
}

TEST_CASE("of equally light paths the one with the lower node at the first difference is best") {
  LayeredGraph graph;
  graph.nodes = {{0, 0}, {0, 0}, {0, 0}};
  graph.node_loads = {{0, 0}, {0, 0}, {0, 0}};
  // 0-1-1 and 1-0-0 tie. A search that decides ties from the last layer on would take the second.
  graph.steps = {steps_of(2, 2, {9, 2, 2, 9}), steps_of(2, 2, {2, 9, 9, 2})};
  CHECK(best_path(graph)->at == std::vector<std::uint32_t>{0, 1, 1});
  CHECK(best_path_by_boost(graph)->at == std::vector<std::uint32_t>{0, 1, 1});
}

TEST_CASE("a graph without layers has the empty path, an empty layer allows none") {
  CHECK(best_path(LayeredGraph{}) == Path{});
  CHECK(best_path_by_boost(LayeredGraph{}) == Path{});
  LayeredGraph graph;
  graph.nodes = {{0}, {}, {0}};
  graph.node_loads = {{0}, {}, {0}};
  graph.steps = {nullptr, nullptr};
  CHECK_FALSE(best_path(graph));
  CHECK_FALSE(best_path_by_boost(graph));
}

TEST_CASE("a forbidden step stays forbidden beside a large reward") {
  LayeredGraph graph;
  graph.nodes = {{-1'000'000'000'000}, {-1'000'000'000'000}};
  graph.node_loads = {{0}, {0}};
  graph.steps = {steps_of(1, 1, {forbidden})};
  CHECK_FALSE(best_path(graph));
  CHECK_FALSE(best_path_by_boost(graph));
}

TEST_CASE("best path and Boost's search find what trying every path finds") {
  int with_path = 0;
  for (const LayeredGraph& graph : small_graphs()) {
    const std::optional<Path> expected = lightest(every_path(graph));
    REQUIRE(best_path(graph) == expected);
    REQUIRE(best_path_by_boost(graph) == expected);
    if (expected) ++with_path;
  }
  CHECK(with_path > 400);
  CHECK(with_path < 800);
}

TEST_CASE("best path, Boost's search and the textbook agree on larger graphs") {
  GraphDrawer drawer(7);
  for (int n = 0; n < 30; ++n) {
    const LayeredGraph graph = drawer.graph({.fewest_layers = 20,
                                             .most_layers = 120,
                                             .fewest_nodes = 1,
                                             .most_nodes = 40,
                                             .lowest_weight = n % 2 == 0 ? 0 : -5,
                                             .highest_weight = n % 3 == 0 ? 5 : 1'000'000'000,
                                             .highest_load = 2'000'000,
                                             .forbidden_steps = 10 * (n % 8),
                                             .forbidden_nodes = n % 4});
    const std::optional<Path> best = best_path(graph);
    const std::optional<std::vector<std::uint32_t>> expected = textbook_best(graph);
    REQUIRE(best.has_value() == expected.has_value());
    REQUIRE(best_path_by_boost(graph) == best);
    if (best) REQUIRE(best->at == *expected);
  }
}

TEST_CASE("a long passage is searched with memory for its nodes, its shared steps stored once") {
  // 50'000 layers of 40 nodes: one table of steps is 26 kB, a copy a layer would be 1.3 GB.
  LayeredGraph graph;
  GraphDrawer drawer(11);
  const LayeredGraph two = drawer.graph({.fewest_layers = 2, .most_layers = 2, .fewest_nodes = 40, .most_nodes = 40});
  graph.nodes.assign(50'000, two.nodes[0]);
  graph.node_loads.assign(50'000, two.node_loads[0]);
  graph.steps.assign(49'999, two.steps[0]);
  const std::optional<Path> best = best_path(graph);
  REQUIRE(best);
  CHECK(priced(graph, best->at) == best);
  std::vector<std::vector<std::uint32_t>> allowed(50'000, std::vector<std::uint32_t>(39));
  for (std::vector<std::uint32_t>& kept : allowed) std::iota(kept.begin(), kept.end(), 1U);
  const LayeredGraph smaller = restricted(graph, allowed);
  CHECK(smaller.steps[0].use_count() == 49'999);
}
