#include "fingerway/instrument/grips.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace fingerway {

std::vector<Hold> holds_of(const Instrument& instrument, Finger finger) {
  std::vector<Hold> holds = {Hold{}};
  const TouchSet own = touches_of(instrument, finger);
  for (TouchId touch : own) holds.push_back({.touches = {touch}, .half = {}});
  for (TouchId touch : own) {
    if (instrument.touches[touch.index].can_be_half) holds.push_back({.touches = {touch}, .half = {touch}});
  }
  for (const Grip& grip : instrument.grips) {
    const Hold hold{.touches = grip.touches, .half = {}};
    if (!grip.touches.empty() && own.contains_all(grip.touches) && std::ranges::find(holds, hold) == holds.end()) {
      holds.push_back(hold);
    }
  }
  return holds;
}

TouchId home_touch(const Hold& hold) {
  assert(!hold.touches.empty());
  return hold.touches.first();
}

Mm distance(const Instrument& instrument, TouchId a, TouchId b) {
  const Spot& from = instrument.touches[a.index].spot;
  const Spot& to = instrument.touches[b.index].spot;
  return Mm(std::hypot((to.along - from.along).value(), (to.across - from.across).value()));
}

}  // namespace fingerway
