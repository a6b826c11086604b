#include "fingerway/plan/passage_graph.hpp"

#include <algorithm>
#include <map>

#include "admit.hpp"
#include "fingerway/plan/trills.hpp"
#include "postures.hpp"
#include "trill_nodes.hpp"

namespace fingerway {
namespace {

std::optional<WrittenPitch> second_pitch(const NoteEvent& note) {
  if (note.kind == NoteKind::plain || !note.other) return std::nullopt;
  return written(*note.other);
}

/// Admitted candidates of every note: of its own pitch, and of the second one of trills and tremolos.
struct Admitted {
  std::vector<Candidate> own;
  std::vector<Candidate> second;
};

std::vector<Admitted> admitted_for(const Played& played, const Passage& passage, const Choices& choices) {
  std::vector<AdmitNote> entries;
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    entries.push_back({.note = i, .pitch = passage.notes[i].pitch, .bound = true});
    if (const auto other = second_pitch(passage.notes[i]))
      entries.push_back({.note = i, .pitch = *other, .bound = false});
  }
  auto lists = admit(played, entries, choices);
  std::vector<Admitted> admitted(passage.notes.size());
  for (std::size_t e = 0; e < entries.size(); ++e) {
    Admitted& note = admitted[entries[e].note];
    (entries[e].bound ? note.own : note.second) = std::move(lists[e]);
  }
  return admitted;
}

class Builder {
 public:
  Builder(const Played& played, const Passage& passage, const Choices& choices)
      : played_(played), passage_(passage), admitted_(admitted_for(played, passage, choices)), passing_(played) {
    if (!choices.empty()) without_choices_ = admitted_for(played, passage, {});
  }

  PassageGraph build() {
    std::vector<FingerUse> uses;
    for (std::size_t i = 0; i < passage_.notes.size(); ++i) uses.push_back(use_of(i));
    const std::vector<IdlePlaces> places = idle_places(uses);
    for (std::size_t i = 0; i < passage_.notes.size(); ++i) {
      result_.layers.push_back(layer(i, places[i]));
      add_node_weights(result_.layers.back());
    }
    for (std::size_t i = 0; i + 1 < result_.layers.size(); ++i) {
      result_.contexts.push_back(step_context(passage_, i));
      result_.graph.steps.push_back(std::make_shared<Steps>(steps(i)));
    }
    return std::move(result_);
  }

 private:
  /// Idle fingers may be where they could be without the player's choices too, so that a choice only takes ways away.
  [[nodiscard]] FingerUse use_of(std::size_t i) const {
    std::vector<const Candidate*> used;
    const auto add = [&](const Admitted& admitted) {
      for (const Candidate& c : admitted.own) used.push_back(&c);
      for (const Candidate& c : admitted.second) used.push_back(&c);
    };
    add(admitted_[i]);
    if (!without_choices_.empty()) add(without_choices_[i]);
    return finger_use(played_, used);
  }

  NoteLayer layer(std::size_t i, const IdlePlaces& places) {
    const NoteEvent& note = passage_.notes[i];
    NoteLayer layer;
    layer.pitch = note.pitch;
    layer.other = second_pitch(note);
    layer.candidates = std::move(admitted_[i].own);
    layer.seconds = std::move(admitted_[i].second);
    layer.context = {.length = passage_.tempo.at(note.onset + note.length) - passage_.tempo.at(note.onset),
                     .dynamic = note.dynamic,
                     .trilled = layer.other.has_value()};
    if (i > 0) layer.context.after = passage_.notes[i - 1].pitch;
    if (i + 1 < passage_.notes.size()) layer.context.before = passage_.notes[i + 1].pitch;
    layer.choices = played_.derivation.of(note.pitch).size();
    for (std::uint32_t c = 0; c < layer.candidates.size(); ++c) {
      if (layer.other) {
        add_pairs(layer, c, note.kind, places);
      } else {
        add_plain(layer, c, places);
      }
    }
    if (layer.nodes.empty()) layer.nodes.push_back(Node{});
    return layer;
  }

  void add_plain(NoteLayer& layer, std::uint32_t c, const IdlePlaces& places) {
    const Candidate& candidate = layer.candidates[c];
    for (const Posture& posture : postures(played_, candidate, places)) {
      Node node;
      node.candidate = c;
      node.enter = node.leave = posture;
      node.cost = note_cost(played_, candidate, posture, layer.context);
      layer.nodes.push_back(node);
    }
  }

