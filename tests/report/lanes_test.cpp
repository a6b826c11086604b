#include <catch2/catch.hpp>

#include "fingerway/report/lanes.hpp"
#include "report/toy_report.hpp"

using namespace fingerway;

namespace {

constexpr double axis = 600.0;
constexpr double usual = 30.0;

Lanes lanes_of(const Played& toy, const Passage& passage, const Plan& plan, double width = axis) {
  return lay_out(passage, {{toy, plan, {}}}, {}, width, usual);
}

const Lane* lane_of(const LaneBlock& block, Finger finger) {
  const auto found = std::ranges::find(block.lanes, finger, &Lane::finger);
  return found == block.lanes.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("a bar is as long as a touch is held and a move ends where its note starts") {
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(120), Attack::slurred);  // a quarter lasts 500 ms
  const Plan plan = plan_passage(toy, passage, {}).front();
  const Lanes lanes = lanes_of(toy, passage, plan);
  REQUIRE(lanes.systems.size() == 1);
  const LaneBlock& block = lanes.systems[0].blocks.at(0);
  const Lane* index_finger = lane_of(block, Finger::L1);
  REQUIRE(index_finger != nullptr);
  // B3 one; Bb3 one and two; A3 the same with the middle finger; Bb3 again; C4 open.
  REQUIRE(index_finger->bars.size() == 2);
  CHECK(index_finger->bars[0].label == "one");
  CHECK(index_finger->bars[0].start == Ms(500));
  CHECK(index_finger->bars[0].end == Ms(1000));
  CHECK(index_finger->bars[1].label == "one two");
  CHECK(index_finger->bars[1].start == Ms(1000));
  CHECK(index_finger->bars[1].end == Ms(2500));
  REQUIRE(index_finger->moves.size() == 3);
  CHECK(index_finger->moves[0].kind == MoveKind::press);
  CHECK(index_finger->moves[0].start == Ms(450));
  CHECK(index_finger->moves[0].end == Ms(500));
  CHECK(index_finger->moves[1].kind == MoveKind::roll);
  CHECK(index_finger->moves[2].kind == MoveKind::lift);
  CHECK(index_finger->moves[2].end == Ms(2500));
  for (const auto& move : index_finger->moves) CHECK_FALSE(move.too_long);
}

TEST_CASE("a change longer than its note is marked as not fitting and starts before the note it leaves") {
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(2000), Attack::slurred);  // a quarter lasts 30 ms, a press 50
  const Plan plan = plan_passage(toy, passage, {}).front();
  const Lanes lanes = lanes_of(toy, passage, plan);
  const LaneBlock& block = lanes.systems[0].blocks.at(0);
  REQUIRE_FALSE(block.needs.empty());
  std::size_t late = 0;
  for (const LaneNeed& need : block.needs) {
    const bool starts_too_early = need.start < need.end - need.available;
    CHECK(starts_too_early == !need.fits);
    late += need.fits ? 0 : 1;
    // What must be done for a note is done when it begins.
    CHECK(need.end == passage.tempo.between(ScoreTime(), passage.notes[need.note].onset));
    CHECK(need.end - need.start == plan.notes[need.note].arrive->step.time);
  }
  CHECK(late > 0);
  for (const Lane& lane : block.lanes) {
    for (const auto& move : lane.moves) CHECK(move.too_long);
  }
  CHECK(std::ranges::count_if(block.needs, [](const LaneNeed& n) { return n.decides; }) == 1);
}

TEST_CASE("a finger that holds still through a system is folded into a line") {
  const Played toy = toy_played(toy_instrument());
  Passage passage = toy_passage(Qpm(120), Attack::slurred);
  // One and two are held throughout, only the middle finger moves.
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    passage.notes[i].spelling = i % 2 == 0 ? Spelling{'B', -1, 3} : Spelling{'A', 0, 3};
    passage.notes[i].pitch = written(passage.notes[i].spelling);
  }
  const Plan plan = plan_passage(toy, passage, {}).front();
  const Lanes lanes = lanes_of(toy, passage, plan);
  const LaneBlock& block = lanes.systems[0].blocks.at(0);
  REQUIRE(block.lanes.size() == 1);
  CHECK(block.lanes[0].finger == Finger::L2);
  CHECK(block.stay_down == "left 1 (one two)");
}

