// What the trade says of the bassoon's conversions, as outcomes of real plans.
#include <catch2/catch.hpp>

#include "fingerway/decide/relearning.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

PassageOutcome on(const std::string& instrument, const Passage& passage) {
  return outcome_of(own_played(instrument), passage, OutcomeDetail::notes);
}

Passage slurred_sixteenths(const std::vector<std::string>& notes) {
  return passage_of(notes, {.each = ScoreTime(1, 4), .tempo = Qpm(92.0)});
}

std::size_t hard_notes(const PassageOutcome& outcome) {
  return static_cast<std::size_t>(
      std::ranges::count_if(outcome.verdicts, [](Verdict v) { return v >= Verdict::laborious; }));
}

}  // namespace

TEST_CASE("rollers show a gain where one finger slides from key to key, and none where none does") {
  // Published: "rollers between L4 low E-flat and low C-sharp ... slide without lifting", tjbassoon.com, keywork
  // choices on a bassoon (2018).
  const Passage slides = slurred_sixteenths({"Eb2", "Db2", "Eb2", "Db2", "Eb2"});
  const PassageOutcome stock = on("bassoon", slides);
  const PassageOutcome rollers = on("bassoon+low-key-rollers", slides);
  CHECK(rollers.micro_points < stock.micro_points);
  CHECK(rollers.ceiling > stock.ceiling);
  const Passage elsewhere = slurred_sixteenths({"C3", "D3", "C3", "B2", "A2"});
  CHECK(on("bassoon+low-key-rollers", elsewhere).micro_points == on("bassoon", elsewhere).micro_points);
}

TEST_CASE("a second set of low keys for the other thumb shows a gain where the left thumb would have to leap") {
  // Trade fact (common practice): duplicate keys exist so that a finger need not jump from its key. Here the left thumb
  // would leap from the low D key to a flick key and back.
  const Passage leaps = slurred_sixteenths({"D2", "A3", "D2", "C4", "D2"});
  CHECK(on("bassoon+right-thumb-low-c-and-d", leaps).micro_points < on("bassoon", leaps).micro_points);
}

TEST_CASE("interlinked low keys gain on low flats, and lose the muted low C-sharp") {
  // Trade fact (common practice), as the conversion file states it.
  const Passage low = slurred_sixteenths({"Db2", "Eb2", "Db2", "Eb2", "C2", "Eb2"});
  const PassageOutcome stock = on("bassoon", low);
  const PassageOutcome linked = on("bassoon+interlinked-low-keys", low);
  CHECK(hard_notes(linked) < hard_notes(stock));
  CHECK(linked.micro_points < stock.micro_points);

  // A repertoire that uses the muted C-sharp: low B held under the low D-flat key.
  const Played& bassoon = own_played("bassoon");
  const auto muted = std::ranges::find_if(bassoon.instrument.table, [&](const TableFingering& line) {
    return line.pitch == pitch_named("C#2") &&
           line.fingering.pressed.contains(touch_named(bassoon.instrument, "LT.low-b"));
  });
  REQUIRE(muted != bassoon.instrument.table.end());
  Repertoire repertoire;
  repertoire.pieces.resize(1);
  repertoire.pieces[0].passage = passage_of({"C#2"});
  PassageOutcome uses_it;
  uses_it.notes.resize(1);
  uses_it.notes[0].fingering = muted->fingering;
  const std::vector<PassageOutcome> outcomes = {uses_it};
  const auto lost = lost_in_use({.repertoire = repertoire, .stock = outcomes, .converted = outcomes}, bassoon,
                                own_played("bassoon+interlinked-low-keys"));
  REQUIRE(lost.size() == 1);
  CHECK(lost[0].note == pitch_named("C#2"));
}

TEST_CASE("a set that takes nothing away is never worse than its best member") {
  const std::string rollers = "bassoon+low-key-rollers";
  const std::string thumb = "bassoon+right-thumb-low-c-and-d";
  const std::string both = "bassoon+low-key-rollers+right-thumb-low-c-and-d";
  for (const std::string& member : {rollers, thumb}) {
    const Played& one = own_played(member);
    const Played& set = own_played(both);
    REQUIRE(difference(one.instrument, one.derivation, set.instrument, set.derivation).lost.empty());
  }
  for (const auto& notes : std::vector<std::vector<std::string>>{
           {"C2", "Eb2", "Db2", "Eb2", "B1", "Eb2"}, {"D2", "F3", "C2", "F3", "Ab2", "F2"}, {"C3", "D3", "C3"}}) {
    const Passage passage = slurred_sixteenths(notes);
    const double best = std::min(on(rollers, passage).points(), on(thumb, passage).points());
    // Layers are bounded: plans are exact to about 2 % (DEVELOPERS.md, decisions).
    CHECK(on(both, passage).points() <= best * 1.02);
  }
}
