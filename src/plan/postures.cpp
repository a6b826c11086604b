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

std::vector<Posture> postures(const Played& played, const Candidate& candidate, const IdlePlaces& places) {
  std::vector<Posture> all(1);
  for (Finger finger : all_fingers) {
    const std::size_t f = index(finger);
    const FingerStates& states = played.hand.states(finger);
    std::vector<StateIndex> options;
    const TouchSet flicked = flicked_by(played, candidate, finger);
    if (candidate.hold[f] != 0) {
      options.push_back(states.holding(candidate.hold[f]));
    } else if (!flicked.empty()) {
      options.push_back(states.flicking(flicked.first()));
    } else if (places[f].empty()) {
      options.push_back(states.at_ease());
    } else {
      for (TouchId touch : places[f]) options.push_back(states.idle_over(touch));
    }
    std::vector<Posture> grown;
    grown.reserve(all.size() * options.size());
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

}  // namespace fingerway
