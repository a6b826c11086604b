// Which touches a passage may hold through its notes, and where fingers are then of use; on the toy, by hand.
#include <algorithm>

#include <catch2/catch.hpp>

#include "fingerway/mechanism/candidates.hpp"
#include "plan/admit.hpp"
#include "plan/postures.hpp"
#include "report/toy_report.hpp"

using namespace fingerway;

namespace {

const WrittenPitch c4(60), a3(57);

/// Whether some way to play this note of the passage holds the third key.
bool may_hold_three(const std::vector<WrittenPitch>& pitches, std::size_t note) {
  const Played toy = played(toy_instrument(), toy_numbers(), Level::amateur);
  std::vector<AdmitNote> notes;
  for (std::size_t i = 0; i < pitches.size(); ++i) notes.push_back({.note = i, .pitch = pitches[i]});
  return std::ranges::any_of(admit(toy, notes, {})[note],
                             [](const Candidate& c) { return c.fingering.pressed.contains(toy_three); });
}

}  // namespace

TEST_CASE("a key is held through beside a note that needs it, and between two such notes up to two away") {
  // A3 needs all three keys, C4 none.
  CHECK(may_hold_three({a3, c4, c4, c4, c4, c4, c4}, 1));
  CHECK_FALSE(may_hold_three({a3, c4, c4, c4, c4, c4, c4}, 2));
  CHECK(may_hold_three({a3, c4, c4, c4, a3, c4, c4}, 2));
  CHECK_FALSE(may_hold_three({c4, c4, c4, c4, a3, c4, c4}, 2));
  CHECK_FALSE(may_hold_three({a3, c4, c4, c4, c4, c4, a3}, 3));
}

TEST_CASE("before the first note the hand is free to be ready, after the last to stay") {
  CHECK(may_hold_three({c4, c4, a3, c4, c4, c4, c4}, 0));
  CHECK(may_hold_three({c4, c4, c4, c4, a3, c4, c4}, 6));
}

TEST_CASE("a touch held without need is a place for its finger, but none that it must be ready for") {
  const Played toy = played(toy_instrument(), toy_numbers(), Level::amateur);
  const auto held = as_candidate(toy.instrument, toy.derivation, c4, pressing({toy_three}));
  REQUIRE(held);
  REQUIRE(held->spare == TouchSet{toy_three});
  const FingerUse use = finger_use(toy, {&*held});
  CHECK(use.homes[index(Finger::L2)] == TouchSet{toy_three});
  CHECK(use.needed[index(Finger::L2)].empty());
  const Candidate& needed = toy.derivation.of(a3).front();
  CHECK(finger_use(toy, {&needed}).needed[index(Finger::L2)] == TouchSet{toy_three});
}
