// What the search leaves out: no change weighs less than the bounds by which whole rows and runs of ways are passed
// over.
#include <catch2/catch.hpp>

#include "plan/passage_ways.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

struct Checked {
  std::size_t changes = 0, below_row = 0, below_run = 0, told_wrong = 0;
};

/// Every change of a passage against its bounds, and against the whole of it written out.
Checked checked(const Played& played, const Passage& passage) {
  Checked result;
  Workshop workshop(played);
  const PassageWays ways(workshop, passage, {});
  for (std::size_t note = 0; note + 1 < ways.size(); ++note) {
    StepPrices& prices = ways.prices(note);
    const Steps steps = prices.written_out();
    const auto runs = prices.runs();
    for (std::size_t row = 0; row < prices.rows(); ++row) {
      prices.start_row(row);
      for (std::size_t run = 0; run + 1 < runs.size(); ++run) {
        for (std::size_t column = runs[run]; column < runs[run + 1]; ++column) {
          const Weight weight = steps.weight_at(row, column);
          ++result.changes;
          result.below_row += weight < prices.least_of_row() ? 1 : 0;
          result.below_run += weight < prices.least_of_run(run) ? 1 : 0;
          result.told_wrong += prices.weight(run, column, weight) != weight && !is_forbidden(weight) ? 1 : 0;
        }
      }
    }
  }
  return result;
}

}  // namespace

TEST_CASE("no change weighs less than the bounds of its row and its run") {
  MotionNumbers contrary = own_numbers();
  contrary.contrary_two_hands.value = 0.05;  // then a second hand that goes the other way makes a change cheaper
  for (LevelNumbers& level : contrary.levels) level.onset_scatter.value *= 5;
  for (const MotionNumbers& numbers : {own_numbers(), contrary}) {
    const Played bassoon = played(own_played("bassoon").instrument, numbers, Level::amateur);
    for (Attack attack : {Attack::slurred, Attack::tongued}) {
      const Passage passage =
          passage_of({"B1", "C#2", "F2", "Bb2", "G2", "C3", "C#3", "F#3", "A3", "D4"}, {.attack = attack});
      const Checked all = checked(bassoon, passage);
      CHECK(all.changes > 1000);
      CHECK(all.below_row == 0);
      CHECK(all.below_run == 0);
      CHECK(all.told_wrong == 0);
    }
  }
}
