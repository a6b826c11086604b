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

/// The load that sets the speed limit of a change. Rests shrink with the tempo and then hide less, so it is the share
/// of its time the change takes at the very tempo at which it just fits.
double limiting_load(const HandOnInstrument& hand, const Posture& from, const Posture& to, const StepContext& context) {
  const auto at_share = [&](double share) {
    StepContext faster = context;
    faster.silence = context.silence * share;
    return step(hand, from, to, faster).load(context.available);
  };
  // The less silence, the longer the change: just one share of the time equals its own load, and it lies between these.
  double least = std::min(at_share(1.0), 1.0);
  double most = at_share(0.0);
  if (context.silence <= Ms(0) || at_share(most) >= most) return most;
  for (int halving = 0; halving < 40; ++halving) {
    const double middle = (least + most) / 2;
    (at_share(middle) > middle ? least : most) = middle;
  }
  return most;
}

void summarise(Plan& plan, const HandOnInstrument& hand, const PassageGraph& graph,
               const std::vector<std::uint32_t>& path, const Passage& passage) {
  PlanSummary& sum = plan.summary;
  double worst_step = 0.0;
  double limit = 0.0;
  for (std::size_t i = 0; i < plan.notes.size(); ++i) {
    const PlannedNote& note = plan.notes[i];
    sum.complete = sum.complete && note.candidate.has_value();
    if (note.rate && note.rate->value() < hand.numbers().laborious_from.value) sum.fits = false;
    if (!note.arrive) continue;
    sum.awkwardness += note.arrive->step.awkwardness();
    const Node& before = graph.layers[i - 1].nodes[path[i - 1]];
    const Node& here = graph.layers[i].nodes[path[i]];
    limit = std::max(limit, limiting_load(hand, before.leave, here.enter, note.arrive->context));
    if (note.arrive->load() > worst_step) {
      worst_step = note.arrive->load();
      sum.worst_note = i;
    }
  }
  sum.worst_load = worst_step;
  sum.fits = sum.fits && worst_step <= 1.0;
  if (limit > 0.0) sum.ceiling = passage.tempo.tempo_at(ScoreTime()) * (1.0 / limit);
}

/// The same graph with the loads that limit the tempo. A tempo bounds changes only: a trill goes at its own rate.
LayeredGraph limiting_loads(const HandOnInstrument& hand, const PassageGraph& passage) {
  LayeredGraph graph = passage.graph;
  for (auto& loads : graph.node_loads) std::ranges::fill(loads, Load{0});
  for (std::size_t i = 0; i < graph.steps.size(); ++i) {
    const StepContext& context = passage.contexts[i];
    if (context.silence <= Ms(0)) continue;
    Steps steps = *graph.steps[i];
    for (std::size_t a = 0; a < steps.from; ++a) {
      for (std::size_t b = 0; b < steps.to; ++b) {
        const Node& from = passage.layers[i].nodes[a];
        const Node& to = passage.layers[i + 1].nodes[b];
        if (!from.candidate || !to.candidate || is_forbidden(steps.weight_at(a, b))) continue;
        steps.load[a * steps.to + b] = load_units(limiting_load(hand, from.leave, to.enter, context));
      }
    }
    graph.steps[i] = std::make_shared<Steps>(std::move(steps));
  }
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
  summarise(plan, played.hand, graph, path, passage);
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
  const auto fastest = smoothest_path(limiting_loads(played.hand, graph));
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
