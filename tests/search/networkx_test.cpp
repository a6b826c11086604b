// Checks the searches against an independent graph library, networkx for Python (Debian: python3-networkx): its
// Bellman-Ford, its k shortest simple paths, and reachability over the edges up to a load.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "fingerway/search/paths.hpp"
#include "search/graphs.hpp"

using namespace fingerway;

namespace {

constexpr std::size_t wanted = 12;

bool networkx_is_here() { return std::system("python3 -c 'import networkx' >/dev/null 2>&1") == 0; }

/// As plain edges from a start to an end. A node becomes two vertices with an edge between them that carries what it
/// weighs, so nothing is taken from how the searches see the graph.
nlohmann::json as_edges(const LayeredGraph& graph) {
  std::vector<std::size_t> first = {0};
  for (const std::vector<Weight>& layer : graph.nodes) first.push_back(first.back() + layer.size());
  const std::size_t end = 2 * first.back() + 1;
  const auto entry = [&](std::size_t l, std::size_t i) { return 2 * (first[l] + i) + 1; };
  nlohmann::json edges = nlohmann::json::array();
  const auto add = [&edges](std::size_t from, std::size_t to, Weight weight, Load load) {
    if (weight != forbidden) edges.push_back({from, to, weight, load});
  };
  const std::size_t layers = graph.layer_count();
  for (std::size_t l = 0; l < layers; ++l) {
    for (std::size_t i = 0; i < graph.nodes[l].size(); ++i) {
      add(entry(l, i), entry(l, i) + 1, graph.nodes[l][i], graph.node_loads[l][i]);
      if (l == 0) add(0, entry(l, i), 0, 0);
      if (l + 1 == layers) add(entry(l, i) + 1, end, 0, 0);
      for (std::size_t j = 0; l + 1 < layers && j < graph.nodes[l + 1].size(); ++j) {
        const Steps& steps = *graph.steps[l];
        add(entry(l, i) + 1, entry(l + 1, j), steps.weight_at(i, j), steps.load_at(i, j));
      }
    }
  }
  return {{"vertices", end + 1}, {"edges", std::move(edges)}, {"k", wanted}};
}

nlohmann::json our_answer(const LayeredGraph& graph) {
  const std::optional<Path> best = best_path(graph);
  if (!best) return nullptr;
  nlohmann::json weights = nlohmann::json::array();
  const NodeLabel own_label = [](std::size_t, std::size_t index) -> std::uint64_t { return index; };
  for (const Path& path : best_paths(graph, wanted, own_label)) weights.push_back(path.weight);
  const std::optional<Path> smoothest = smoothest_path(graph);
  return {{"weight", best->weight},
          {"weights", std::move(weights)},
          {"largest_load", smoothest->largest_load},
          {"smoothest_weight", smoothest->weight}};
}

}  // namespace

TEST_CASE("networkx finds the same weights and loads as our searches") {
  if (!networkx_is_here()) {
    // FINGERWAY_NETWORKX=1 says that it must be there, as on the machine that decides.
    REQUIRE(std::getenv("FINGERWAY_NETWORKX") == nullptr);
    WARN("skipped: python3 has no networkx (Debian: python3-networkx)");
    return;
  }
  GraphDrawer drawer(29);
  std::vector<LayeredGraph> graphs;
  for (int n = 0; n < 40; ++n) {
    graphs.push_back(drawer.graph({.fewest_layers = 1,
                                   .most_layers = 12,
                                   .fewest_nodes = 1,
                                   .most_nodes = 9,
                                   .highest_weight = n % 2 == 0 ? 9 : 1'000'000'000'000,
                                   .highest_load = 1'000'000,
                                   .forbidden_steps = 15 * (n % 5)}));
  }
  nlohmann::json problems = nlohmann::json::array();
  for (const LayeredGraph& graph : graphs) problems.push_back(as_edges(graph));

  const std::filesystem::path folder = std::filesystem::temp_directory_path();
  const std::string name = "fingerway-networkx-" + std::to_string(std::random_device{}());
  const std::filesystem::path question = folder / (name + ".json");
  const std::filesystem::path reply = folder / (name + ".txt");
  const std::filesystem::path script = "tests/search/networkx_shortest.py";
  std::ofstream(question) << problems;
  const std::string command =
      "python3 '" + script.string() + "' '" + question.string() + "' > '" + reply.string() + "'";
  const int status = std::system(command.c_str());
  std::ifstream lines(reply);
  std::vector<nlohmann::json> answers;
  for (std::string line; std::getline(lines, line);) answers.push_back(nlohmann::json::parse(line));
  std::filesystem::remove(question);
  std::filesystem::remove(reply);

  REQUIRE(status == 0);
  REQUIRE(answers.size() == graphs.size());
  std::size_t with_path = 0;
  for (std::size_t n = 0; n < graphs.size(); ++n) {
    CHECK(answers[n] == our_answer(graphs[n]));
    if (!answers[n].is_null()) ++with_path;
  }
  CHECK(with_path > 20);
}
