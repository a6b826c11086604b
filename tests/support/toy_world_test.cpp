#include "support/toy_world.hpp"

#include <catch2/catch.hpp>

#include "fingerway/instrument/check.hpp"
#include "fingerway/mechanism/candidates.hpp"

using namespace fingerway;

TEST_CASE("the toy instrument has no faults") { CHECK(check(toy_instrument()).empty()); }

TEST_CASE("each of the eight ways to press the toy's keys sounds just one note") {
  const Derivation derivation = derive(toy_instrument());
  CHECK(derivation.count(WrittenPitch(60)) == 4);  // key one up: whatever two and three do
  CHECK(derivation.count(WrittenPitch(59)) == 2);  // one down, two up: whatever three does
  CHECK(derivation.count(WrittenPitch(58)) == 1);
  CHECK(derivation.count(WrittenPitch(57)) == 1);
}
