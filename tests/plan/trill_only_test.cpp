// What fingerings cost that are at home in trills, or overblown: the terms of plan/weigh on the toy instrument, worked
// out by hand with round numbers.
#include <catch2/catch.hpp>

#include "fingerway/plan/trills.hpp"
#include "fingerway/plan/weigh.hpp"
#include "report/toy_report.hpp"

using namespace fingerway;

namespace {

/// The toy with its B3 line of this standing and way.
Played toy_with(Standing standing, Way way, std::vector<Trait> traits = {}) {
  Instrument toy = toy_instrument();
  toy.table[1].standing = standing;
  toy.table[1].way = way;
  toy.table[1].traits = std::move(traits);
  MotionNumbers n = toy_numbers();
  n.trill_only_points.value = 10.0;
  n.trill_only_points_per_second.value = 100.0;
  n.pass_through_points.value = 50.0;
  n.harmonic_points.value = 60.0;
  n.alternate_points.value = 5.0;
  n.alternate_points_per_second.value = 8.0;
  n.workable_from.value = 8.0;  // a note of a workable trill lasts 125 ms
  return played(toy, n, Level::amateur);
}

double standing_of(const Played& player, const NoteContext& context) {
  const Candidate& b = player.derivation.of(WrittenPitch(59)).front();
  return note_cost(player, b, context).terms[static_cast<std::size_t>(NoteTerm::standing)];
}

const WrittenPitch below(58);
const WrittenPitch above(60);

}  // namespace

TEST_CASE("a trill fingering is cheap as long as a trill's note lasts, then dear by the second") {
  const Played player = toy_with(Standing::trill_only, Way::plain);
  CHECK(standing_of(player, {.length = Ms(100)}) == Approx(10.0));
  CHECK(standing_of(player, {.length = Ms(325)}) == Approx(10.0 + 100.0 * 0.2));
  CHECK(standing_of(player, {.length = Ms(325), .trilled = true}) == Approx(0.0));
}

TEST_CASE("a trill fingering is for going there and back: passing through costs more") {
  const Played player = toy_with(Standing::trill_only, Way::plain);
  const NoteContext back{.length = Ms(100), .after = below, .before = below};
  const NoteContext through{.length = Ms(100), .after = below, .before = above};
  CHECK(standing_of(player, back) == Approx(10.0));
  CHECK(standing_of(player, through) == Approx(60.0));
}

TEST_CASE("an overblown partial has its price outside a trill") {
  const Played player = toy_with(Standing::standard, Way::harmonic);
  CHECK(standing_of(player, {.length = Ms(100)}) == Approx(60.0));
  CHECK(standing_of(player, {.length = Ms(100), .trilled = true}) == Approx(0.0));
}

TEST_CASE("an alternate that is praised and nothing else does not get worse by lasting") {
  const NoteContext second{.length = Ms(1000)};
  CHECK(standing_of(toy_with(Standing::alternate, Way::plain), second) == Approx(13.0));
  CHECK(standing_of(toy_with(Standing::alternate, Way::plain, {Trait::resonant}), second) == Approx(5.0));
  CHECK(standing_of(toy_with(Standing::alternate, Way::plain, {Trait::resonant, Trait::flat}), second) == Approx(13.0));
}

TEST_CASE("of pairs that go equally fast one without a trill fingering is taken") {
  Instrument toy = toy_instrument();
  toy.table[1].standing = Standing::trill_only;
  TableFingering longer = toy.table[1];
  longer.standing = Standing::standard;
  longer.fingering = pressing({toy_one, toy_three});
  longer.mark = "one and three";
  toy.table.push_back(longer);
  // Two fingers at once take no longer on the toy.
  const Trill trill = best_trill(played(toy, toy_numbers(), Level::amateur), WrittenPitch(60), WrittenPitch(59));
  REQUIRE(trill.best);
  CHECK(trill.best->to.fingering == longer.fingering);
}
