#include "fingerway/plan/passage_graph.hpp"

#include <algorithm>

#include "passage_ways.hpp"

namespace fingerway {

PassageGraph PassageWays::written_out() const {
  const PassageWays& passage = *this;
  PassageGraph result;
  for (std::size_t i = 0; i < passage.size(); ++i) {
    const auto shape = passage.shape(i);
    NoteLayer layer{.pitch = shape->first->pitch,
                    .other = shape->other,
                    .context = passage.note_context(i),
                    .candidates = shape->first->candidates,
                    .seconds = shape->seconds ? shape->seconds->candidates : std::vector<Candidate>(),
                    .nodes = {},
                    .choices = passage.workshop().played().derivation.of(shape->first->pitch).size()};
    for (std::uint32_t n = 0; n < shape->ways; ++n) layer.nodes.push_back(passage.node(i, *shape, n));
    result.layers.push_back(std::move(layer));
    passage.weights(i, *shape, result.graph.nodes.emplace_back());
    std::vector<Load>& loads = result.graph.node_loads.emplace_back(shape->ways, 0);
    for (std::size_t n = 0; n < shape->pairs.size(); ++n) loads[n] = shape->pairs[n].load;
    if (i + 1 == passage.size()) break;
    result.contexts.push_back(passage.context(i));
    result.graph.steps.push_back(std::make_shared<const Steps>(passage.prices(i).written_out()));
  }
  return result;
}

PassageGraph passage_graph(const Played& played, const Passage& passage, const Choices& choices) {
  Workshop workshop(played);
  return PassageWays(workshop, passage, choices).written_out();
}

StepContext step_context(const Passage& passage, std::size_t i) {
  const NoteEvent& from = passage.notes[i];
  const NoteEvent& to = passage.notes[i + 1];
  StepContext context;
  context.available = passage.tempo.between(from.onset, to.onset);
  context.silence = std::max(Ms(0), passage.tempo.between(from.onset + from.length, to.onset));
  context.tongued = to.attack == Attack::tongued;
  return context;
}

const Candidate* candidate_of(const NoteLayer& layer, const Node& node) {
  return node.candidate ? &layer.candidates[*node.candidate] : nullptr;
}

const Candidate* other_of(const NoteLayer& layer, const Node& node) {
  return node.other ? &layer.seconds[*node.other] : nullptr;
}

Leaving leaving_from(const NoteLayer& layer, const Node& node) {
  if (node.ends_on_second) return {.pitch = *layer.other, .candidate = other_of(layer, node)};
  return {.pitch = layer.pitch, .candidate = candidate_of(layer, node)};
}

}  // namespace fingerway
