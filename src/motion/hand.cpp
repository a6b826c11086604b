#include "fingerway/motion/hand.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "move_rules.hpp"
#include "together.hpp"

namespace fingerway {
namespace {

FingerStates states_of(const Instrument& instrument, Finger finger) {
  using Kind = FingerState::Kind;
  FingerStates states;
  for (const Hold& hold : holds_of(instrument, finger)) {
    states.all.push_back({.kind = Kind::holding, .hold = hold, .over = TouchId(), .nowhere = false});
  }
  states.holds = states.all.size();
  const TouchSet own = touches_of(instrument, finger);
  if (own.empty()) states.all.push_back({.kind = Kind::idle, .hold = {}, .over = TouchId(), .nowhere = true});
  for (Kind kind : {Kind::idle, Kind::flicking}) {
    for (TouchId touch : own) states.all.push_back({.kind = kind, .hold = {}, .over = touch, .nowhere = false});
  }
  return states;
}

bool has_next_in_hand(Finger finger) { return digit(finger) >= 1 && digit(finger) <= 3; }

Points reach_points(const Instrument& instrument, const MotionNumbers& n, Finger finger, const Hold& a, const Hold& b) {
  if (a.touches.empty() || b.touches.empty()) return Points(0);
  double nearest = INFINITY;
  for (TouchId x : a.touches) {
    for (TouchId y : b.touches) nearest = std::min(nearest, distance(instrument, x, y).value());
  }
  const double beyond = nearest - n.comfortable_reach[digit(finger) - 1].value;
  return Points(std::max(0.0, beyond) * n.reach_points.value);
}

}  // namespace

StateIndex FingerStates::idle_over(TouchId touch) const {
  for (std::size_t i = holds; i < all.size(); ++i) {
    if (all[i].kind == FingerState::Kind::idle && all[i].over == touch) return static_cast<StateIndex>(i);
  }
  assert(false && "a finger is idle only over its own touches");
  return at_ease();
}

StateIndex FingerStates::flicking(TouchId touch) const {
  for (std::size_t i = holds; i < all.size(); ++i) {
    if (all[i].kind == FingerState::Kind::flicking && all[i].over == touch) return static_cast<StateIndex>(i);
  }
  assert(false && "a finger flicks only its own touches");
  return at_ease();
}

HandOnInstrument::HandOnInstrument(const Instrument& instrument, const MotionNumbers& numbers, Level level,
                                   const MeasuredHand& measured)
    : numbers_(scaled_to_span(numbers, measured)),
      level_(level),
      half_cycles_(half_cycles(numbers, level, measured)),
      together_(together_table(numbers_)),
      spread_(spread_table(numbers_, level)),
      fingers_(fingers_table(numbers_)) {
  for (const Together& t : together_) brief_.push_back({.points = t.points, .movers = t.movers, .ways = t.ways});
  for (Finger finger : all_fingers) states_[index(finger)] = states_of(instrument, finger);
  for (Finger finger : all_fingers) {
    const std::size_t f = index(finger);
    const FingerFacts facts{.instrument = instrument, .numbers = numbers_, .half_cycle = half_cycle(finger)};
    const auto& own = states_[f].all;
    moves_[f].reserve(own.size() * own.size());
    parts_[f].reserve(own.size() * own.size());
    strides_[f] = own.size();
    for (std::size_t from = 0; from < own.size(); ++from) {
      for (std::size_t to = 0; to < own.size(); ++to) {
        // The empty hold stands in the list so that hold numbers agree; an idle finger is always over some touch.
        const bool unused = from == 0 || to == 0;
        moves_[f].push_back(unused ? Move{.kind = MoveKind::impossible} : move_between(facts, own[from], own[to]));
        parts_[f].push_back(part_of(moves_[f].back(), digit(finger), holds(finger, static_cast<StateIndex>(to))));
      }
    }
    if (!has_next_in_hand(finger)) continue;
    for (const FingerState& a : own) {
      for (const FingerState& b : states_[f + 1].all) {
        reach_[f].push_back(reach_points(instrument, numbers_, finger, a.hold, b.hold));
      }
    }
  }
}

Points HandOnInstrument::reach(Finger finger, StateIndex a, StateIndex next_finger) const {
  const std::size_t f = index(finger);
  if (reach_[f].empty()) return Points(0);
  return reach_[f][a * states_[f + 1].all.size() + next_finger];
}

}  // namespace fingerway
