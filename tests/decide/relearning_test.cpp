// What must be relearned, what a stock instrument answers to new habits, and which fingerings are lost.
#include "fingerway/decide/relearning.hpp"

#include <catch2/catch.hpp>

#include "decide/payoff_toy.hpp"

using namespace fingerway;

namespace {

OutcomeNote fingered(TouchSet pressed) {
  OutcomeNote note;
  note.fingering = Fingering{.pressed = pressed, .half = {}, .flicked = {}};
  return note;
}

PassageOutcome outcome_with(const std::vector<TouchSet>& notes) {
  PassageOutcome outcome;
  for (const TouchSet& pressed : notes) outcome.notes.push_back(fingered(pressed));
  return outcome;
}

const TouchSet one = {toy_one};
const TouchSet three = {toy_three};
const TouchSet none = {};

}  // namespace

TEST_CASE("a pair changes hands where either of its notes is fingered otherwise") {
  Repertoire repertoire;
  // Pairs: B C (played twice), C B, B A; the third note is fingered otherwise.
  repertoire.pieces = {made_piece({"B3", "C4", "B3", "C4", "A3"}, 1, 2)};
  const std::vector<PassageOutcome> stock = {outcome_with({one, none, one, none, one})};
  const std::vector<PassageOutcome> converted = {outcome_with({one, none, three, none, one})};
  const Relearning result = relearning({.repertoire = repertoire, .stock = stock, .converted = converted});
  CHECK(result.played == 8.0);   // four pairs, played twice
  CHECK(result.changed == 4.0);  // C B and the second B C
  REQUIRE(result.pairs.size() == 2);
  CHECK(result.pairs[0].changed == 2.0);
  // B C is played 4 times of 8: half of the repertoire in one kind of pair; changed in 2 of 4, not more often than not.
  CHECK(result.frequent == 1);
  CHECK(result.frequent_changed == 0);
  const auto b_c = std::ranges::find_if(result.pairs, [](const RelearnedPair& p) { return p.from.key == 59; });
  REQUIRE(b_c != result.pairs.end());
  CHECK(b_c->played == 4.0);
  CHECK(b_c->example == NoteSite{.piece = 0, .note = 3});
}

TEST_CASE("a habit pressed on the stock instrument gives its note, another, none, or needs a key that is not there") {
  const Played stock = toy_played(toy_instrument());
  CHECK(carried(stock, pitch_named("B3"), {.pressed = one, .half = {}, .flicked = {}}).result ==
        CarriedResult::same_note);
  // Key three alone leaves the first hole open: C4.
  const CarriedFingering other = carried(stock, pitch_named("B3"), {.pressed = three, .half = {}, .flicked = {}});
  CHECK(other.result == CarriedResult::other_note);
  CHECK(other.sounds == std::vector<WrittenPitch>{pitch_named("C4")});
  CHECK(carried(stock, pitch_named("A3"), {.pressed = {TouchId(3)}, .half = {}, .flicked = {}}).result ==
        CarriedResult::key_missing);
  // Without a line for it, a pad state sounds nothing that is known.
  Instrument poor = toy_instrument();
  std::erase_if(poor.table, [](const TableFingering& line) { return line.pitch.key == 60; });
  CHECK(carried(toy_played(poor), pitch_named("B3"), {.pressed = three, .half = {}, .flicked = {}}).result ==
        CarriedResult::no_note);
}

TEST_CASE("habits are told once a note and fingering, the most often played first") {
  Repertoire repertoire;
  repertoire.pieces = {made_piece({"A3", "B3", "A3", "C4"}, 1, 1)};
  const TouchSet link = {TouchId(3)};
  const TouchSet all = {toy_one, toy_two, toy_three};
  const std::vector<PassageOutcome> stock = {outcome_with({all, one, all, none})};
  const std::vector<PassageOutcome> converted = {outcome_with({link, three, link, none})};
  const auto habits = carried_to_stock({.repertoire = repertoire, .stock = stock, .converted = converted},
                                       toy_played(toy_instrument()));
  REQUIRE(habits.size() == 2);
  CHECK(habits[0].note == pitch_named("A3"));
  CHECK(habits[0].played == 2.0);
  CHECK(habits[0].result == CarriedResult::key_missing);
  CHECK(habits[1].result == CarriedResult::other_note);
}

TEST_CASE("a fingering is lost when the stock plan uses it and the converted instrument does not sound it") {
  Instrument converted = toy_instrument();
  Rule link = converted.rules[0];
  link.when = {toy_three};  // key three now shuts the first hole as well: with it alone C4 is lost
  converted.rules.push_back(link);
  Repertoire repertoire;
  repertoire.pieces = {made_piece({"C4", "B3", "C4"}, 1, 3)};
  const std::vector<PassageOutcome> stock = {outcome_with({three, one, three})};
  const std::vector<PassageOutcome> after = {outcome_with({none, one, none})};
  const auto lost = lost_in_use({.repertoire = repertoire, .stock = stock, .converted = after},
                                toy_played(toy_instrument()), toy_played(converted));
  REQUIRE(lost.size() == 1);
  CHECK(lost[0].note == pitch_named("C4"));
  CHECK(lost[0].fingering.pressed == three);
  CHECK(lost[0].played == 6.0);
}
