#include "postures.hpp"

namespace fingerway {
namespace {

TouchSet flicked_by(const Played& played, const Candidate& candidate, Finger finger) {
  return held_by(played.instrument, candidate.fingering.flicked, finger);
}

/// Where a finger that has not been used yet may wait.
TouchSet first_use(const std::vector<FingerUse>& uses, std::size_t f) {
  for (const FingerUse& use : uses) {
    if (!use.needed[f].empty()) return use.needed[f];
    if (!use.homes[f].empty()) return use.homes[f];
  }
  return {};
}

/// Where a finger can be with a fingering.
void states_of(const Played& played, const Candidate& candidate, const IdlePlaces& places, std::size_t f,
               std::vector<StateIndex>& found) {
  const FingerStates& states = played.hand.states(all_fingers[f]);
  found.clear();
  if (candidate.hold[f] != 0) {
    found.push_back(states.holding(candidate.hold[f]));
  } else if (const TouchSet flicked = flicked_by(played, candidate, all_fingers[f]); !flicked.empty()) {
    found.push_back(states.flicking(flicked.first()));
  } else if (places[f].empty()) {
    found.push_back(states.at_ease());
  } else {
    for (TouchId touch : places[f]) found.push_back(states.idle_over(touch));
  }
}

}  // namespace

FingerUse finger_use(const Played& played, const std::vector<const Candidate*>& admitted) {
  FingerUse use;
  for (const Candidate* candidate : admitted) {
    for (Finger finger : all_fingers) {
      const std::size_t f = index(finger);
      const Hold& hold = played.derivation.holds[f][candidate->hold[f]];
      const TouchSet flicked = flicked_by(played, *candidate, finger);
      if (!hold.touches.empty()) {
        use.homes[f].insert(home_touch(hold));
        if (!candidate->spare.contains_all(hold.touches)) use.needed[f].insert(home_touch(hold));
      }
      use.homes[f] |= flicked;
      use.needed[f] |= flicked;
    }
  }
  return use;
}

std::vector<IdlePlaces> idle_places(const std::vector<FingerUse>& uses) {
  std::vector<IdlePlaces> places(uses.size());
  for (std::size_t f = 0; f < finger_count; ++f) {
    TouchSet last = first_use(uses, f);
    for (std::size_t i = 0; i < uses.size(); ++i) {
      places[i][f] = last;
      if (i + 1 < uses.size()) places[i][f] |= uses[i + 1].needed[f];
      if (!uses[i].homes[f].empty()) last = uses[i].homes[f];
    }
  }
  return places;
}

void HandStates::add_finger(const std::vector<StateIndex>& states) {
  states_.insert(states_.end(), states.begin(), states.end());
  first_.at[fingers_] = states.front();
  if (states.size() > 1) several_ = static_cast<std::uint8_t>(several_ | 1U << fingers_);
  begin_[++fingers_] = static_cast<std::uint16_t>(states_.size());
}

void HandStates::spell_out(std::vector<HandPosture>& postures) const {
  std::array<std::size_t, 5> at{};
  for (;;) {
    HandPosture& posture = postures.emplace_back();
    for (std::size_t d = 0; d < 5; ++d) posture.at[d] = of(d)[at[d]];
    std::size_t d = 5;
    while (d > 0 && ++at[d - 1] == of(d - 1).size()) at[--d] = 0;
    if (d == 0) return;
  }
}

HandStates hand_states(const Played& played, const Candidate& candidate, const IdlePlaces& places, Hand side) {
  HandStates hand;
  std::vector<StateIndex> states;
  for (std::size_t d = 0; d < 5; ++d) {
    states_of(played, candidate, places, side == Hand::left ? d : d + 5, states);
    hand.add_finger(states);
  }
  return hand;
}

std::vector<Posture> postures(const Played& played, const Candidate& candidate, const IdlePlaces& places) {
  std::vector<Posture> all;
  BothHands<std::vector<HandPosture>> hands;
  for (Hand side : both_hands) {
    hand_states(played, candidate, places, side).spell_out(hands[static_cast<std::size_t>(side)]);
  }
  for (const HandPosture& left : hands[0]) {
    for (const HandPosture& right : hands[1]) all.push_back(joined(left, right));
  }
  return all;
}

}  // namespace fingerway
