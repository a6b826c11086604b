// What the rules of a mechanism do to its pads, on the toy instrument with one thing changed at a time.
#include <catch2/catch.hpp>

#include "fingerway/mechanism/press.hpp"
#include "support/toy_world.hpp"

using namespace fingerway;

namespace {

constexpr PadId pad_one(0);
constexpr PadId pad_two(1);
constexpr PadId pad_three(2);

PadStates pressed(const Instrument& instrument, TouchSet touches, TouchSet half = {}) {
  return press(works_of(instrument), touches, half);
}

Rule opening(TouchSet when, PadSet pads) {
  Rule rule;
  rule.when = when;
  rule.opens = pads;
  return rule;
}

Rule closing(TouchSet when, PadSet pads) {
  Rule rule;
  rule.when = when;
  rule.closes = pads;
  return rule;
}

/// Pad three rests shut and key three opens it.
Instrument with_sprung_third_pad() {
  Instrument toy = toy_instrument();
  toy.pads[2].rest = PadRest::closed;
  toy.pads[2].springs_open = true;
  toy.rules[2] = opening({toy_three}, {pad_three});
  return toy;
}

}  // namespace

TEST_CASE("nothing pressed leaves the pads as they rest") {
  CHECK(pressed(toy_instrument(), {}) == PadStates{});
  CHECK(pressed(with_sprung_third_pad(), {}) == PadStates{.closed = {pad_three}, .half = {}});
}

TEST_CASE("a touch shuts its own pad and no other") {
  CHECK(pressed(toy_instrument(), {toy_one}) == PadStates{.closed = {pad_one}, .half = {}});
  CHECK(pressed(toy_instrument(), {toy_one, toy_three}) == PadStates{.closed = {pad_one, pad_three}, .half = {}});
}

TEST_CASE("a touch opens a pad that rests shut") {
  CHECK(pressed(with_sprung_third_pad(), {toy_three}) == PadStates{});
}

TEST_CASE("a rule with two touches waits for both") {
  Instrument toy = toy_instrument();
  toy.rules = {closing({toy_one, toy_two}, {pad_three})};
  CHECK(pressed(toy, {toy_one}) == PadStates{});
  CHECK(pressed(toy, {toy_two}) == PadStates{});
  CHECK(pressed(toy, {toy_one, toy_two}) == PadStates{.closed = {pad_three}, .half = {}});
}

TEST_CASE("closing wins over opening, whichever rule stands first") {
  Instrument toy = with_sprung_third_pad();
  toy.rules.push_back(closing({toy_one}, {pad_three}));
  CHECK(pressed(toy, {toy_one, toy_three}).closed.contains(pad_three));
  std::swap(toy.rules[2], toy.rules[3]);
  CHECK(pressed(toy, {toy_one, toy_three}).closed.contains(pad_three));
  CHECK_FALSE(pressed(toy, {toy_three}).closed.contains(pad_three));
}

TEST_CASE("on a pad marked so, opening wins over closing") {
  Instrument toy = with_sprung_third_pad();
  toy.rules.push_back(closing({toy_one}, {pad_three}));
  toy.pads[2].opening_wins = true;
  CHECK_FALSE(pressed(toy, {toy_one, toy_three}).closed.contains(pad_three));
  CHECK(pressed(toy, {toy_one}).closed.contains(pad_three));
  CHECK(pressed(toy, {}).closed.contains(pad_three));
}

TEST_CASE("a rule rests while one of its 'unless' touches is held") {
  Instrument toy = toy_instrument();
  toy.rules[0].unless = {toy_two, toy_three};
  CHECK(pressed(toy, {toy_one}).closed.contains(pad_one));
  CHECK_FALSE(pressed(toy, {toy_one, toy_two}).closed.contains(pad_one));
  CHECK_FALSE(pressed(toy, {toy_one, toy_three}).closed.contains(pad_one));
}

TEST_CASE("a rule without 'when' works always, until an 'unless' touch is held") {
  Instrument toy = toy_instrument();
  Rule rule = closing({}, {pad_three});
  rule.unless = {toy_one};
  toy.rules.push_back(rule);
  CHECK(pressed(toy, {}).closed.contains(pad_three));
  CHECK_FALSE(pressed(toy, {toy_one}).closed.contains(pad_three));
}

TEST_CASE("a half-pressed touch lowers its pad in part") {
  const Instrument toy = toy_instrument();
  CHECK(pressed(toy, {toy_one}, {toy_one}) == PadStates{.closed = {}, .half = {pad_one}});
  CHECK(pressed(toy, {toy_one, toy_two}, {toy_one}) == PadStates{.closed = {pad_two}, .half = {pad_one}});
}

TEST_CASE("a pad that another key shuts is shut, though its own touch is half pressed") {
  Instrument toy = toy_instrument();
  toy.rules.push_back(closing({toy_three}, {pad_one}));
  CHECK(pressed(toy, {toy_one, toy_three}, {toy_one}) == PadStates{.closed = {pad_one, pad_three}, .half = {}});
}

TEST_CASE("a half-pressed touch opens nothing") {
  const Instrument toy = with_sprung_third_pad();
  CHECK(pressed(toy, {toy_three}, {toy_three}) == PadStates{.closed = {pad_three}, .half = {}});
}

TEST_CASE("a latch works only while it is engaged") {
  Instrument toy = toy_instrument();
  Latch lock;
  lock.id = "lock";
  lock.closes = {pad_two};
  toy.latches = {lock};
  CHECK(pressed(toy, {}) == PadStates{});
  toy.engaged = {LatchId(0)};
  CHECK(pressed(toy, {}) == PadStates{.closed = {pad_two}, .half = {}});
}

TEST_CASE("an engaged latch that opens a pad is beaten by a touch that shuts it") {
  Instrument toy = with_sprung_third_pad();
  Latch prop;
  prop.id = "prop";
  prop.opens = {pad_three};
  toy.latches = {prop};
  toy.engaged = {LatchId(0)};
  toy.rules.push_back(closing({toy_one}, {pad_three}));
  CHECK(pressed(toy, {}) == PadStates{});
  CHECK(pressed(toy, {toy_one}).closed.contains(pad_three));
}

TEST_CASE("the table's mechanism is the stock one, whatever a conversion did to the rules and rest states") {
  Instrument toy = toy_instrument();
  toy.rules[0].closes = {pad_three};
  toy.pads[1].rest = PadRest::closed;
  CHECK(press(table_works_of(toy), {toy_one}, {}) == PadStates{.closed = {pad_one}, .half = {}});
  CHECK(press(works_of(toy), {toy_one}, {}) == PadStates{.closed = {pad_two, pad_three}, .half = {}});
}

TEST_CASE("the pads a touch can move are those of every rule that names it") {
  Instrument toy = toy_instrument();
  toy.rules[2].unless = {toy_one};
  const Works works = works_of(toy);
  CHECK(pads_moved_by(works, {toy_one}) == PadSet{pad_one, pad_three});
  CHECK(pads_moved_by(works, {toy_two}) == PadSet{pad_two});
  CHECK(pads_moved_by(works, {}).empty());
}

TEST_CASE("a mechanism cut down to some pads still sets those right") {
  Instrument toy = with_sprung_third_pad();
  toy.rules.push_back(closing({toy_one}, {pad_three}));
  const Works part = only_for(works_of(toy), {pad_three});
  for (std::uint64_t bits = 0; bits < 8; ++bits) {
    const TouchSet touches = TouchSet::from_bits(bits);
    CHECK(press(part, touches, {}).closed.contains(pad_three) == pressed(toy, touches).closed.contains(pad_three));
  }
}
