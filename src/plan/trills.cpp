#include "fingerway/plan/trills.hpp"

#include <algorithm>

#include "admit.hpp"
#include "fingerway/plan/weigh.hpp"
#include "trill_nodes.hpp"

namespace fingerway {
namespace {

/// A flick happens once, when the trill starts; while it goes on the flicking finger is idle.
StateIndex state_in_trill(const Played& played, const Candidate& own, const Candidate& partner, std::size_t f,
                          StateIndex idle) {
  const FingerStates& states = played.hand.states(all_fingers[f]);
  if (own.hold[f] != 0) return states.holding(own.hold[f]);
  if (partner.hold[f] != 0) return states.idle_over(home_touch(played.derivation.holds[f][partner.hold[f]]));
  return idle;
}

Posture at_ease(const Played& played) {
  Posture posture;
  for (Finger finger : all_fingers) posture.at[index(finger)] = played.hand.states(finger).at_ease();
  return posture;
}

/// What a fingering costs inside a trill, for choosing among pairs that go equally fast.
double tone_cost(const Played& played, const Candidate& candidate) {
  const NoteContext trilled{.length = Ms(100), .dynamic = Dynamic::unmarked, .trilled = true};
  double cost = note_cost(played, candidate, trilled).total().value();
  // At home in a trill as it is, a trill fingering is still not the one a player tries first.
  const bool special = played.instrument.table[candidate.line].standing == Standing::trill_only;
  if (special) cost += played.hand.numbers().alternate_points.value;
  return cost;
}

}  // namespace

PairPostures pair_postures(const Played& played, const Candidate& from, const Candidate& to, const Posture& idle) {
  PairPostures pair{.from = idle, .to = idle};
  for (std::size_t f = 0; f < finger_count; ++f) {
    pair.from.at[f] = state_in_trill(played, from, to, f, idle.at[f]);
    pair.to.at[f] = state_in_trill(played, to, from, f, idle.at[f]);
  }
  return pair;
}

std::string_view words(Verdict verdict) {
  switch (verdict) {
    case Verdict::fluent:
      return "fluent";
    case Verdict::workable:
      return "workable";
    case Verdict::laborious:
      return "laborious";
    case Verdict::out_of_reach:
      break;
  }
  return "out of reach";
}

Verdict verdict(const MotionNumbers& numbers, NotesPerSecond rate) {
  if (rate.value() >= numbers.fluent_from.value) return Verdict::fluent;
  if (rate.value() >= numbers.workable_from.value) return Verdict::workable;
  if (rate.value() >= numbers.laborious_from.value) return Verdict::laborious;
  return Verdict::out_of_reach;
}

Trill best_trill(const Played& played, WrittenPitch from, WrittenPitch to) {
  Trill trill{.from = from, .to = to, .best = {}, .verdict = Verdict::out_of_reach};
  const auto admitted = admit(played, {{.note = 0, .pitch = from}, {.note = 0, .pitch = to}}, {});
  const Posture idle = at_ease(played);
  const MotionNumbers& n = played.hand.numbers();
  double best_worth = 0.0;
  std::array<std::vector<double>, 2> tone;
  for (std::size_t side : {0U, 1U}) {
    for (const Candidate& candidate : admitted[side]) tone[side].push_back(tone_cost(played, candidate));
  }
  for (std::size_t i = 0; i < admitted[0].size(); ++i) {
    for (std::size_t j = 0; j < admitted[1].size(); ++j) {
      const Candidate& a = admitted[0][i];
      const Candidate& b = admitted[1][j];
      const PairPostures postures = pair_postures(played, a, b, idle);
      const NotesPerSecond rate = trill_rate(played.hand, postures.from, postures.to);
      // Speed decides as far as the ear follows it; beyond that, and among nearly equal rates, tone does.
      const double worth =
          std::min(rate.value(), n.trill_enough.value) - n.trill_tone.value * (tone[0][i] + tone[1][j]);
      if (trill.best && (worth < best_worth || (worth == best_worth && rate <= trill.best->rate))) continue;
      best_worth = worth;
      trill.best =
          TrillPair{.from = a, .to = b, .from_posture = postures.from, .to_posture = postures.to, .rate = rate};
    }
  }
  if (trill.best) trill.verdict = verdict(played.hand.numbers(), trill.best->rate);
  return trill;
}

std::vector<Trill> all_trills(const Played& played, Semitones widest) {
  std::vector<Trill> trills;
  const Instrument& instrument = played.instrument;
  for (WrittenPitch from = instrument.lowest; from <= instrument.highest; from = from + Semitones(1)) {
    for (int width = 1; width <= widest.count && from + Semitones(width) <= instrument.highest; ++width) {
      trills.push_back(best_trill(played, from, from + Semitones(width)));
    }
  }
  return trills;
}

TouchSet moving_touches(const TrillPair& pair) {
  const Fingering& a = pair.from.fingering;
  const Fingering& b = pair.to.fingering;
  return (a.pressed - b.pressed) | (b.pressed - a.pressed) | (a.half - b.half) | (b.half - a.half);
}

}  // namespace fingerway
