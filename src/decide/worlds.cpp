#include "fingerway/decide/worlds.hpp"

#include <algorithm>
#include <cstdint>

namespace fingerway {
namespace {

/// The same numbers on every machine and with every library: splitmix64, after its published constants.
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : state_(seed * 0x9E3779B97F4A7C15ULL + 0x5851F42D4C957F2DULL) {}

  /// Evenly from 0 up to 1.
  double share() {
    state_ += 0x9E3779B97F4A7C15ULL;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    z ^= z >> 31U;
    return static_cast<double>(z >> 11U) * 0x1.0p-53;
  }

 private:
  std::uint64_t state_;
};

void set_at(Number& number, double share) {
  if (number.low < number.high) number.value = number.low + share * (number.high - number.low);
}

Level drawn_level(Level asked, double share) {
  if (share < 0.5) return asked;
  const Level others[] = {asked == Level::professional ? Level::amateur : Level::professional,
                          asked == Level::beginner ? Level::amateur : Level::beginner};
  return others[share < 0.75 ? 0 : 1];
}

}  // namespace

World world(std::size_t number, const MotionNumbers& numbers, Level level) {
  World result{.number = number, .level = level, .numbers = numbers};
  if (number == 0) return result;
  Draw draw(number);
  result.level = drawn_level(level, draw.share());
  result.tempo = 1.0 + tempo_spread * (2.0 * draw.share() - 1.0);
  const double hand = draw.share();
  for (const NamedNumber& named : named_numbers(result.numbers)) {
    const double share = draw.share();
    const bool reach =
        std::ranges::any_of(result.numbers.comfortable_reach, [&](const Number& n) { return &n == named.number; });
    set_at(*named.number, reach ? hand : share);
  }
  // The limits of the verdicts keep their order.
  MotionNumbers& n = result.numbers;
  n.workable_from.value = std::max(n.workable_from.value, n.laborious_from.value);
  n.fluent_from.value = std::max(n.fluent_from.value, n.workable_from.value);
  return result;
}

Instrument in_world(const World& world, Instrument instrument) {
  if (world.number == 0) return instrument;
  for (Touch& touch : instrument.touches) {
    if (touch.spot_measured) continue;
    // By name, so that a touch has the same place on the stock instrument and on every converted one (FNV-1a).
    std::uint64_t seed = 0xCBF29CE484222325ULL + world.number;
    for (char c : full_name(touch)) seed = (seed ^ static_cast<unsigned char>(c)) * 0x100000001B3ULL;
    Draw draw(seed);
    touch.spot.along = touch.spot.along + place_spread * (2.0 * draw.share() - 1.0);
    touch.spot.across = touch.spot.across + place_spread * (2.0 * draw.share() - 1.0);
  }
  return instrument;
}

Passage in_world(const World& world, Passage passage) {
  if (world.tempo != 1.0) {
    passage.tempo = passage.tempo.starting_at(passage.tempo.changes().front().tempo * world.tempo);
  }
  return passage;
}

}  // namespace fingerway
