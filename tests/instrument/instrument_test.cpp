#include "fingerway/instrument/instrument.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

#include "support/toy_world.hpp"

using namespace fingerway;

TEST_CASE("every finger has a code that reads back and words of its own") {
  std::vector<std::string_view> told;
  for (Finger finger : all_fingers) {
    CHECK(parse_finger(code(finger)) == finger);
    CHECK(std::find(told.begin(), told.end(), words(finger)) == told.end());
    told.push_back(words(finger));
  }
  CHECK(words(Finger::LT) == "left thumb");
  CHECK(words(Finger::R4) == "right little finger");
  CHECK_FALSE(parse_finger("L5"));
  CHECK_FALSE(parse_finger("lt"));
  CHECK_FALSE(parse_finger(""));
}

TEST_CASE("thumbs are digit 0 and little fingers digit 4 of their hand") {
  CHECK(digit(Finger::LT) == 0);
  CHECK(digit(Finger::RT) == 0);
  CHECK(digit(Finger::R4) == 4);
  CHECK(hand_of(Finger::L4) == Hand::left);
  CHECK(hand_of(Finger::RT) == Hand::right);
}

TEST_CASE("confidence reads back, and below medium it is doubtful") {
  CHECK(parse_confidence("very-low") == Confidence::very_low);
  CHECK(parse_confidence("low") == Confidence::low);
  CHECK(parse_confidence("medium") == Confidence::medium);
  CHECK(parse_confidence("high") == Confidence::high);
  CHECK_FALSE(parse_confidence("very low"));
  CHECK(words(Confidence::very_low) == "very low");
  CHECK(words(Confidence::high) == "high");
  CHECK(doubtful(Confidence::low));
  CHECK_FALSE(doubtful(Confidence::medium));
}

TEST_CASE("parts are found by the names used in files") {
  Instrument toy = toy_instrument();
  toy.latches = {{.id = "lock", .label = "lock", .opens = {}, .closes = {PadId(0)}, .evidence = {}}};
  CHECK(find_touch(toy, "L2.one") == toy_three);
  CHECK(full_name(toy.touches[toy_three.index]) == "L2.one");
  CHECK_FALSE(find_touch(toy, "L2.two"));
  CHECK_FALSE(find_touch(toy, "L3.one"));
  CHECK_FALSE(find_touch(toy, "one"));
  CHECK(find_pad(toy, "three") == PadId(2));
  CHECK_FALSE(find_pad(toy, "four"));
  CHECK(find_latch(toy, "lock") == LatchId(0));
  CHECK_FALSE(find_latch(toy, "look"));
}

TEST_CASE("a finger has the touches that are there, without removed ones") {
  Instrument toy = toy_instrument();
  CHECK(touches_of(toy, Finger::L1) == TouchSet{toy_one, toy_two});
  toy.touches[toy_one.index].removed = true;
  CHECK(touches_of(toy, Finger::L1) == TouchSet{toy_two});
  CHECK(touches_of(toy, Finger::R4).empty());
  CHECK(held_by(toy, {toy_one, toy_three}, Finger::L2) == TouchSet{toy_three});
}

TEST_CASE("a stacked id lists the conversions in the order they were laid over") {
  Instrument toy = toy_instrument();
  CHECK(stacked_id(toy) == "toy");
  toy.conversions.resize(2);
  toy.conversions[0].id = "second-key";
  toy.conversions[1].id = "a-lock";
  CHECK(stacked_id(toy) == "toy+second-key+a-lock");
}
