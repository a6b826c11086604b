#include "together.hpp"

#include <algorithm>
#include <bit>

namespace fingerway {
namespace {

/// One bit a finger of the hand, by digit.
using FingerBits = std::uint32_t;
/// Fingers that have a neighbour above them.
constexpr FingerBits with_next = 0b01111;

template <class Visit>
void each_finger(FingerBits fingers, const Visit& visit) {
  for (; fingers != 0; fingers &= fingers - 1) visit(static_cast<std::size_t>(std::countr_zero(fingers)));
}

/// Which fingers go which way in one change, and which hold the same touch before and after.
struct Ways {
  FingerBits down = 0;
  FingerBits up = 0;
  FingerBits aside = 0;
  FingerBits holding = 0;

  [[nodiscard]] FingerBits moving() const { return down | up | aside; }
};

/// The digit that stands for a finger's way, in base `way_count`.
constexpr std::size_t way_count = 5;
constexpr std::array<std::size_t, 5> place_of_digit = {1, 5, 25, 125, 625};
constexpr std::size_t digit_of(Direction direction, bool holds) {
  return direction == Direction::none ? std::size_t{holds} : static_cast<std::size_t>(direction) + 1;
}

Ways ways_of(std::size_t number) {
  Ways ways;
  for (FingerBits finger = 1; number != 0; number /= way_count, finger <<= 1U) {
    const std::size_t digit = number % way_count;
    if (digit == digit_of(Direction::none, true)) ways.holding |= finger;
    if (digit == digit_of(Direction::down, false)) ways.down |= finger;
    if (digit == digit_of(Direction::up, false)) ways.up |= finger;
    if (digit == digit_of(Direction::aside, false)) ways.aside |= finger;
  }
  return ways;
}

Together together(const MotionNumbers& n, const Ways& w) {
  Together step;
  const FingerBits moving = w.moving();
  step.movers = static_cast<std::uint8_t>(std::popcount(moving));
  step.ways = static_cast<std::uint8_t>(int(w.down != 0) | int(w.up != 0) << 1 | int(w.aside != 0) << 2);
  const FingerBits only_one = (moving ^ (moving >> 1U)) & with_next;
  const auto parts = [](FingerBits way) { return way ^ (way >> 1U); };
  const FingerBits contrary = moving & (moving >> 1U) & with_next & (parts(w.down) | parts(w.up) | parts(w.aside));
  step.differences = static_cast<std::uint8_t>(std::popcount(only_one) + 2 * std::popcount(contrary));
  const double points = n.independence_points.value;
  // The index tells how much the others move along when one finger moves alone; those that go the same way anyway are
  // no loss, and with three of them there is none at all.
  double individuation = 0.0;
  for (FingerBits way : {w.down, w.up, w.aside}) {
    const double alone = std::max(0.0, 1.0 - (std::popcount(way) - 1) / 3.0);
    each_finger(way, [&](std::size_t f) { individuation += points * alone * (1.0 - n.individuation[f].value); });
  }
  // A finger that must hold its touch in a hand of which others move tends to be taken along, more so beside them.
  double holding = 0.0;
  const FingerBits beside = ((moving & with_next) << 1U) | (with_next & (moving >> 1U));
  each_finger(moving != 0 ? w.holding : 0, [&](std::size_t f) {
    const double share = (beside >> f & 1U) != 0 ? 1.0 : n.far_holder_share.value;
    holding += points * share * (1.0 - n.stationarity[f].value);
  });
  step.individuation = static_cast<float>(individuation);
  step.holding = static_cast<float>(holding);
  step.points = static_cast<float>(n.per_difference.value * step.differences + individuation + holding);
  return step;
}

/// How much wider the fingers scatter when they do not all go the same way.
double contrary_factor(const MotionNumbers& n, unsigned left_ways, unsigned right_ways) {
  if (std::popcount(left_ways) > 1 || std::popcount(right_ways) > 1) return n.contrary_one_hand.value;
  return std::popcount(left_ways | right_ways) > 1 ? n.contrary_two_hands.value : 1.0;
}

}  // namespace

FingerPart part_of(const Move& move, std::size_t digit, bool holds) {
  const auto ms = [](Ms time) { return static_cast<float>(time.count()); };
  return {.largest = {FourFloats{ms(move.busy), ms(move.gap), move.crosses ? ms(move.gap) : 0.0F, ms(move.travel)}},
          .busy_again = ms(move.busy_again),
          .points = static_cast<float>(move.points.value()),
          .tally = Tally(static_cast<std::uint16_t>(place_of_digit[digit] * digit_of(move.direction, holds)),
                         move.kind == MoveKind::impossible, move.crosses)};
}

std::vector<Together> together_table(const MotionNumbers& numbers) {
  std::vector<Together> table(place_of_digit.back() * way_count);
  for (std::size_t number = 0; number < table.size(); ++number) table[number] = together(numbers, ways_of(number));
  return table;
}

MoversTable spread_table(const MotionNumbers& n, Level level) {
  MoversTable table{};
  const double scatter = n.levels[static_cast<std::size_t>(level)].onset_scatter.value;
  for (unsigned ways = 0; ways < table.size(); ++ways) {
    const double factor = contrary_factor(n, ways >> 3U, ways & 7U);
    for (std::size_t movers = 1; movers <= finger_count; ++movers)
      table[ways][movers] = static_cast<float>(factor * scatter * n.spread[movers - 1].value);
  }
  return table;
}

MoversTable fingers_table(const MotionNumbers& n) {
  MoversTable table{};
  for (unsigned ways = 0; ways < table.size(); ++ways) {
    // Fingers of one hand that all go the same way move as one; the first of each such group counts in full.
    const int groups = std::popcount(ways);
    for (int movers = 1; movers <= static_cast<int>(finger_count); ++movers) {
      table[ways][static_cast<std::size_t>(movers)] =
          static_cast<float>(n.per_finger.value * (groups - 1 + n.same_way_share.value * (movers - groups)));
    }
  }
  return table;
}

}  // namespace fingerway
