#include "support/toy_world.hpp"

#include <catch2/catch.hpp>

#include "fingerway/instrument/check.hpp"
#include "fingerway/mechanism/candidates.hpp"

using namespace fingerway;

TEST_CASE("the toy instrument has no faults") { CHECK(check(toy_instrument()).empty()); }

TEST_CASE("each of the eight ways to press the toy's keys sounds just one note") {
  const Derivation derivation = derive(toy_instrument());
  CHECK(derivation.of(WrittenPitch(60)).size() == 4);  // key one up: whatever two and three do
  CHECK(derivation.of(WrittenPitch(59)).size() == 2);  // one down, two up: whatever three does
  CHECK(derivation.of(WrittenPitch(58)).size() == 1);
  CHECK(derivation.of(WrittenPitch(57)).size() == 1);
}
