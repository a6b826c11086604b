#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "fingerway/search/paths.hpp"
#include "search/graphs.hpp"

using namespace fingerway;

namespace {

std::uint64_t own_label(std::size_t, std::size_t index) { return index; }
std::uint64_t odd_or_even(std::size_t layer, std::size_t index) { return (layer + index) % 2 + 40; }
std::uint64_t thirds(std::size_t, std::size_t index) { return (index * 7 + 2) % 3; }
std::uint64_t one_label(std::size_t, std::size_t) { return 5; }

std::vector<std::uint64_t> labels_of(const Path& path, const NodeLabel& label) {
  std::vector<std::uint64_t> labels;
  for (std::size_t l = 0; l < path.at.size(); ++l) labels.push_back(label(l, path.at[l]));
  return labels;
}

/// The lowest node of the layer that has the same label, for each node of a path.
std::vector<std::size_t> label_places(const Path& path, const NodeLabel& label) {
  std::vector<std::size_t> places;
  for (std::size_t l = 0; l < path.at.size(); ++l) {
    std::size_t place = 0;
    while (label(l, place) != label(l, path.at[l])) ++place;
    places.push_back(place);
  }
  return places;
}

/// By trying every path: the first lightest of each label sequence, the overall best first, the others by weight and
/// then by the places of their labels.
std::vector<Path> best_of_every_label_sequence(const LayeredGraph& graph, const NodeLabel& label) {
  const std::vector<Path> all = every_path(graph);
  std::map<std::vector<std::uint64_t>, Path> best_of;
  for (const Path& path : all) {
    const auto [known, is_new] = best_of.try_emplace(labels_of(path, label), path);
    if (!is_new && path.weight < known->second.weight) known->second = path;
  }
  std::vector<Path> paths;
  for (const auto& [labels, path] : best_of) paths.push_back(path);
  const std::optional<Path> best = lightest(all);
  std::sort(paths.begin(), paths.end(), [&](const Path& a, const Path& b) {
    if ((a == *best) != (b == *best)) return a == *best;
    if (a.weight != b.weight) return a.weight < b.weight;
    return label_places(a, label) < label_places(b, label);
  });
  return paths;
}

}  // namespace

TEST_CASE("the k best paths are the k best label sequences of all") {
  const std::vector<NodeLabel> labellings = {own_label, odd_or_even, thirds, one_label};
  std::size_t compared = 0;
  for (const LayeredGraph& graph : small_graphs()) {
    for (const NodeLabel& label : labellings) {
      const std::vector<Path> expected = best_of_every_label_sequence(graph, label);
      for (const std::size_t k : {std::size_t{1}, std::size_t{2}, std::size_t{7}, expected.size() + 1}) {
        std::vector<Path> wanted = expected;
        if (wanted.size() > k) wanted.resize(k);
        REQUIRE(best_paths(graph, k, label) == wanted);
        compared += wanted.size();
      }
    }
  }
  CHECK(compared > 30'000);
}

TEST_CASE("the first of the best paths is the best path, also where label and node disagree on a tie") {
  // Nodes 0 and 2 share a label. All paths weigh the same but for node 0, so node 1 is best though its label is second.
  LayeredGraph graph;
  graph.nodes = {{1, 0, 0}};
  graph.node_loads = {{0, 0, 0}};
  const NodeLabel label = [](std::size_t, std::size_t index) -> std::uint64_t { return index == 1 ? 1 : 0; };
  const std::vector<Path> paths = best_paths(graph, 5, label);
  REQUIRE(paths.size() == 2);
  CHECK(paths[0] == best_path(graph));
  CHECK(paths[0].at == std::vector<std::uint32_t>{1});
  CHECK(paths[1].at == std::vector<std::uint32_t>{2});
}

TEST_CASE("where no path is wanted none is found, and a graph without layers has one") {
  GraphDrawer drawer(3);
  CHECK(best_paths(drawer.graph({}), 0, own_label).empty());
  CHECK(best_paths(LayeredGraph{}, 3, own_label) == std::vector<Path>{Path{}});
}

TEST_CASE("millions of paths with the same labels do not hide the second label sequence") {
  // 60 layers of 20 nodes that all weigh the same: 20^60 paths share the first label sequence.
  LayeredGraph graph;
  Steps steps{.from = 20, .to = 20, .weight = std::vector<Weight>(400, 1), .load = std::vector<Load>(400, 0)};
  graph.nodes.assign(60, std::vector<Weight>(20, 0));
  graph.node_loads.assign(60, std::vector<Load>(20, 0));
  graph.steps.assign(59, std::make_shared<const Steps>(std::move(steps)));
  graph.nodes[30][19] = 2;
  const NodeLabel label = [](std::size_t layer, std::size_t i) -> std::uint64_t { return layer == 30 && i == 19; };
  const std::vector<Path> paths = best_paths(graph, 10, label);
  REQUIRE(paths.size() == 2);
  CHECK(paths[0].weight == 59);
  CHECK(paths[1].weight == 61);
  CHECK(paths[1].at[30] == 19);
}

TEST_CASE("a label is asked for once a node, and answers come in rising weight and with different labels") {
  GraphDrawer drawer(5);
  const LayeredGraph graph = drawer.graph({.fewest_layers = 300,
                                           .most_layers = 300,
                                           .fewest_nodes = 12,
                                           .most_nodes = 12,
                                           .highest_weight = 1'000'000,
                                           .forbidden_nodes = 0});
  std::size_t asked = 0;
  const NodeLabel label = [&asked](std::size_t, std::size_t index) -> std::uint64_t {
    ++asked;
    return index / 2;
  };
  const std::vector<Path> paths = best_paths(graph, 40, label);
  CHECK(asked == 300 * 12);
  REQUIRE(paths.size() == 40);
  CHECK(paths[0] == best_path(graph));
  std::set<std::vector<std::uint64_t>> seen;
  for (std::size_t n = 0; n < paths.size(); ++n) {
    CHECK(priced(graph, paths[n].at) == paths[n]);
    if (n > 0) CHECK(paths[n - 1].weight <= paths[n].weight);
    CHECK(seen.insert(labels_of(paths[n], label)).second);
  }
}
