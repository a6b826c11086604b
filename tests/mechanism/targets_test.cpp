// Which pads decide a note, on the toy instrument: the answers are written out pad by pad.
#include <catch2/catch.hpp>

#include "fingerway/mechanism/targets.hpp"
#include "support/toy_world.hpp"

using namespace fingerway;

namespace {

constexpr PadId pad_one(0);
constexpr PadId pad_two(1);
constexpr PadId pad_three(2);

/// The toy with only one line in its table.
Instrument toy_with_line(TouchSet pressed, int open_holes_that_matter) {
  Instrument toy = toy_instrument();
  toy.table.resize(1);
  toy.table[0].fingering.pressed = pressed;
  toy.registers[0].open_holes_that_matter = open_holes_that_matter;
  return toy;
}

PadDemand demand_of(const Instrument& toy) { return targets(toy).at(0).demand; }

}  // namespace

TEST_CASE("with the first-open-hole rule, nothing below the first open hole matters") {
  CHECK(demand_of(toy_with_line({}, 1)) == PadDemand{.closed = {}, .half = {}, .open = {pad_one}});
  CHECK(demand_of(toy_with_line({toy_one}, 1)) == PadDemand{.closed = {pad_one}, .half = {}, .open = {pad_two}});
  CHECK(demand_of(toy_with_line({toy_one, toy_two}, 1)) ==
        PadDemand{.closed = {pad_one, pad_two}, .half = {}, .open = {pad_three}});
}

TEST_CASE("a rule of two open holes keeps the second open as well") {
  CHECK(demand_of(toy_with_line({}, 2)) == PadDemand{.closed = {}, .half = {}, .open = {pad_one, pad_two}});
  CHECK(demand_of(toy_with_line({toy_one}, 2)) ==
        PadDemand{.closed = {pad_one}, .half = {}, .open = {pad_two, pad_three}});
}

TEST_CASE("a vent that stands open is no first open hole") {
  Instrument toy = toy_with_line({}, 1);
  toy.pads[0].kind = PadKind::vent;
  CHECK(demand_of(toy) == PadDemand{.closed = {}, .half = {}, .open = {pad_one, pad_two}});
}

TEST_CASE("the open end is no hole: a fingering that shuts every hole asks for every pad above") {
  Instrument toy = toy_with_line({toy_one, toy_two}, 1);
  toy.pads[2].kind = PadKind::open_end;
  CHECK(demand_of(toy) == PadDemand{.closed = {pad_one, pad_two}, .half = {}, .open = {pad_three}});
}

TEST_CASE("what a line shuts below its first open hole on purpose must be shut") {
  // A fork: one up, two down. The third hole is neither.
  CHECK(demand_of(toy_with_line({toy_two}, 1)) == PadDemand{.closed = {pad_two}, .half = {}, .open = {pad_one}});
}

TEST_CASE("what a line opens below its first open hole on purpose must be open") {
  Instrument toy = toy_with_line({toy_three}, 1);
  toy.pads[2].rest = PadRest::closed;
  toy.table_rest_closed = {pad_three};
  toy.rules[2].closes = {};
  toy.rules[2].opens = {pad_three};
  toy.table_rules = toy.rules;
  CHECK(demand_of(toy) == PadDemand{.closed = {}, .half = {}, .open = {pad_one, pad_three}});
  // Not on purpose: at rest it is shut, and then it does not matter.
  toy.table[0].fingering.pressed = {};
  CHECK(demand_of(toy) == PadDemand{.closed = {}, .half = {}, .open = {pad_one}});
}

TEST_CASE("in a register without a number every pad matters") {
  CHECK(demand_of(toy_with_line({toy_one}, 0)) ==
        PadDemand{.closed = {pad_one}, .half = {}, .open = {pad_two, pad_three}});
  Instrument toy = toy_with_line({toy_one}, 1);
  toy.table[0].reg = 2;  // no rule for it
  CHECK(demand_of(toy) == PadDemand{.closed = {pad_one}, .half = {}, .open = {pad_two, pad_three}});
}

TEST_CASE("a half hole must be half, and is no open hole") {
  Instrument toy = toy_with_line({toy_one}, 1);
  toy.touches[0].can_be_half = true;
  toy.table[0].fingering.half = {toy_one};
  CHECK(demand_of(toy) == PadDemand{.closed = {}, .half = {pad_one}, .open = {pad_two}});
}

TEST_CASE("pads that optional touches move do not matter") {
  Instrument toy = toy_with_line({toy_one}, 0);
  toy.table[0].optional_touches = {toy_three};
  CHECK(demand_of(toy) == PadDemand{.closed = {pad_one}, .half = {}, .open = {pad_two}});
}

TEST_CASE("a flicked touch makes a second demand, for the start of the note") {
  Instrument toy = toy_with_line({toy_one}, 0);
  toy.pads[2].rest = PadRest::closed;
  toy.table_rest_closed = {pad_three};
  toy.rules[2].closes = {};
  toy.rules[2].opens = {pad_three};
  toy.table_rules = toy.rules;
  CHECK_FALSE(targets(toy)[0].at_attack);
  toy.table[0].fingering.flicked = {toy_three};
  const Target target = targets(toy)[0];
  CHECK(target.demand == PadDemand{.closed = {pad_one, pad_three}, .half = {}, .open = {pad_two}});
  REQUIRE(target.at_attack);
  CHECK(*target.at_attack == PadDemand{.closed = {pad_one}, .half = {}, .open = {pad_two, pad_three}});
}

TEST_CASE("a pad that a conversion added must stand as it rests where all pads matter") {
  Instrument toy = toy_with_line({toy_one}, 0);
  Pad extra = toy.pads[0];
  extra.id = "extra";
  extra.rest = PadRest::closed;
  toy.pads.push_back(extra);
  toy.bore.push_back(PadId(3));
  CHECK(demand_of(toy) == PadDemand{.closed = {pad_one, PadId(3)}, .half = {}, .open = {pad_two, pad_three}});
}

TEST_CASE("a line's target stays what it was on the stock instrument when a conversion changes the rules") {
  Instrument toy = toy_with_line({toy_one}, 1);
  toy.rules[0].closes = {pad_two};
  CHECK(targets(toy)[0].states == PadStates{.closed = {pad_one}, .half = {}});
  // A line the conversion brings along is pressed on the converted instrument.
  toy.table[0].from = "conversion";
  CHECK(targets(toy)[0].states == PadStates{.closed = {pad_two}, .half = {}});
}

TEST_CASE("there is one target a table line, in table order") {
  const Instrument toy = toy_instrument();
  const std::vector<Target> all = targets(toy);
  REQUIRE(all.size() == toy.table.size());
  for (std::size_t i = 0; i < all.size(); ++i) CHECK(all[i].line == i);
}

TEST_CASE("a demand is met only when all three of its sets are") {
  const PadDemand demand{.closed = {pad_one}, .half = {pad_two}, .open = {pad_three}};
  CHECK(demand.met_by({.closed = {pad_one}, .half = {pad_two}}));
  CHECK_FALSE(demand.met_by({.closed = {}, .half = {pad_two}}));
  CHECK_FALSE(demand.met_by({.closed = {pad_one, pad_two}, .half = {}}));
  CHECK_FALSE(demand.met_by({.closed = {pad_one, pad_three}, .half = {pad_two}}));
  CHECK_FALSE(demand.met_by({.closed = {pad_one}, .half = {pad_two, pad_three}}));
}