TEST_CASE("systems break at bar lines, cover the passage without a gap and share one scale") {
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(120), Attack::slurred);
  const Plan plan = plan_passage(toy, passage, {}).front();
  // Four quarters of 30 units fill a line of 130; the second bar goes on the next.
  const Lanes lanes = lanes_of(toy, passage, plan, 130.0);
  REQUIRE(lanes.systems.size() == 2);
  CHECK(lanes.systems[0].start == Ms(0));
  CHECK(lanes.systems[0].end == Ms(2000));
  CHECK(lanes.systems[1].start == lanes.systems[0].end);
  CHECK(lanes.systems[0].beats.front().bar == "1");
  CHECK(lanes.systems[1].beats.front().bar == "2");
  CHECK(lanes.systems[0].beats.size() == 4);
  CHECK((lanes.systems[0].end - lanes.systems[0].start).count() * lanes.units_per_ms <= 130.0 + 1e-6);
  // Every note stands in exactly one system, every change's need too.
  CHECK(lanes.systems[0].notes.size() + lanes.systems[1].notes.size() == passage.notes.size());
  const Lane* first = lane_of(lanes.systems[0].blocks[0], Finger::L1);
  const Lane* second = lane_of(lanes.systems[1].blocks[0], Finger::L1);
  REQUIRE(first != nullptr);
  REQUIRE(second != nullptr);
  CHECK(first->bars.back().cut_right);
  CHECK(second->bars.front().cut_left);
}

TEST_CASE("a bar too long for a line is broken at its beats, a beat too long by the clock") {
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(120), Attack::slurred);
  const Plan plan = plan_passage(toy, passage, {}).front();
  const Lanes by_beats = lanes_of(toy, passage, plan, 65.0);
  CHECK(by_beats.systems.size() >= 3);
  CHECK(by_beats.systems[0].end == Ms(1000));
  const Lanes by_clock = lanes_of(toy, passage, plan, 20.0);
  for (const LaneSystem& system : by_clock.systems) {
    CHECK((system.end - system.start).count() * by_clock.units_per_ms <= 20.0 + 1e-6);
  }
}

TEST_CASE("a finger that moves on one of two instruments has its lane on both") {
  const Played stock = toy_played(toy_instrument());
  const Played linked = toy_played(linked_toy());
  const Passage passage = toy_passage(Qpm(120), Attack::slurred);
  PlanRequest with_link;
  with_link.choices.pins = {
      {.note = 3, .fingering = {.pressed = {TouchId(3)}, .half = {}, .flicked = {}}, .whole = true}};
  const Plan a = plan_passage(stock, passage, {}).front();
  const Plan b = plan_passage(linked, passage, with_link).front();
  const Lanes lanes = lay_out(passage, {{stock, a, {3}}, {linked, b, {}}}, {3}, axis, usual);
  const LaneSystem& system = lanes.systems.at(0);
  REQUIRE(system.blocks.size() == 2);
  CHECK(lane_of(system.blocks[0], Finger::R1) != nullptr);
  CHECK(lane_of(system.blocks[0], Finger::R1)->bars.empty());
  CHECK_FALSE(lane_of(system.blocks[1], Finger::R1)->bars.empty());
  CHECK(system.notes[3].differs);
  CHECK_FALSE(system.notes[2].differs);
  const auto ranked = std::ranges::find(system.blocks[0].needs, 1U, &LaneNeed::rank);
  REQUIRE(ranked != system.blocks[0].needs.end());
  CHECK(ranked->note == 3);
}

TEST_CASE("a hard moment that no finger leads into has its number all the same") {
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(120), Attack::slurred);
  const Plan plan = plan_passage(toy, passage, {}).front();
  const Lanes lanes = lay_out(passage, {{toy, plan, {0}}}, {}, axis, usual);
  const auto& needs = lanes.systems.at(0).blocks.at(0).needs;
  REQUIRE_FALSE(needs.empty());
  CHECK(needs.front().note == 0);
  CHECK(needs.front().rank == 1);
}

TEST_CASE("a passage without notes has no systems") {
  const Played toy = toy_played(toy_instrument());
  Passage passage = toy_passage(Qpm(120), Attack::slurred);
  passage.notes.clear();
  CHECK(lanes_of(toy, passage, Plan{}).systems.empty());
}
