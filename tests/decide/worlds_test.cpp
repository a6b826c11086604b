// Sampled worlds, outcomes, and fingerprints of what they depend on.
#include "fingerway/decide/worlds.hpp"

#include <catch2/catch.hpp>

#include "decide/payoff_toy.hpp"
#include "fingerway/decide/fingerprint.hpp"

using namespace fingerway;

TEST_CASE("world 0 is the one asked for") {
  const World asked = world(0, own_numbers(), Level::beginner);
  CHECK(asked.level == Level::beginner);
  CHECK(asked.tempo == 1.0);
  CHECK(Fingerprint().add(asked.numbers).value() == Fingerprint().add(own_numbers()).value());
}

TEST_CASE("a world follows from its number alone, and lies within every range") {
  for (std::size_t number = 1; number <= 50; ++number) {
    World drawn = world(number, own_numbers(), Level::amateur);
    CHECK(Fingerprint().add(drawn.numbers).value() ==
          Fingerprint().add(world(number, own_numbers(), Level::amateur).numbers).value());
    CHECK(std::abs(drawn.tempo - 1.0) <= tempo_spread);
    for (const NamedNumber& named : named_numbers(drawn.numbers)) {
      CAPTURE(number, named.name);
      CHECK(named.number->value >= named.number->low);
      CHECK(named.number->value <= named.number->high);
    }
    CHECK(drawn.numbers.workable_from.value >= drawn.numbers.laborious_from.value);
    CHECK(drawn.numbers.fluent_from.value >= drawn.numbers.workable_from.value);
  }
}

TEST_CASE("a hand is large or small as a whole") {
  const World drawn = world(7, own_numbers(), Level::amateur);
  const auto share = [](const Number& n) { return (n.value - n.low) / (n.high - n.low); };
  const auto& reach = drawn.numbers.comfortable_reach;
  CHECK(share(reach[0]) == Approx(share(reach[1])));
  CHECK(share(reach[0]) == Approx(share(reach[2])));
  CHECK(share(reach[0]) != Approx(share(world(8, own_numbers(), Level::amateur).numbers.comfortable_reach[0])));
}

TEST_CASE("half of the worlds keep the level asked for") {
  std::array<int, 3> count{};
  constexpr int worlds = 2000;
  for (std::size_t number = 1; number <= worlds; ++number) {
    ++count[static_cast<std::size_t>(world(number, own_numbers(), Level::amateur).level)];
  }
  // Three deviations of a fair draw: sqrt(2000 x 0.25) = 22.4 of 1000, sqrt(2000 x 0.1875) = 19.4 of 500.
  CHECK(std::abs(count[1] - worlds / 2) < 68);
  CHECK(std::abs(count[0] - worlds / 4) < 59);
  CHECK(std::abs(count[2] - worlds / 4) < 59);
}

TEST_CASE("a world's tempo moves every tempo of a passage") {
  World fast = world(0, own_numbers(), Level::amateur);
  fast.tempo = 1.1;
  Passage passage = passage_of({"B3", "C4"}, {.tempo = Qpm(100.0)});
  CHECK(in_world(fast, passage).tempo.tempo_at(ScoreTime()).value() == Approx(110.0));
}

TEST_CASE("the verdict of a change is what it leaves of its time") {
  CHECK(change_verdict(0.0) == Verdict::fluent);
  CHECK(change_verdict(0.7) == Verdict::fluent);
  CHECK(change_verdict(0.71) == Verdict::workable);
  CHECK(change_verdict(0.85) == Verdict::workable);
  CHECK(change_verdict(0.86) == Verdict::laborious);
  CHECK(change_verdict(1.0) == Verdict::laborious);
  CHECK(change_verdict(1.01) == Verdict::out_of_reach);
}

TEST_CASE("an outcome holds what the plan says") {
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_leaps(Qpm(120));
  const Plan plan = plan_passage(toy, passage, {}).front();
  const PassageOutcome outcome = outcome_of(toy, passage, OutcomeDetail::notes);
  CHECK(outcome.micro_points == plan.summary.weight);
  CHECK(outcome.awkwardness == plan.summary.awkwardness.value());
  CHECK(outcome.ceiling == plan.summary.ceiling->value());
  CHECK(outcome.fits);
  REQUIRE(outcome.notes.size() == passage.notes.size());
  CHECK_FALSE(outcome.notes[0].arrive.has_value());
  for (std::size_t i = 0; i < outcome.notes.size(); ++i) {
    CHECK(outcome.notes[i].fingering == plan.notes[i].candidate->fingering);
    CHECK(outcome.verdicts[i] == Verdict::fluent);
  }
  CHECK(outcome.notes[1].arrive->time_ms == plan.notes[1].arrive->step.time.count());
  CHECK(outcome.notes[1].arrive->available_ms == 500.0);
  const PassageOutcome figures = outcome_of(toy, passage, OutcomeDetail::figures);
  CHECK(figures.notes.empty());
  CHECK(figures.micro_points == outcome.micro_points);
}

TEST_CASE("a note without a fingering costs as much as a change that would need twice its time") {
  const Played toy = toy_played(toy_instrument());
  const PassageOutcome lost = outcome_of(toy, passage_of({"C6"}), OutcomeDetail::notes);
  // Toy: no misfit points, 1000 points a unit of load beyond 1.
  CHECK(lost.points() == Approx(1000.0));
  CHECK(lost.verdicts == std::vector<Verdict>{Verdict::out_of_reach});
  CHECK_FALSE(lost.fits);
}

TEST_CASE("assumed places of touches move a little, alike on every conversion; measured ones stay") {
  Instrument toy = toy_instrument();
  toy.touches[2].spot_measured = true;
  const World here = world(5, own_numbers(), Level::amateur);
  const Instrument moved = in_world(here, toy);
  for (std::size_t i : {0U, 1U}) {
    const double along = moved.touches[i].spot.along.value() - toy.touches[i].spot.along.value();
    CHECK(along != 0.0);
    CHECK(std::abs(along) <= 3.0);
  }
  CHECK(moved.touches[2].spot == toy.touches[2].spot);
  Instrument converted = toy;
  converted.touches.insert(converted.touches.begin(), toy.touches[2]);
  CHECK(in_world(here, converted).touches[1].spot == moved.touches[0].spot);
  CHECK(in_world(world(0, own_numbers(), Level::amateur), toy).touches[0].spot == toy.touches[0].spot);
}

TEST_CASE("a fingerprint changes with what planning looks at, and with nothing else") {
  const auto print = [](const auto& value) { return Fingerprint().add(value).value(); };
  const Passage passage = passage_of({"B3", "C4"});
  Passage other = passage;
  other.title = "another name";
  CHECK(print(other) == print(passage));
  other.notes[1].length = ScoreTime(1, 4);
  CHECK(print(other) != print(passage));
  other = passage_of({"B3", "C4"}, {.tempo = Qpm(93.0)});
  CHECK(print(other) != print(passage));

  const Instrument toy = toy_instrument();
  Instrument changed = toy;
  changed.name = "another name";
  CHECK(print(changed) == print(toy));
  changed.rules.pop_back();
  CHECK(print(changed) != print(toy));
  changed = toy;
  changed.touches[0].spot.along = Mm(1.0);
  CHECK(print(changed) != print(toy));
  changed = toy;
  changed.slides[0].roller = true;
  CHECK(print(changed) != print(toy));

  Player player;
  Player resting = player;
  resting.resting = {toy_one};
  CHECK(print(resting) != print(player));
}
