// Habits of one's own instrument on a borrowed one, on the toy and on the bassoon.
#include <algorithm>

#include <catch2/catch.hpp>

#include "fingerway/decide/borrowed.hpp"
#include "fingerway/decide/losses.hpp"
#include "report/toy_report.hpp"
#include "support/passages.hpp"

using namespace fingerway;

TEST_CASE("a borrowed instrument that is one's own breaks no habit") {
  const Played toy = toy_played(toy_instrument());
  const Borrowed same = borrow(toy, toy, passage_of({"C4", "B3", "A3"}));
  CHECK(same.failing.empty());
  CHECK(same.failing_notes == 0);
  CHECK(same.habits == 3);
  CHECK(same.own.summary.weight == same.plan.summary.weight);
}

TEST_CASE("a habit with a key the borrowed instrument lacks is told with that key, its places and another way") {
  Player used_to_the_link;
  used_to_the_link.level = Level::professional;
  used_to_the_link.not_learned = {{.pitch = WrittenPitch(57), .fingering = pressing({toy_one, toy_two, toy_three})}};
  used_to_the_link.holds_through = false;
  const Played own = played(linked_toy(), toy_numbers(), used_to_the_link);
  const Played stock = toy_played(toy_instrument());
  const Borrowed result = borrow(own, stock, toy_leaps(Qpm(200)));
  REQUIRE(result.failing.size() == 1);
  const FailingHabit& habit = result.failing[0];
  CHECK(habit.result == CarriedResult::key_missing);
  CHECK(habit.missing == TouchSet{TouchId(3)});
  CHECK(habit.notes == std::vector<std::size_t>{1, 3, 5});
  REQUIRE(habit.instead.size() == 1);
  CHECK(habit.instead[0].fingering.pressed == TouchSet{toy_one, toy_two, toy_three});
  CHECK(result.failing_notes == 3);
}

TEST_CASE("a habit that sounds another note says which") {
  // Here key two shuts all holes above it as well: A3 takes keys two and three.
  Instrument linked = toy_instrument();
  linked.rules[1].closes.insert(PadId(0));
  ConversionSheet sheet;
  sheet.id = "link";
  linked.conversions = {sheet};
  const Played own = toy_played(linked);
  const Played stock = toy_played(toy_instrument());
  // Key one alone is B3 on both; two alone is Bb3 with the link and C4 without.
  Player only_two;
  only_two.level = Level::professional;
  only_two.learned = std::vector<OwnFingering>{{.pitch = WrittenPitch(58), .fingering = pressing({toy_two})}};
  const Played habit_of_two = played(linked, toy_numbers(), only_two);
  const Borrowed result = borrow(habit_of_two, stock, passage_of({"Bb3"}));
  REQUIRE(result.failing.size() == 1);
  CHECK(result.failing[0].result == CarriedResult::other_note);
  CHECK(result.failing[0].sounds == std::vector<WrittenPitch>{WrittenPitch(60)});
  CHECK(result.failing[0].instead.front().fingering.pressed == TouchSet{toy_one, toy_two});
}

TEST_CASE("habits of interlinked low keys fail on a stock bassoon where the little finger must move") {
  // Published for the conversion and derived here: with interlinked low keys E-flat sounds with the D-flat touch held.
  const Played& own = own_played("bassoon+interlinked-low-keys");
  const Played& stock = own_played("bassoon");
  const Passage passage = passage_of({"Db2", "Eb2", "Db2", "Eb2"}, {.each = ScoreTime(1, 4), .tempo = Qpm(92)});
  const Borrowed result = borrow(own, stock, passage);
  REQUIRE_FALSE(result.failing.empty());
  const bool eflat = std::ranges::any_of(
      result.failing, [](const FailingHabit& h) { return h.pitch == pitch_named("Eb2") && !h.instead.empty(); });
  CHECK(eflat);
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    REQUIRE(result.plan.notes[i].candidate);
    CHECK(as_candidate(stock.instrument, stock.derivation, passage.notes[i].pitch,
                       result.plan.notes[i].candidate->fingering));
  }
}

TEST_CASE("losses are what each note costs more, the dearest first, and sum to what the plan costs more") {
  const Played toy = toy_played(linked_toy());
  const Passage passage = passage_of({"C4", "C4", "C4"});
  PlanRequest own;
  own.choices.pins = {{.note = 0, .fingering = {}, .whole = true},
                      {.note = 1, .fingering = pressing({toy_three}), .whole = true},
                      {.note = 2, .fingering = {}, .whole = true}};
  const Plan mine = plan_passage(toy, passage, own).front();
  const Plan best = plan_passage(toy, passage, {}).front();
  const auto list = losses(mine, best);
  REQUIRE_FALSE(list.empty());
  CHECK(std::ranges::is_sorted(list, std::greater{}, &Loss::points));
  CHECK(losses(best, best).empty());
  // A key pressed that the note does not need: a point for holding it, and what pressing it takes.
  CHECK(list.front().note == 1);
  CHECK(list.front().points >= Points(1.0));
  double sum = 0.0;
  for (std::size_t i = 0; i < mine.notes.size(); ++i) {
    const auto cost = [](const PlannedNote& n) {
      return n.cost.total().value() + (n.arrive ? n.arrive->cost.total().value() : 0.0);
    };
    sum += cost(mine.notes[i]) - cost(best.notes[i]);
  }
  CHECK(sum == Approx(static_cast<double>(mine.summary.weight - best.summary.weight) / 1e6).margin(1e-4));
}
