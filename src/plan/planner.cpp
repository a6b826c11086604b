#include "fingerway/plan/planner.hpp"

#include <algorithm>
#include <cassert>

#include "passage_search.hpp"
#include "plan_writer.hpp"

namespace fingerway {
namespace {

/// Which fingering a node plays; postures that differ only in where idle fingers wait are the same plan.
std::uint64_t fingering_label(const Node& node) {
  const std::uint64_t first = node.candidate ? *node.candidate + 1 : 0;
  const std::uint64_t second = node.other ? *node.other + 1 : 0;
  return second << 32U | first;
}

std::vector<Plan> plans_of(Workshop& workshop, const Passage& passage, const PlanRequest& request) {
  const PassageWays ways(workshop, passage, request.choices);
  const Found found = search(ways, {}, Sought::path_and_limit);
  std::vector<std::vector<std::uint32_t>> paths;
  if (request.objective == Objective::least_awkward && request.alternatives <= 1) {
    paths.push_back(found.at);
  } else {
    const PassageGraph graph = ways.written_out();
    const auto label = [&](std::size_t layer, std::size_t node) {
      return fingering_label(graph.layers[layer].nodes[node]);
    };
    if (request.objective == Objective::smoothest) {
      if (const auto path = smoothest_path(graph.graph)) paths.push_back(path->at);
    } else {
      for (const Path& path : best_paths(graph.graph, request.alternatives, label)) paths.push_back(path.at);
    }
  }
  std::vector<Plan> plans;
  for (const auto& at : paths) plans.push_back(plan_along(passage, ways, at, found.least_limit));
  assert(!plans.empty());
  return plans;
}

std::unique_ptr<Workshop> kept_workshop(const Played& played) {
  return std::make_unique<Workshop>(played, Workshop::Keeps::prices_by_note);
}

}  // namespace

std::vector<Plan> plan_passage(const Played& played, const Passage& passage, const PlanRequest& request) {
  Workshop workshop(played);
  return plans_of(workshop, passage, request);
}

Planner::Planner(const Played& played) : workshop_(kept_workshop(played)) {}
Planner::Planner(Planner&&) noexcept = default;
Planner& Planner::operator=(Planner&&) noexcept = default;
Planner::~Planner() = default;

std::vector<Plan> Planner::plans(const Passage& passage, const PlanRequest& request) {
  // What was asked for long ago is not kept for ever.
  constexpr std::size_t most_bytes = 100'000'000;
  if (workshop_->bytes() > most_bytes) workshop_ = kept_workshop(workshop_->played());
  return plans_of(*workshop_, passage, request);
}

PassageGraph Planner::graph(const Passage& passage, const Choices& choices) {
  return PassageWays(*workshop_, passage, choices).written_out();
}

std::vector<std::size_t> Planner::left_without(const Passage& passage, const Choices& choices) {
  const PassageWays ways(*workshop_, passage, choices);
  std::vector<std::size_t> notes;
  for (std::size_t i = 0; i < ways.size(); ++i) {
    const bool playable = !workshop_->played().derivation.of(passage.notes[i].pitch).empty();
    if (playable && ways.shape(i)->first->candidates.empty()) notes.push_back(i);
  }
  return notes;
}

}  // namespace fingerway
