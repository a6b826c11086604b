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
std::vector<StateIndex> states_of(const Played& played, const Candidate& candidate, const IdlePlaces& places,
                                  std::size_t f) {
  const FingerStates& states = played.hand.states(all_fingers[f]);
  if (candidate.hold[f] != 0) return {states.holding(candidate.hold[f])};
  const TouchSet flicked = flicked_by(played, candidate, all_fingers[f]);
  if (!flicked.empty()) return {states.flicking(flicked.first())};
  if (places[f].empty()) return {states.at_ease()};
  std::vector<StateIndex> idle;
  for (TouchId touch : places[f]) idle.push_back(states.idle_over(touch));
  return idle;
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

std::vector<HandPosture> hand_postures(const Played& played, const Candidate& candidate, const IdlePlaces& places,
                                       Hand side) {
  std::vector<HandPosture> all(1);
  for (std::size_t d = 0; d < 5; ++d) {
    const std::size_t f = side == Hand::left ? d : d + 5;
    std::vector<HandPosture> grown;
    const std::vector<StateIndex> states = states_of(played, candidate, places, f);
    grown.reserve(all.size() * states.size());
    for (const HandPosture& posture : all) {
      for (StateIndex state : states) {
        grown.push_back(posture);
        grown.back().at[d] = state;
      }
    }
    all = std::move(grown);
  }
  return all;
}

std::vector<Posture> postures(const Played& played, const Candidate& candidate, const IdlePlaces& places) {
  std::vector<Posture> all;
  const std::vector<HandPosture> rights = hand_postures(played, candidate, places, Hand::right);
  for (const HandPosture& left : hand_postures(played, candidate, places, Hand::left)) {
    for (const HandPosture& right : rights) all.push_back(joined(left, right));
  }
  return all;
}

}  // namespace fingerway
