#include "graph_dump.hpp"

#include <nlohmann/json.hpp>

namespace fingerway {

std::string graph_dump(const PassageGraph& graph) {
  nlohmann::ordered_json json = {{"format", "fingerway/graph"}, {"version", 1}};
  json["nodes"] = graph.graph.nodes;
  json["node_loads"] = graph.graph.node_loads;
  json["steps"] = nlohmann::json::array();
  json["step_loads"] = nlohmann::json::array();
  for (const auto& steps : graph.graph.steps) {
    nlohmann::ordered_json rows = nlohmann::ordered_json::array();
    nlohmann::ordered_json loads = nlohmann::ordered_json::array();
    for (std::size_t i = 0; i < steps->from; ++i) {
      nlohmann::ordered_json row = nlohmann::ordered_json::array();
      nlohmann::ordered_json row_loads = nlohmann::ordered_json::array();
      for (std::size_t j = 0; j < steps->to; ++j) {
        const Weight weight = steps->weight_at(i, j);
        row.emplace_back(weight >= forbidden ? nlohmann::ordered_json() : nlohmann::ordered_json(weight));
        row_loads.emplace_back(steps->load_at(i, j));
      }
      rows.emplace_back(std::move(row));
      loads.emplace_back(std::move(row_loads));
    }
    json["steps"].emplace_back(std::move(rows));
    json["step_loads"].emplace_back(std::move(loads));
  }
  return json.dump() + "\n";
}

}  // namespace fingerway
