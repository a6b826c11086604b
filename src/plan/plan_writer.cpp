#include "plan_writer.hpp"

#include <algorithm>

#include "step_prices.hpp"

namespace fingerway {
namespace {

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

}  // namespace

PlanWriter::PlanWriter(const Played& played, const Passage& passage)
    : played_(played), passage_(passage), passing_(played) {
  plan_.notes.reserve(passage.notes.size());
}

void PlanWriter::add(const NoteLayer& layer, const Node& node, Weight own) {
  plan_.notes.push_back(planned(layer, node));
  PlanSummary& sum = plan_.summary;
  sum.weight += own;
  sum.complete = sum.complete && node.candidate.has_value();
  if (node.other && node.rate < NotesPerSecond(played_.hand.numbers().laborious_from.value)) sum.fits = false;
  if (last_ && node.candidate) arrive(arrival(*last_, layer, node));
  last_.reset();
  const Leaving leaving = leaving_from(layer, node);
  if (leaving.candidate != nullptr) {
    last_ = Last{.pitch = leaving.pitch, .fingering = leaving.candidate->fingering, .posture = node.leave};
  }
}

Arrival PlanWriter::arrival(const Last& last, const NoteLayer& layer, const Node& node) {
  Arrival arrive;
  arrive.context = step_context(passage_, plan_.notes.size() - 2);
  arrive.from = last.posture;
  arrive.to = node.enter;
  arrive.step = step(played_.hand, last.posture, node.enter, arrive.context);
  double semitones = 0.0;
  if (!arrive.context.tongued && arrive.context.silence <= Ms(0) && arrive.step.movers > 1) {
    arrive.passing = passing_.between(last.pitch, last.fingering, layer.pitch, candidate_of(layer, node)->fingering);
    for (const PassingNote& note : arrive.passing) semitones += note.chance * note.semitones;
  }
  arrive.cost = step_cost(played_.hand.numbers(), arrive.step, arrive.context, semitones);
  return arrive;
}

void PlanWriter::arrive(const Arrival& arrival) {
  PlanSummary& sum = plan_.summary;
  sum.weight += weight(arrival.cost);
  sum.awkwardness += arrival.step.awkwardness();
  const auto part = [&](Hand side) {
    return hand_step(played_.hand, side, hand_of(arrival.from, side), hand_of(arrival.to, side));
  };
  limit_ = std::max(limit_, limiting_load(played_.hand, part(Hand::left), part(Hand::right), arrival.context));
  if (arrival.load() > sum.worst_load) {
    sum.worst_load = arrival.load();
    sum.worst_note = plan_.notes.size() - 1;
  }
  plan_.notes.back().arrive = arrival;
}

Plan PlanWriter::done(std::optional<Load> least_limit) {
  PlanSummary& sum = plan_.summary;
  sum.fits = sum.fits && sum.worst_load <= 1.0;
  if (limit_ > 0.0) sum.ceiling = passage_.tempo.tempo_at(ScoreTime()) * (1.0 / limit_);
  sum.best_ceiling = ceiling_for(passage_, least_limit);
  return std::move(plan_);
}

std::optional<Qpm> ceiling_for(const Passage& passage, std::optional<Load> limit) {
  if (!limit || *limit <= 0) return std::nullopt;
  return passage.tempo.tempo_at(ScoreTime()) * (1e6 / static_cast<double>(*limit));
}

}  // namespace fingerway
