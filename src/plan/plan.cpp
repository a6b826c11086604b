#include "fingerway/plan/plan.hpp"

#include <algorithm>
#include <cassert>

namespace fingerway {
namespace {

/// Which fingering a node plays; postures that differ only in where idle fingers wait are the same plan.
std::uint64_t fingering_label(const Node& node) {
  const std::uint64_t first = node.candidate ? *node.candidate + 1 : 0;
  const std::uint64_t second = node.other ? *node.other + 1 : 0;
  return second << 32U | first;
}

Arrival arrival(const Played& played, const PassageGraph& graph, PassingNotes& passing, std::size_t from, const Node& a,
                const Node& b) {
  const NoteLayer& before = graph.layers[from];
  const NoteLayer& here = graph.layers[from + 1];
  Arrival arrive;
  arrive.context = graph.contexts[from];
  arrive.step = step(played.hand, a.leave, b.enter, arrive.context);
  arrive.moves = finger_moves(played.hand, a.leave, b.enter);
  double semitones = 0.0;
  if (!arrive.context.tongued && arrive.context.silence <= Ms(0) && arrive.step.movers > 1) {
    const Leaving leaving = leaving_from(before, a);
    arrive.passing = passing.between(leaving.pitch, *leaving.candidate, here.pitch, *candidate_of(here, b));
    for (const PassingNote& note : arrive.passing) semitones += note.chance * note.semitones;
  }
  arrive.cost = step_cost(played.hand.numbers(), arrive.step, arrive.context, semitones);
  return arrive;
}

PlannedNote planned(const NoteLayer& layer, const Node& node) {
  PlannedNote note;
  if (const Candidate* c = candidate_of(layer, node)) note.candidate = *c;
  if (const Candidate* c = other_of(layer, node)) {
    note.other = *c;
    note.rate = node.rate;
  }
  note.posture = node.enter;
  note.cost = node.cost;
  note.choices = layer.choices;
  return note;
}

void summarise(Plan& plan, const MotionNumbers& numbers, const Passage& passage) {
  PlanSummary& sum = plan.summary;
  double worst_step = 0.0;
  for (std::size_t i = 0; i < plan.notes.size(); ++i) {
    const PlannedNote& note = plan.notes[i];
    sum.complete = sum.complete && note.candidate.has_value();
    if (note.rate && note.rate->value() < numbers.laborious_from.value) sum.fits = false;
    if (!note.arrive) continue;
    sum.awkwardness += note.arrive->step.awkwardness();
    if (note.arrive->load() > worst_step) {
      worst_step = note.arrive->load();
      sum.worst_note = i;
    }
  }
  sum.worst_load = worst_step;
  sum.fits = sum.fits && worst_step <= 1.0;
  if (worst_step > 0.0) sum.ceiling = passage.tempo.tempo_at(ScoreTime()) * (1.0 / worst_step);
}

/// A tempo bounds changes only; a trill goes at its own rate whatever the tempo.
LayeredGraph changes_only(LayeredGraph graph) {
  for (auto& loads : graph.node_loads) std::ranges::fill(loads, Load{0});
  return graph;
}

}  // namespace

Plan plan_along(const Played& played, const Passage& passage, const PassageGraph& graph,
                const std::vector<std::uint32_t>& path) {
  assert(path.size() == graph.layers.size());
  Plan plan;
  PassingNotes passing(played);
  for (std::size_t i = 0; i < path.size(); ++i) {
    const Node& node = graph.layers[i].nodes[path[i]];
    plan.notes.push_back(planned(graph.layers[i], node));
    if (i == 0) continue;
    const Node& before = graph.layers[i - 1].nodes[path[i - 1]];
    if (before.candidate && node.candidate) {
      plan.notes.back().arrive = arrival(played, graph, passing, i - 1, before, node);
    }
  }
  summarise(plan, played.hand.numbers(), passage);
  if (const auto price = priced(graph.graph, path)) plan.summary.weight = price->weight;
  return plan;
}

std::vector<Plan> plan_passage(const Played& played, const Passage& passage, const PlanRequest& request) {
  const PassageGraph graph = passage_graph(played, passage, request.choices);
  std::vector<Path> paths;
  if (request.objective == Objective::smoothest) {
    if (const auto path = smoothest_path(graph.graph)) paths.push_back(*path);
  } else if (request.alternatives <= 1) {
    if (const auto path = best_path(graph.graph)) paths.push_back(*path);
  } else {
    paths = best_paths(graph.graph, request.alternatives, [&](std::size_t layer, std::size_t node) {
      return fingering_label(graph.layers[layer].nodes[node]);
    });
  }
  const auto fastest = smoothest_path(changes_only(graph.graph));
  std::vector<Plan> plans;
  for (const Path& path : paths) {
    plans.push_back(plan_along(played, passage, graph, path.at));
    if (fastest && fastest->largest_load > 0) {
      plans.back().summary.best_ceiling =
          passage.tempo.tempo_at(ScoreTime()) * (1e6 / static_cast<double>(fastest->largest_load));
    }
  }
  assert(!plans.empty() || passage.notes.empty());
  return plans;
}

}  // namespace fingerway
