#include "fingerway/instrument/check.hpp"

#include <catch2/catch.hpp>

#include "support/toy_world.hpp"

using namespace fingerway;

namespace {

/// The only finding's words; fails when there are none or several.
std::string only_finding(const Instrument& instrument) {
  const std::vector<Finding> findings = check(instrument);
  REQUIRE(findings.size() == 1);
  return findings[0].what;
}

Pad closed_pad(const char* id) {
  Pad pad;
  pad.id = id;
  pad.rest = PadRest::closed;
  return pad;
}

/// The toy with a closed pad that L3 opens and L4 may shut.
Instrument toy_with_link() {
  Instrument toy = toy_instrument();
  toy.pads.push_back(closed_pad("side"));
  toy.bore.push_back(PadId(3));
  Touch opener = toy.touches[0];
  opener.finger = Finger::L3;
  Touch shutter = opener;
  shutter.finger = Finger::L4;
  toy.touches.push_back(opener);
  toy.touches.push_back(shutter);
  Rule opens;
  opens.when = {TouchId(3)};
  opens.opens = {PadId(3)};
  Rule closes;
  closes.when = {TouchId(4)};
  closes.closes = {PadId(3)};
  toy.rules.push_back(opens);
  toy.rules.push_back(closes);
  return toy;
}

}  // namespace

TEST_CASE("a sound instrument has no findings") { CHECK(check(toy_instrument()).empty()); }

TEST_CASE("a grip of two fingers is found") {
  Instrument toy = toy_instrument();
  toy.grips.push_back({.touches = {toy_one, toy_three}, .evidence = {}});
  CHECK(only_finding(toy) == "a grip of two fingers: L1.one, L2.one");
  CHECK(check(toy)[0].subject == Finding::Subject::grip);
  CHECK(check(toy)[0].index == 1);
}

TEST_CASE("a fingering that needs one finger in two places is found where no grip holds them") {
  Instrument toy = toy_instrument();
  toy.grips.clear();
  const std::vector<Finding> findings = check(toy);
  REQUIRE_FALSE(findings.empty());
  CHECK(findings[0].subject == Finding::Subject::fingering);
  CHECK(findings[0].what == "the fingering of Bb3 needs the left index finger on L1.one, L1.two");
}

TEST_CASE("a flick needs its finger free") {
  Instrument toy = toy_instrument();
  toy.grips.clear();
  toy.table.resize(2);
  toy.lowest = WrittenPitch(59);
  toy.table[1].fingering.flicked = {toy_two};
  CHECK(only_finding(toy) == "the fingering of B3 needs the left index finger on L1.one, L1.two");
  toy.table[1].fingering.flicked = {toy_one};
  CHECK(only_finding(toy) == "the fingering of B3 both holds and flicks L1.one");
}

TEST_CASE("a half state is found on a touch that has none") {
  Instrument toy = toy_instrument();
  toy.table[1].fingering.half = {toy_one};
  CHECK(only_finding(toy) == "the fingering of B3 half-presses L1.one");
  toy.touches[toy_one.index].can_be_half = true;
  CHECK(check(toy).empty());
  toy.table[1].fingering.half = {toy_two};
  CHECK(only_finding(toy) == "the fingering of B3 half-presses L1.two without pressing it");
}

TEST_CASE("a pad that nothing moves and a touch that moves nothing are found") {
  Instrument toy = toy_instrument();
  toy.pads.push_back(closed_pad("spare"));
  CHECK(only_finding(toy) == "no rule opens the pad 'spare'");
  toy.pads.back().kind = PadKind::open_end;
  CHECK(check(toy).empty());
  toy.touches.push_back(toy.touches[0]);
  toy.touches.back().finger = Finger::R1;
  CHECK(only_finding(toy) == "the touch 'R1.one' moves nothing");
  toy.touches.back().removed = true;
  CHECK(check(toy).empty());
}

TEST_CASE("a key that shuts a pad against the finger that opens it is found, unless the pad springs open") {
  Instrument toy = toy_with_link();
  CHECK(only_finding(toy) == "L4.one shuts the pad 'side' against the finger that opens it (L3.one)");
  toy.pads[3].springs_open = true;
  CHECK(check(toy).empty());
  toy.pads[3].springs_open = false;
  toy.rules.back().unless = {TouchId(3)};
  CHECK(check(toy).empty());
}

TEST_CASE("two touches of one finger that no grip holds can't fight over a pad") {
  Instrument toy = toy_with_link();
  toy.touches[4].finger = Finger::L3;
  toy.touches[4].name = "two";
  CHECK(check(toy).empty());
  toy.grips.push_back({.touches = {TouchId(3), TouchId(4)}, .evidence = {}});
  CHECK(only_finding(toy) == "L3.two shuts the pad 'side' against the finger that opens it (L3.one)");
}

TEST_CASE("rules that can't be meant are found") {
  Instrument toy = toy_instrument();
  toy.rules[0].unless = {toy_one};
  CHECK(only_finding(toy) == "a rule that needs and forbids L1.one");
  toy = toy_instrument();
  toy.rules[0].opens = toy.rules[0].closes;
  CHECK(only_finding(toy) == "a rule that opens and closes the pad 'one'");
  toy = toy_instrument();
  toy.rules.push_back(Rule{});
  CHECK(check(toy).size() == 2);
}

TEST_CASE("slides and latches are checked too") {
  Instrument toy = toy_instrument();
  toy.slides[0].b = toy_three;
  CHECK(only_finding(toy) == "a slide between two fingers: L1.one, L2.one");
  toy = toy_instrument();
  toy.latches.push_back({.id = "lock", .label = {}, .opens = {}, .closes = {}, .evidence = {}});
  CHECK(only_finding(toy) == "the latch 'lock' holds no pad");
}

TEST_CASE("the range and the table must meet") {
  Instrument toy = toy_instrument();
  toy.lowest = WrittenPitch(58);
  CHECK(only_finding(toy) == "A3 lies outside the range");
  toy.lowest = WrittenPitch(56);
  CHECK(only_finding(toy) == "no fingering for Ab3");
  toy.lowest = WrittenPitch(61);
  CHECK(check(toy)[0].what == "the range runs downwards");
}

TEST_CASE("a line needs a register that exists and stands once") {
  Instrument toy = toy_instrument();
  toy.table[0].reg = 2;
  CHECK(only_finding(toy) == "no register 2");
  toy = toy_instrument();
  toy.table.push_back(toy.table[0]);
  CHECK(only_finding(toy) == "the same fingering of C4 twice");
}

TEST_CASE("stock lines of a converted instrument are not pressed on the converted keywork") {
  Instrument toy = toy_instrument();
  toy.grips.clear();
  toy.conversions.resize(1);
  CHECK(check(toy).empty());
  toy.table.back().from = "a-conversion";
  CHECK(check(toy).size() == 1);
}
