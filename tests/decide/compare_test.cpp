// The same passage on two instruments, on the toy and on the bassoon.
#include <catch2/catch.hpp>

#include "fingerway/decide/compare.hpp"
#include "support/passages.hpp"
#include "support/toy_world.hpp"

using namespace fingerway;

namespace {

const Played& stock_toy() {
  static const Played made = played(toy_instrument(), own_numbers(), Level::amateur);
  return made;
}

/// Key three shuts the first hole too, unless key one is held.
const Played& linked_toy() {
  static const Played made = [] {
    Instrument toy = toy_instrument();
    Rule link = toy.rules[0];
    link.when = {toy_three};
    link.from = "link";
    toy.rules.push_back(link);
    return played(toy, own_numbers(), Level::amateur);
  }();
  return made;
}

}  // namespace

TEST_CASE("an instrument beside itself differs nowhere") {
  const Comparison same = compare(stock_toy(), stock_toy(), passage_of({"C4", "B3", "A3", "C4"}), {});
  CHECK(same.differing.empty());
  CHECK(same.here.gained.empty());
  CHECK(same.here.lost.empty());
  CHECK(same.stock.summary.weight == same.converted.summary.weight);
}

TEST_CASE("a comparison holds the plan of each instrument") {
  const Passage passage = passage_of({"C4", "B3", "A3"});
  const Comparison both = compare(stock_toy(), linked_toy(), passage, {});
  CHECK(both.stock.summary.weight == plan_passage(stock_toy(), passage, {}).front().summary.weight);
  CHECK(both.converted.summary.weight == plan_passage(linked_toy(), passage, {}).front().summary.weight);
}

TEST_CASE("only notes fingered or reached otherwise are told, and how they differ") {
  // A3 with the link needs keys two and three only.
  const Comparison both = compare(stock_toy(), linked_toy(), passage_of({"C4", "B3", "A3", "C4"}), {});
  REQUIRE_FALSE(both.differing.empty());
  for (std::size_t i = 0; i < both.stock.notes.size(); ++i) {
    const bool fingering_differs =
        both.stock.notes[i].candidate->fingering != both.converted.notes[i].candidate->fingering;
    const auto told =
        std::find_if(both.differing.begin(), both.differing.end(), [&](const DifferingNote& d) { return d.note == i; });
    if (fingering_differs) {
      REQUIRE(told != both.differing.end());
      CHECK(told->fingering_differs);
    } else if (told != both.differing.end()) {
      CHECK_FALSE(told->fingering_differs);
      CHECK(told->arrival_differs);
    }
  }
}

TEST_CASE("gained and lost are told for the notes of the passage only") {
  const Comparison with_b = compare(stock_toy(), linked_toy(), passage_of({"B3"}), {});
  CHECK(with_b.here.gained.size() == 1);  // key three alone
  CHECK(with_b.here.lost.empty());
  const Comparison with_c = compare(stock_toy(), linked_toy(), passage_of({"C4"}), {});
  CHECK(with_c.here.gained.empty());
  CHECK(with_c.here.lost.size() == 1);
  const Comparison without = compare(stock_toy(), linked_toy(), passage_of({"Bb3"}), {});
  CHECK(without.here.gained.empty());
  CHECK(without.here.lost.empty());
}

TEST_CASE("the second note of a trill belongs to the passage") {
  Passage passage = passage_of({"Bb3"});
  passage.notes[0].kind = NoteKind::trill;
  passage.notes[0].other = spelled("B3");
  CHECK(compare(stock_toy(), linked_toy(), passage, {}).here.gained.size() == 1);
}

TEST_CASE("low notes in a row are lighter and can go faster with interlinked low keys") {
  const Comparison both = compare(own_played("bassoon"), own_played("bassoon+interlinked-low-keys"),
                                  passage_of({"C2", "Eb2", "Db2", "Eb2", "B1", "Eb2"}), {});
  CHECK(both.converted.summary.weight < both.stock.summary.weight);
  CHECK(both.converted.summary.best_ceiling > both.stock.summary.best_ceiling);
  CHECK_FALSE(both.differing.empty());
  CHECK_FALSE(both.here.lost.empty());
}
