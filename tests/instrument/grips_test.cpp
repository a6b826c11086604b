// What one finger can hold, on the toy instrument.
#include <algorithm>

#include <catch2/catch.hpp>

#include "fingerway/instrument/grips.hpp"
#include "support/toy_world.hpp"

using namespace fingerway;

TEST_CASE("only what may be half pressed has a half hold") {
  const auto halves = [](const Instrument& instrument) {
    std::vector<TouchSet> found;
    for (const Hold& hold : holds_of(instrument, Finger::L1)) {
      if (!hold.half.empty()) found.push_back(hold.half);
    }
    return found;
  };
  Instrument toy = toy_instrument();
  CHECK(halves(toy).empty());
  toy.touches[toy_two.index].can_be_half = true;
  CHECK(halves(toy) == std::vector<TouchSet>{{toy_two}});
}

TEST_CASE("a finger holds nothing, each of its touches, or a grip of them") {
  std::vector<TouchSet> held;
  for (const Hold& hold : holds_of(toy_instrument(), Finger::L1)) held.push_back(hold.touches);
  CHECK(held == std::vector<TouchSet>{{}, {toy_one}, {toy_two}, {toy_one, toy_two}});
}
