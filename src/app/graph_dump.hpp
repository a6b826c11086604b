// What this part answers: the layered graph of a passage as JSON, for other programs to check the search against.
#pragma once

#include <string>

#include "fingerway/plan/passage_graph.hpp"

namespace fingerway {

/// Format "fingerway/graph": node weights and loads a layer, step weights and loads row by row, a null weight where a
/// step must not be taken; weights in micro-points, loads in millionths.
[[nodiscard]] std::string graph_dump(const PassageGraph& graph);

}  // namespace fingerway
