#include <catch2/catch.hpp>
#include <numeric>

#include "fingerway/search/paths.hpp"
#include "search/graphs.hpp"

using namespace fingerway;

namespace {

/// A drawn choice of nodes to keep, rising; some layers keep all, few keep none.
std::vector<std::vector<std::uint32_t>> drawn_choice(const LayeredGraph& graph, GraphDrawer& drawer) {
  std::vector<std::vector<std::uint32_t>> allowed;
  for (const std::vector<Weight>& layer : graph.nodes) {
    std::vector<std::uint32_t>& kept = allowed.emplace_back();
    const int per_cent = drawer.happens(40) ? 100 : 70;
    for (std::uint32_t i = 0; i < layer.size(); ++i) {
      if (drawer.happens(per_cent)) kept.push_back(i);
    }
  }
  return allowed;
}

bool uses_only(const Path& path, const std::vector<std::vector<std::uint32_t>>& allowed) {
  for (std::size_t l = 0; l < path.at.size(); ++l) {
    if (std::find(allowed[l].begin(), allowed[l].end(), path.at[l]) == allowed[l].end()) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("the smoothest path has the smallest largest load of all, and is the lightest and first of those") {
  int smoother_than_best = 0;
  for (const LayeredGraph& graph : small_graphs()) {
    std::vector<Path> all = every_path(graph);
    Load least = std::numeric_limits<Load>::max();
    for (const Path& path : all) least = std::min(least, path.largest_load);
    all.erase(std::remove_if(all.begin(), all.end(), [least](const Path& path) { return path.largest_load > least; }),
              all.end());
    const std::optional<Path> smoothest = smoothest_path(graph);
    REQUIRE(smoothest == lightest(all));
    if (smoothest && smoothest->largest_load < best_path(graph)->largest_load) ++smoother_than_best;
  }
  CHECK(smoother_than_best > 50);
}

TEST_CASE("the smoothest path counts the loads of nodes too") {
  LayeredGraph graph;
  graph.nodes = {{0, 0}};
  graph.node_loads = {{2, 1}};
  CHECK(smoothest_path(graph)->at == std::vector<std::uint32_t>{1});
  CHECK(best_path(graph)->at == std::vector<std::uint32_t>{0});
  CHECK(smoothest_path(LayeredGraph{}) == Path{});
}

TEST_CASE("the smoothest path of a large graph is never rougher nor lighter than the best") {
  GraphDrawer drawer(13);
  for (int n = 0; n < 20; ++n) {
    const LayeredGraph graph = drawer.graph({.fewest_layers = 50,
                                             .most_layers = 100,
                                             .fewest_nodes = 8,
                                             .most_nodes = 30,
                                             .highest_weight = 1'000'000,
                                             .highest_load = 1'500'000});
    const std::optional<Path> best = best_path(graph);
    const std::optional<Path> smoothest = smoothest_path(graph);
    REQUIRE(best);
    REQUIRE(smoothest);
    CHECK(smoothest->largest_load <= best->largest_load);
    CHECK(smoothest->weight >= best->weight);
    CHECK(priced(graph, smoothest->at) == smoothest);
  }
}

TEST_CASE("a path is priced as it was found, and a path that may not be is not priced") {
  for (const LayeredGraph& graph : small_graphs()) {
    const std::vector<Path> all = every_path(graph);
    for (const Path& path : all) REQUIRE(priced(graph, path.at) == path);
    // Every tuple of indices that is no allowed path has no price.
    std::size_t tuples = 1;
    std::size_t priced_count = 0;
    for (const std::vector<Weight>& layer : graph.nodes) tuples *= layer.size();
    for (std::size_t n = 0; n < tuples; ++n) {
      std::vector<std::uint32_t> at;
      std::size_t rest = n;
      for (const std::vector<Weight>& layer : graph.nodes) {
        at.push_back(static_cast<std::uint32_t>(rest % layer.size()));
        rest /= layer.size();
      }
      if (priced(graph, at)) ++priced_count;
    }
    REQUIRE(priced_count == all.size());
  }
}

TEST_CASE("a path that does not fit the graph has no price") {
  LayeredGraph graph;
  graph.nodes = {{4, 5}};
  graph.node_loads = {{0, 0}};
  CHECK(priced(graph, {1})->weight == 5);
  CHECK_FALSE(priced(graph, {2}));
  CHECK_FALSE(priced(graph, {}));
  CHECK_FALSE(priced(graph, {0, 0}));
}

TEST_CASE("a restricted graph has just the paths that use what is allowed") {
  GraphDrawer drawer(17);
  int dearer = 0;
  for (const LayeredGraph& graph : small_graphs()) {
    const std::vector<std::vector<std::uint32_t>> allowed = drawn_choice(graph, drawer);
    const LayeredGraph smaller = restricted(graph, allowed);
    std::vector<Path> mapped = every_path(smaller);
    for (Path& path : mapped) {
      for (std::size_t l = 0; l < path.at.size(); ++l) path.at[l] = allowed[l][path.at[l]];
    }
    std::vector<Path> expected = every_path(graph);
    expected.erase(
        std::remove_if(expected.begin(), expected.end(), [&](const Path& path) { return !uses_only(path, allowed); }),
        expected.end());
    REQUIRE(mapped == expected);
    const std::optional<Path> best = best_path(graph);
    const std::optional<Path> best_allowed = best_path(smaller);
    if (best_allowed) {
      REQUIRE(best);
      REQUIRE(best_allowed->weight >= best->weight);
      if (best_allowed->weight > best->weight) ++dearer;
    }
  }
  CHECK(dearer > 50);
}

TEST_CASE("restricting to everything changes nothing and copies no steps") {
  GraphDrawer drawer(19);
  const LayeredGraph graph = drawer.graph({.fewest_layers = 5, .most_layers = 5});
  std::vector<std::vector<std::uint32_t>> all;
  for (const std::vector<Weight>& layer : graph.nodes) {
    all.emplace_back(layer.size());
    std::iota(all.back().begin(), all.back().end(), 0U);
  }
  const LayeredGraph same = restricted(graph, all);
  CHECK(same.nodes == graph.nodes);
  CHECK(same.node_loads == graph.node_loads);
  CHECK(same.steps == graph.steps);  // the same pointers
}

TEST_CASE("the weight through a node is that of the lightest of all paths through it") {
  for (const LayeredGraph& graph : small_graphs()) {
    std::vector<std::vector<Weight>> expected;
    for (const std::vector<Weight>& layer : graph.nodes) expected.emplace_back(layer.size(), forbidden);
    for (const Path& path : every_path(graph)) {
      for (std::size_t l = 0; l < path.at.size(); ++l) {
        expected[l][path.at[l]] = std::min(expected[l][path.at[l]], path.weight);
      }
    }
    REQUIRE(weights_through(graph) == expected);
    for (std::size_t l = 0; l < expected.size(); ++l) REQUIRE(weights_through(graph, l) == expected[l]);
    CHECK(weights_through(graph, expected.size()).empty());
  }
}

TEST_CASE("in every layer of a large graph the least weight through is the best path's, at its node") {
  GraphDrawer drawer(23);
  const LayeredGraph graph = drawer.graph(
      {.fewest_layers = 200, .most_layers = 200, .fewest_nodes = 5, .most_nodes = 25, .highest_weight = 1'000'000});
  const std::optional<Path> best = best_path(graph);
  REQUIRE(best);
  const std::vector<std::vector<Weight>> through = weights_through(graph);
  REQUIRE(through.size() == 200);
  for (std::size_t l = 0; l < through.size(); ++l) {
    CHECK(*std::min_element(through[l].begin(), through[l].end()) == best->weight);
    CHECK(through[l][best->at[l]] == best->weight);
  }
}
