#include "fingerway/plan/explain.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

namespace fingerway {
namespace {

/// Notes before and after the one asked for that are kept to be drawn.
constexpr std::size_t nearby = 2;

using FingeringKey = std::pair<std::uint32_t, std::uint32_t>;

FingeringKey key_of(const Node& node) { return {node.candidate.value_or(0), node.other.value_or(0)}; }

/// Nodes of one layer that play the same fingering, and the least any path through one of them weighs.
struct Group {
  std::vector<std::uint32_t> nodes;
  Weight weight = forbidden;
};

std::vector<Group> groups_by_fingering(const PassageGraph& graph, std::size_t layer) {
  const std::vector<Weight> through = weights_through(graph.graph, layer);
  std::map<FingeringKey, Group> groups;
  for (std::uint32_t i = 0; i < through.size(); ++i) {
    Group& group = groups[key_of(graph.layers[layer].nodes[i])];
    group.nodes.push_back(i);
    group.weight = std::min(group.weight, through[i]);
  }
  std::vector<Group> sorted;
  for (auto& [key, group] : groups) sorted.push_back(std::move(group));
  std::ranges::stable_sort(sorted, {}, &Group::weight);
  return sorted;
}

/// The best path whose node at `layer` is one of these.
std::optional<std::vector<std::uint32_t>> best_through(const PassageGraph& graph, std::size_t layer,
                                                       const std::vector<std::uint32_t>& nodes) {
  std::vector<std::vector<std::uint32_t>> allowed(graph.layers.size());
  for (std::size_t l = 0; l < allowed.size(); ++l) {
    allowed[l].resize(graph.layers[l].nodes.size());
    std::iota(allowed[l].begin(), allowed[l].end(), 0U);
  }
  allowed[layer] = nodes;
  const auto path = best_path(restricted(graph.graph, allowed));
  if (!path) return std::nullopt;
  std::vector<std::uint32_t> at = path->at;
  at[layer] = nodes[at[layer]];
  return at;
}

bool same_fingering(const PlannedNote& a, const PlannedNote& b) {
  const auto fingering = [](const std::optional<Candidate>& c) {
    return c ? std::optional<Fingering>(c->fingering) : std::nullopt;
  };
  return fingering(a.candidate) == fingering(b.candidate) && fingering(a.other) == fingering(b.other);
}

}  // namespace

Explanation explain_note(const Played& played, const Passage& passage, const Choices& choices, std::size_t note,
                         std::size_t most) {
  const PassageGraph graph = passage_graph(played, passage, choices);
  Explanation explanation{.note = note, .options = {}};
  std::optional<Plan> best;
  Weight least = 0;
  for (const Group& group : groups_by_fingering(graph, note)) {
    if (explanation.options.size() >= most || group.weight >= forbidden) break;
    const auto path = best_through(graph, note, group.nodes);
    if (!path) continue;
    Plan plan = plan_along(played, passage, graph, *path);
    Option option{.here = plan.notes[note], .leave = {}, .dearer = {}, .elsewhere = {}, .around = {}};
    if (note + 1 < plan.notes.size()) option.leave = plan.notes[note + 1].arrive;
    option.around_first = note - std::min(note, nearby);
    const auto from = plan.notes.begin() + static_cast<std::ptrdiff_t>(option.around_first);
    const std::size_t end = std::min(note + nearby + 1, plan.notes.size());
    option.around.assign(from, plan.notes.begin() + static_cast<std::ptrdiff_t>(end));
    if (!best) {
      least = group.weight;
    } else {
      for (std::size_t i = 0; i < plan.notes.size(); ++i) {
        if (i != note && !same_fingering(plan.notes[i], best->notes[i])) option.elsewhere.push_back(i);
      }
    }
    option.dearer = Points(static_cast<double>(group.weight - least) / 1e6);
    if (!best) best = std::move(plan);
    explanation.options.push_back(std::move(option));
  }
  return explanation;
}

}  // namespace fingerway
