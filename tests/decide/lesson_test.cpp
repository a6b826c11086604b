// One pupil, one passage: what is missing and why, what is new, and what it would save. On the toy, by hand.
#include <catch2/catch.hpp>

#include "fingerway/decide/lesson.hpp"
#include "report/toy_report.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

const WrittenPitch c4(60), b3(59), bflat3(58), a3(57);
const Fingering all_three = pressing({toy_one, toy_two, toy_three});

/// Every finger beyond the first counts in full, so that a key for three holes is worth having.
MotionNumbers numbers() {
  MotionNumbers n = toy_numbers();
  n.same_way_share.value = 1.0;
  return n;
}

Played pupil(Instrument toy, Player player) {
  player.level = Level::professional;
  return played(std::move(toy), numbers(), player);
}

Player who_knows(std::vector<OwnFingering> learned) {
  Player player;
  player.learned = std::move(learned);
  return player;
}

const std::vector<OwnFingering> first_three = {{.pitch = c4, .fingering = Fingering{}},
                                               {.pitch = b3, .fingering = pressing({toy_one})},
                                               {.pitch = bflat3, .fingering = pressing({toy_one, toy_two})}};

}  // namespace

TEST_CASE("a pupil who knows everything has nothing new and nothing missing") {
  const Lesson done = lesson(pupil(toy_instrument(), {}), numbers(), passage_of({"C4", "B3", "Bb3", "A3"}));
  CHECK(done.missing.empty());
  CHECK(done.fresh.empty());
  CHECK(done.playable());
  CHECK(done.plan.summary.weight == done.open.summary.weight);
}

TEST_CASE("a note nobody can play, one the hand cannot, and one not learned are told apart") {
  Player player = who_knows(first_three);
  player.unusable = {toy_three};
  const Lesson done = lesson(pupil(toy_instrument(), player), numbers(), passage_of({"C5", "A3", "Bb3"}));
  REQUIRE(done.missing.size() == 2);
  CHECK(done.missing[0] == MissingNote{.note = 0, .why = Missing::on_instrument});
  CHECK(done.missing[1] == MissingNote{.note = 1, .why = Missing::for_hand});
  CHECK_FALSE(done.playable());
  const Lesson later = lesson(pupil(toy_instrument(), who_knows(first_three)), numbers(), passage_of({"Bb3", "A3"}));
  REQUIRE(later.missing.size() == 1);
  CHECK(later.missing[0] == MissingNote{.note = 1, .why = Missing::not_learned});
  CHECK(later.playable());
}

TEST_CASE("a needed fingering is named with every place that needs it") {
  const Lesson done =
      lesson(pupil(toy_instrument(), who_knows(first_three)), numbers(), passage_of({"A3", "Bb3", "A3"}));
  REQUIRE(done.fresh.size() == 1);
  CHECK(done.fresh[0].pitch == a3);
  CHECK(done.fresh[0].needed);
  CHECK(done.fresh[0].candidate.fingering == all_three);
  CHECK(done.fresh[0].notes == std::vector<std::size_t>{0, 2});
  CHECK_FALSE(done.plan.notes[0].candidate);
}

TEST_CASE("a helpful fingering saves what the passage costs less once it is learned") {
  std::vector<OwnFingering> learned = first_three;
  learned.push_back({.pitch = a3, .fingering = all_three});
  Player player = who_knows(learned);
  player.holds_through = false;
  const Passage passage = toy_leaps(Qpm(200));
  const Lesson done = lesson(pupil(linked_toy(), player), numbers(), passage);
  CHECK(done.missing.empty());
  REQUIRE_FALSE(done.fresh.empty());
  CHECK(done.fresh.front().saves->value() > 0.0);
  for (const NewFingering& fresh : done.fresh) {
    CHECK_FALSE(fresh.needed);
    Player later = player;
    later.learned->push_back({.pitch = fresh.pitch, .fingering = fresh.candidate.fingering});
    const Plan after = plan_passage(pupil(linked_toy(), later), passage, {}).front();
    REQUIRE(fresh.saves);
    CHECK(fresh.saves->value() == Approx(static_cast<double>(done.plan.summary.weight - after.summary.weight) / 1e6));
    CHECK(fresh.ceiling->value() == Approx(after.summary.ceiling->value()));
  }
}

TEST_CASE("changes and trills beyond any fingering are told before the lesson") {
  Passage passage = passage_of({"C4", "A3"}, {.each = ScoreTime(1, 8), .tempo = Qpm(600)});
  passage.notes[1].kind = NoteKind::trill;
  passage.notes[1].other = spelled("C4");
  MotionNumbers demanding = numbers();
  demanding.laborious_from.value = 1000.0;
  const Played toy = played(toy_instrument(), demanding, Level::professional);
  const Lesson done = lesson(toy, demanding, passage);
  CHECK(done.too_fast == std::vector<std::size_t>{1});
  CHECK(done.trills_out_of_reach == std::vector<std::size_t>{1});
  CHECK_FALSE(done.playable());
}
