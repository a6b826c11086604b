#include "fingerway/motion/player.hpp"

#include <algorithm>

namespace fingerway {
namespace {

/// True where a habit speaks of a note between these neighbours.
bool applies(const OwnFingering& habit, const OwnFingering& played) {
  return habit.pitch == played.pitch && (!habit.after || habit.after == played.after) &&
         (!habit.before || habit.before == played.before);
}

bool of_a_pair(const OwnFingering& habit) { return habit.after || habit.before; }

}  // namespace

bool MeasuredHand::any_rate() const {
  return std::ranges::any_of(rates, [](const auto& rate) { return rate.has_value(); });
}

std::array<Ms, finger_count> half_cycles(const MotionNumbers& numbers, Level level, const MeasuredHand& measured) {
  const LevelNumbers& own = numbers.levels[static_cast<std::size_t>(level)];
  double index_rate = own.index_rate.value;
  if (measured.any_rate()) {
    double sum = 0.0;
    int count = 0;
    for (Finger finger : all_fingers) {
      if (const auto& rate = measured.rates[index(finger)]) {
        sum += rate->value() / 2.0 / own.rate_ratio[digit(finger)].value;
        ++count;
      }
    }
    index_rate = sum / count;
  }
  std::array<Ms, finger_count> cycles{};
  for (Finger finger : all_fingers) {
    const auto& rate = measured.rates[index(finger)];
    // A cycle is two notes: down and up.
    const double hertz = rate ? rate->value() / 2.0 : index_rate * own.rate_ratio[digit(finger)].value;
    cycles[index(finger)] = Ms(500.0 / hertz);
  }
  return cycles;
}

MotionNumbers scaled_to_span(MotionNumbers numbers, const MeasuredHand& measured) {
  if (!measured.span || numbers.hand_span.value <= 0.0) return numbers;
  const double share = measured.span->value() / numbers.hand_span.value;
  for (Number& reach : numbers.comfortable_reach) reach.value *= share;
  return numbers;
}

bool Player::limits_fingerings() const { return !unusable.empty() || learned || !not_learned.empty(); }

bool contains(const Fingering& fingering, const Fingering& own) {
  return fingering.pressed.contains_all(own.pressed) && fingering.half == own.half && fingering.flicked == own.flicked;
}

Custom custom_of(const Player& player, const OwnFingering& played) {
  Custom of_note = Custom::none;
  Custom of_pair = Custom::none;
  for (const OwnFingering& habit : player.preferred) {
    if (!applies(habit, played)) continue;
    Custom& found = of_a_pair(habit) ? of_pair : of_note;
    if (found != Custom::kept) found = contains(played.fingering, habit.fingering) ? Custom::kept : Custom::broken;
  }
  return of_pair == Custom::none ? of_note : of_pair;
}

}  // namespace fingerway
