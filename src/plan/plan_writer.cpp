#include "plan_writer.hpp"

#include <algorithm>
#include <functional>

#include "context_prices.hpp"

namespace fingerway {

PlanWriter::PlanWriter(const Played& played, const Passage& passage)
    : played_(played), passage_(passage), passing_(played) {
  plan_.notes.reserve(passage.notes.size());
}

void PlanWriter::add(const Fingered& fingered, const Node& node, Weight own) {
  PlannedNote& note = plan_.notes.emplace_back();
  note.candidate = kept(fingered.pitch, fingered.candidate);
  if (fingered.other) note.other = kept(*fingered.other, fingered.second);
  if (note.other) note.rate = node.rate;
  note.posture = node.enter;
  note.cost = node.cost;
  note.choices = played_.derivation.of(fingered.pitch).size();
  PlanSummary& sum = plan_.summary;
  sum.weight += own;
  sum.complete = sum.complete && node.candidate.has_value();
  if (node.other && node.rate < NotesPerSecond(played_.hand.numbers().laborious_from.value)) sum.fits = false;
  if (last_ && note.candidate) arrive(*last_, fingered.pitch, node.enter);
  last_.reset();
  const Shared<Candidate>& leaving = node.ends_on_second ? note.other : note.candidate;
  if (!leaving) return;
  last_ = Last{
      .pitch = node.ends_on_second ? *fingered.other : fingered.pitch, .candidate = leaving, .posture = node.leave};
}

/// Equal candidates of a note are kept once.
Shared<Candidate> PlanWriter::kept(WrittenPitch pitch, const Candidate* candidate) {
  if (candidate == nullptr) return {};
  Shared<Candidate>& known = candidates_[{pitch, candidate->fingering}];
  if (!known || *known != *candidate) known = *candidate;
  return known;
}

std::size_t PlanWriter::ChangeHash::operator()(const Change& change) const {
  std::size_t hash = 0;
  const auto mix = [&](auto value) {
    hash = (hash ^ std::hash<decltype(value)>()(value)) * 0x9E37'79B9'7F4A'7C15U;
    hash ^= hash >> 32U;
  };
  mix(change.context.available.count());
  mix(change.context.silence.count());
  mix(change.context.tongued);
  mix(change.from);
  mix(change.to);
  for (const Posture* posture : {&change.before, &change.after}) {
    for (const StateIndex state : posture->at) mix(state);
  }
  return hash;
}

PlanWriter::Arrived PlanWriter::worked_out(const Last& last, const Change& change, WrittenPitch pitch) {
  Arrival arrive;
  arrive.context = change.context;
  arrive.from = change.before;
  arrive.to = change.after;
  const auto part = [&](Hand side) {
    return hand_step(played_.hand, side, hand_of(arrive.from, side), hand_of(arrive.to, side));
  };
  const HandStep left = part(Hand::left);
  const HandStep right = part(Hand::right);
  arrive.step = joined(played_.hand, left, right, arrive.context);
  double semitones = 0.0;
  if (!arrive.context.tongued && arrive.context.silence <= Ms(0) && arrive.step.movers > 1) {
    arrive.passing = passing_.between(last.pitch, change.from->fingering, pitch, change.to->fingering);
    for (const PassingNote& note : arrive.passing) semitones += note.chance * note.semitones;
  }
  arrive.cost = step_cost(played_.hand.numbers(), arrive.step, arrive.context, semitones);
  const Weight weight = fingerway::weight(arrive.cost);
  return {.arrival = std::move(arrive),
          .weight = weight,
          .limit = limiting_load(played_.hand, left, right, change.context)};
}

void PlanWriter::arrive(const Last& last, WrittenPitch pitch, const Posture& posture) {
  PlannedNote& note = plan_.notes.back();
  const Change change{.context = step_context(passage_, plan_.notes.size() - 2),
                      .from = last.candidate.kept(),
                      .to = note.candidate.kept(),
                      .before = last.posture,
                      .after = posture};
  const auto [entry, is_new] = arrivals_.try_emplace(change);
  if (is_new) entry->second = worked_out(last, change, pitch);
  const Arrived& arrived = entry->second;
  note.arrive = arrived.arrival;
  PlanSummary& sum = plan_.summary;
  sum.weight += arrived.weight;
  sum.awkwardness += note.arrive->step.awkwardness();
  limit_ = std::max(limit_, arrived.limit);
  if (note.arrive->load() > sum.worst_load) {
    sum.worst_load = note.arrive->load();
    sum.worst_note = plan_.notes.size() - 1;
  }
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
