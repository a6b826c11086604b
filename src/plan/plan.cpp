#include "fingerway/plan/plan.hpp"

#include <cassert>

#include "plan_writer.hpp"

namespace fingerway {

std::vector<FingerMove> moves_into(const Played& played, const Arrival& arrival) {
  return finger_moves(played.hand, arrival.from, arrival.to);
}

Plan plan_along(const Played& played, const Passage& passage, const PassageGraph& graph,
                const std::vector<std::uint32_t>& path) {
  assert(path.size() == graph.layers.size());
  PlanWriter writer(played, passage);
  for (std::size_t i = 0; i < path.size(); ++i) {
    const NoteLayer& layer = graph.layers[i];
    const Node& node = layer.nodes[path[i]];
    writer.add({.pitch = layer.pitch,
                .other = layer.other,
                .candidate = candidate_of(layer, node),
                .second = other_of(layer, node)},
               node, graph.graph.nodes[i][path[i]]);
  }
  return writer.done({});
}

}  // namespace fingerway
