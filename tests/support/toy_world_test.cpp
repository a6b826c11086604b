#include "support/toy_world.hpp"

#include <catch2/catch.hpp>

#include "fingerway/instrument/check.hpp"
#include "fingerway/mechanism/candidates.hpp"

using namespace fingerway;

TEST_CASE("the toy instrument has no faults") { CHECK(check(toy_instrument()).empty()); }

TEST_CASE("each of the eight ways to press the toy's keys sounds just one note") {
  const Instrument toy = toy_instrument();
  const Derivation derivation = derive(toy);
  HandMask any;
  any.fill(~HoldMask{0});
  const auto ways = [&](int key) {
    const WrittenPitch pitch(key);
    return derivation.of(pitch).size() + held_through(toy, derivation, pitch, any, int(finger_count)).size();
  };
  CHECK(ways(60) == 4);  // key one up: whatever two and three do
  CHECK(ways(59) == 2);  // one down, two up: whatever three does
  CHECK(ways(58) == 1);
  CHECK(ways(57) == 1);
}
