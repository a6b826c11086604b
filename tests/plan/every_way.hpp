// What this part answers: the least weight of a passage found the long way round: every node priced on its own from the
// public cost functions, every sequence tried, or every place an idle finger could be.
// It uses none of the search and none of the pruning of idle places.
#pragma once

#include <algorithm>
#include <functional>
#include <limits>
#include <optional>
#include <vector>

#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// Prices ways of playing one passage of plain notes.
class EveryWay {
 public:
  EveryWay(const Played& played, const Passage& passage, const PassageGraph& graph)
      : played_(played), passage_(passage), graph_(graph), passing_(played) {}

  [[nodiscard]] Weight note_weight(std::size_t i, std::uint32_t candidate) const {
    const NoteEvent& note = passage_.notes[i];
    const NoteContext context{.length = passage_.tempo.at(note.onset + note.length) - passage_.tempo.at(note.onset),
                              .dynamic = note.dynamic,
                              .trilled = false};
    return weight(note_cost(played_, graph_.layers[i].candidates[candidate], context).total());
  }

  /// Nothing when no hand can make the change.
  [[nodiscard]] std::optional<Weight> step_weight(std::size_t i, std::uint32_t a, const Posture& from, std::uint32_t b,
                                                  const Posture& to) {
    const StepContext context = step_context(passage_, i);
    const Step change = step(played_.hand, from, to, context);
    if (!change.possible) return std::nullopt;
    double semitones = 0.0;
    if (!context.tongued && context.silence <= Ms(0) && change.movers > 1) {
      semitones =
          passing_.expected_semitones(passage_.notes[i].pitch, graph_.layers[i].candidates[a].fingering,
                                      passage_.notes[i + 1].pitch, graph_.layers[i + 1].candidates[b].fingering);
    }
    return weight(step_cost(played_.hand.numbers(), change, context, semitones));
  }

  /// The least weight over all sequences of the graph's nodes, tried one by one.
  [[nodiscard]] Weight least_over_sequences() {
    Weight least = forbidden;
    try_all(0, 0, nullptr, least);
    return least;
  }
  [[nodiscard]] std::size_t sequences() const {
    std::size_t product = 1;
    for (const NoteLayer& layer : graph_.layers) product *= layer.nodes.size();
    return product;
  }

  /// The least weight where an idle finger may be over any of its touches, whatever the notes around need.
  [[nodiscard]] Weight least_over_all_places() {
    std::vector<Way> before;
    for (std::size_t i = 0; i < graph_.layers.size(); ++i) {
      std::vector<Way> now;
      for (std::uint32_t c = 0; c < graph_.layers[i].candidates.size(); ++c) {
        for (const Posture& posture : all_postures(graph_.layers[i].candidates[c])) {
          Way way{.candidate = c, .posture = posture, .weight = note_weight(i, c)};
          if (i > 0) way.weight = reached(i, before, way);
          if (way.weight < forbidden) now.push_back(way);
        }
      }
      most_ways_ = std::max(most_ways_, now.size());
      before = std::move(now);
    }
    Weight least = forbidden;
    for (const Way& way : before) least = std::min(least, way.weight);
    return least;
  }
  /// The most ways one note had in the search over all places.
  [[nodiscard]] std::size_t most_ways() const { return most_ways_; }

 private:
  struct Way {
    std::uint32_t candidate = 0;
    Posture posture;
    Weight weight = 0;
  };

  void try_all(std::size_t i, Weight so_far, const Node* last, Weight& least) {
    if (i == graph_.layers.size()) {
      least = std::min(least, so_far);
      return;
    }
    for (const Node& node : graph_.layers[i].nodes) {
      Weight sum = so_far + note_weight(i, *node.candidate);
      if (last != nullptr) {
        const auto change = step_weight(i - 1, *last->candidate, last->leave, *node.candidate, node.enter);
        if (!change) continue;
        sum += *change;
      }
      try_all(i + 1, sum, &node, least);
    }
  }

  Weight reached(std::size_t i, const std::vector<Way>& before, const Way& way) {
    Weight least = forbidden;
    for (const Way& from : before) {
      if (from.weight >= least) continue;
      const auto change = step_weight(i - 1, from.candidate, from.posture, way.candidate, way.posture);
      if (change) least = std::min(least, from.weight + *change);
    }
    return least >= forbidden ? forbidden : least + way.weight;
  }

  [[nodiscard]] std::vector<Posture> all_postures(const Candidate& candidate) const {
    std::vector<Posture> all(1);
    for (Finger finger : all_fingers) {
      const std::size_t f = index(finger);
      const FingerStates& states = played_.hand.states(finger);
      const TouchSet flicked = held_by(played_.instrument, candidate.fingering.flicked, finger);
      std::vector<StateIndex> options;
      if (candidate.hold[f] != 0) {
        options = {states.holding(candidate.hold[f])};
      } else if (!flicked.empty()) {
        options = {states.flicking(flicked.first())};
      } else {
        for (std::size_t s = states.holds; s < states.all.size(); ++s) {
          if (states.all[s].kind == FingerState::Kind::idle) options.push_back(static_cast<StateIndex>(s));
        }
      }
      std::vector<Posture> grown;
      for (const Posture& posture : all) {
        for (StateIndex option : options) {
          grown.push_back(posture);
          grown.back().at[f] = option;
        }
      }
      all = std::move(grown);
    }
    return all;
  }

  const Played& played_;
  const Passage& passage_;
  const PassageGraph& graph_;
  PassingNotes passing_;
  std::size_t most_ways_ = 0;
};

/// The least weight over all sequences of a passage's ways; nothing where there are more than `most` to try, or a
/// note without a fingering.
[[nodiscard]] inline std::optional<Weight> least_of_every_sequence(const Played& played, const Passage& passage,
                                                                   std::size_t most) {
  const PassageGraph graph = passage_graph(played, passage, {});
  const auto empty = [](const NoteLayer& layer) { return layer.candidates.empty(); };
  EveryWay every(played, passage, graph);
  if (std::ranges::any_of(graph.layers, empty) || every.sequences() > most) return std::nullopt;
  return every.least_over_sequences();
}

/// What a plan's notes and changes weigh, each by itself.
[[nodiscard]] inline Weight weight_by_parts(const Plan& plan) {
  Weight sum = 0;
  for (const PlannedNote& note : plan.notes) {
    sum += weight(note.cost.total());
    if (note.arrive) sum += weight(note.arrive->cost);
  }
  return sum;
}

}  // namespace fingerway