  /// The second fingering of a trill touches neither the note before nor the one after (a trill ends on its main note),
  /// so only the best one for each first fingering and idle place can ever be used. A tremolo ends on its second note.
  void add_pairs(NoteLayer& layer, std::uint32_t c, NoteKind kind, const IdlePlaces& places) {
    const Candidate& first = layer.candidates[c];
    for (const Posture& idle : postures(played_, first, places)) {
      std::optional<Node> best;
      for (std::uint32_t s = 0; s < layer.seconds.size(); ++s) {
        const Candidate& second = layer.seconds[s];
        const PairPostures pair = pair_postures(played_, first, second, idle);
        Node node;
        node.candidate = c;
        node.other = s;
        node.enter = node.leave = pair.from;
        node.rate = trill_rate(played_.hand, pair.from, pair.to);
        node.cost = pair_cost(layer, first, second, pair);
        for (std::size_t f = 0; f < finger_count; ++f) {
          // A flick belongs to the start of the note.
          const auto& states = played_.hand.states(all_fingers[f]);
          if (states.all[idle.at[f]].kind == FingerState::Kind::flicking) node.enter.at[f] = idle.at[f];
        }
        if (kind == NoteKind::tremolo) {
          node.leave = pair.to;
          node.ends_on_second = true;
          layer.nodes.push_back(node);
        } else if (!best || pair_weight(node) < pair_weight(*best)) {
          best = node;
        }
      }
      if (best) layer.nodes.push_back(*best);
    }
  }

  [[nodiscard]] NoteCost pair_cost(const NoteLayer& layer, const Candidate& first, const Candidate& second,
                                   const PairPostures& pair) const {
    NoteCost cost = note_cost(played_, first, pair.from, layer.context);
    const NoteCost other = note_cost(played_, second, pair.to, layer.context);
    for (std::size_t t = 0; t < note_term_count; ++t) cost.terms[t] = (cost.terms[t] + other.terms[t]) / 2;
    return cost;
  }

  /// A trill is priced at the slowest rate that still is one; its load does not depend on the tempo.
  [[nodiscard]] double trill_load(const Node& node) const {
    if (node.rate.value() <= 0.0) return 1e3;
    return played_.hand.numbers().laborious_from.value / node.rate.value();
  }

  [[nodiscard]] Weight pair_weight(const Node& node) const {
    const MotionNumbers& n = played_.hand.numbers();
    const double load = trill_load(node);
    return weight(node.cost.total() + Points(tightness(n, load) + overload(n, load)));
  }

  void add_node_weights(const NoteLayer& layer) {
    std::vector<Weight> weights;
    std::vector<Load> loads;
    for (const Node& node : layer.nodes) {
      weights.push_back(node.other ? pair_weight(node) : weight(node.cost.total()));
      loads.push_back(node.other ? load_units(trill_load(node)) : 0);
    }
    result_.graph.nodes.push_back(std::move(weights));
    result_.graph.node_loads.push_back(std::move(loads));
  }

  [[nodiscard]] double passing(const NoteLayer& from, const Node& a, const NoteLayer& to, const Node& b) {
    const Leaving leaving = leaving_from(from, a);
    return passing_.expected_semitones(leaving.pitch, *leaving.candidate, to.pitch, *candidate_of(to, b));
  }

  Steps steps(std::size_t i) {
    const NoteLayer& from = result_.layers[i];
    const NoteLayer& to = result_.layers[i + 1];
    const StepContext& context = result_.contexts[i];
    Steps steps{.from = from.nodes.size(), .to = to.nodes.size(), .weight = {}, .load = {}};
    steps.weight.reserve(steps.from * steps.to);
    steps.load.reserve(steps.from * steps.to);
    const bool heard = !context.tongued && context.silence <= Ms(0);
    std::map<std::pair<std::uint32_t, std::uint32_t>, double> passed;
    for (const Node& a : from.nodes) {
      for (const Node& b : to.nodes) {
        if (!a.candidate || !b.candidate) {
          steps.weight.push_back(0);
          steps.load.push_back(0);
          continue;
        }
        const Step step = fingerway::step(played_.hand, a.leave, b.enter, context);
        double semitones = 0.0;
        if (heard && step.possible && step.movers > 1) {
          const std::uint32_t leaving = a.ends_on_second ? *a.other : *a.candidate;
          const auto [entry, is_new] = passed.try_emplace({leaving, *b.candidate});
          if (is_new) entry->second = passing(from, a, to, b);
          semitones = entry->second;
        }
        const StepCost cost = step_cost(played_.hand.numbers(), step, context, semitones);
        steps.weight.push_back(step.possible ? weight(cost.total()) : forbidden);
        steps.load.push_back(step.possible ? load_units(step.load(context.available)) : 0);
      }
    }
    return steps;
  }

  const Played& played_;
  const Passage& passage_;
  std::vector<Admitted> admitted_;
  std::vector<Admitted> without_choices_;  ///< empty when there are no choices
  PassingNotes passing_;
  PassageGraph result_;
};

}  // namespace

PassageGraph passage_graph(const Played& played, const Passage& passage, const Choices& choices) {
  return Builder(played, passage, choices).build();
}

StepContext step_context(const Passage& passage, std::size_t i) {
  const NoteEvent& from = passage.notes[i];
  const NoteEvent& to = passage.notes[i + 1];
  StepContext context;
  context.available = passage.tempo.at(to.onset) - passage.tempo.at(from.onset);
  context.silence = std::max(Ms(0), passage.tempo.at(to.onset) - passage.tempo.at(from.onset + from.length));
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
