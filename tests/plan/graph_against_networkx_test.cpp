// The program's own graph of a demo score, handed to an independent graph library (networkx for Python; Debian:
// python3-networkx): the lightest path and the smoothest worst moment must be those the program tells.
#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>

#include "fingerway/search/paths.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

bool networkx_is_here() { return std::system("python3 -c 'import networkx' >/dev/null 2>&1") == 0; }

nlohmann::json read_json(const std::filesystem::path& file) {
  std::ifstream stream(file);
  return nlohmann::json::parse(stream);
}

std::string in_quotes(const std::filesystem::path& path) { return "'" + path.string() + "'"; }

/// The dump as our own search takes it.
LayeredGraph graph_of(const nlohmann::json& dump) {
  LayeredGraph graph;
  graph.nodes = dump["nodes"].get<std::vector<std::vector<Weight>>>();
  graph.node_loads = dump["node_loads"].get<std::vector<std::vector<Load>>>();
  for (std::size_t l = 0; l < dump["steps"].size(); ++l) {
    auto steps = std::make_shared<Steps>();
    steps->from = graph.nodes[l].size();
    steps->to = graph.nodes[l + 1].size();
    for (std::size_t i = 0; i < steps->from; ++i) {
      for (std::size_t j = 0; j < steps->to; ++j) {
        const auto& weight = dump["steps"][l][i][j];
        steps->weight.push_back(weight.is_null() ? forbidden : weight.get<Weight>());
        steps->load.push_back(dump["step_loads"][l][i][j].get<Load>());
      }
    }
    graph.steps.push_back(steps);
  }
  return graph;
}

}  // namespace

TEST_CASE("networkx finds the same best plan in the program's own graph of a demo score") {
  const char* program = std::getenv("FINGERWAY_PROGRAM");
  if (program == nullptr || !networkx_is_here()) {
    // FINGERWAY_NETWORKX=1 says that it must be there, as on the machine that decides.
    REQUIRE(std::getenv("FINGERWAY_NETWORKX") == nullptr);
    WARN("skipped: needs FINGERWAY_PROGRAM and networkx (Debian: python3-networkx)");
    return;
  }
  const ScratchFolder folder;
  const auto dump = folder.path() / "graph.json";
  const auto plan = folder.path() / "plan.json";
  const auto answer = folder.path() / "answer.json";
  const std::string command = "cd " + in_quotes(project_folder()) + " && " + in_quotes(program) +
                              " plan scores/first-steps.musicxml -i bassoon --smoothest --dump " + in_quotes(dump) +
                              " --json " + in_quotes(plan) + " >/dev/null";
  // 1 would say that something does not fit: no fault of the graph.
  const int status = std::system(command.c_str());
  REQUIRE((status == 0 || status == 256));
  const std::string script = "python3 " + in_quotes(project_folder() / "tests/plan/networkx_plan.py") + " " +
                             in_quotes(dump) + " > " + in_quotes(answer);
  REQUIRE(std::system(script.c_str()) == 0);

  const nlohmann::json told = read_json(plan);
  const nlohmann::json theirs = read_json(answer);
  const LayeredGraph graph = graph_of(read_json(dump));
  REQUIRE(graph.layer_count() > 5);
  CHECK(theirs["layers"] == told["notes"].size());
  CHECK(told["summary"]["complete"] == true);
  CHECK(theirs["weight"] == best_path(graph)->weight);
  CHECK(theirs["weight"] == best_path_by_boost(graph)->weight);
  CHECK(theirs["worst_load"] == smoothest_path(graph)->largest_load);
  // Loads in the graph are millionths; the score has no trill, whose load would not be a change's.
  CHECK(told["summary"]["worst_load"].get<double>() * 1e6 == Approx(theirs["worst_load"].get<double>()).margin(1.0));
}
