#include <catch2/catch.hpp>

#include "fingerway/report/choice_marks.hpp"
#include "fingerway/report/view.hpp"
#include "report/toy_report.hpp"
#include "report/words.hpp"

using namespace fingerway;

TEST_CASE("note lengths have the names musicians use") {
  CHECK(length_words(ScoreTime(1)) == "quarter");
  CHECK(length_words(ScoreTime(3, 2)) == "dotted quarter");
  CHECK(length_words(ScoreTime(1, 4)) == "sixteenth");
  CHECK(length_words(ScoreTime(7, 4)) == "double-dotted quarter");
  CHECK(length_words(ScoreTime(1, 3)) == "eighth triplet");
  CHECK(length_words(ScoreTime(5)) == "5 quarters");
}

TEST_CASE("numbers are rounded half away from zero and never to minus nought") {
  CHECK(rounded(2.5, 0) == "3");
  CHECK(rounded(-0.2, 0) == "0");
  CHECK(rounded(7.05, 1) == "7.1");
  CHECK(percent(1.814) == "181 %");
}

TEST_CASE("a fingering is told by finger and in short") {
  const Instrument toy = toy_instrument();
  const Fingering both{.pressed = {toy_one, toy_two, toy_three}, .half = {}, .flicked = {}};
  const auto told = fingering_words(toy, both);
  REQUIRE(told.size() == 2);
  CHECK(told[0].finger_words == "left index finger");
  CHECK(told[0].holds == "key one + key two");
  CHECK(one_line(told) == "left index finger: key one + key two; left middle finger: key one");
  CHECK(compact(toy, both) == "1+two 2");
  CHECK(compact(toy, {}) == "open");
}

TEST_CASE("touch names lose what their finger says already and gain accidentals") {
  Instrument toy = toy_instrument();
  toy.touches[0].name = "low-eflat";
  toy.touches[0].label = "low E-flat key (not on every instrument)";
  CHECK(touch_words(toy, toy_one) == "low E-flat");
  CHECK(touch_short(toy, toy_one, Script::signs) == "E♭");
  CHECK(touch_short(toy, toy_one, Script::letters) == "Eb");
  // Where a finger has two touches of that short name, both keep the longer one.
  toy.touches[1].name = "high-eflat";
  CHECK(touch_short(toy, toy_one, Script::signs) == "low E♭");
  CHECK(touch_short(toy, toy_two, Script::signs) == "high E♭");
  toy.touches[2].name = "hole";
  CHECK(touch_short(toy, toy_three, Script::signs).empty());
}

TEST_CASE("an arrival is told in words with its time") {
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(120), Attack::slurred);
  const Plan plan = plan_passage(toy, passage, {}).front();
  const NoteView note = note_view(toy, passage, plan, 1);
  REQUIRE(note.arrival);
  // One press at ten cycles a second takes 50 ms; a quarter at 120 lasts 500 ms.
  REQUIRE(note.arrival->moves.size() == 1);
  CHECK(note.arrival->moves[0].words == "left index finger presses key one, 50 ms");
  CHECK(note.arrival->needs == "50 ms");
  CHECK(note.arrival->there_is == "500 ms");
  CHECK(note.arrival->load == "10 %");
  CHECK(note.arrival->slurred);
  CHECK(note.note == "B3");
  CHECK(note.beat == "2");
  CHECK(note.mark == "one");
}

TEST_CASE("a ceiling is never rounded up") {
  PlanSummary summary;
  summary.ceiling = Qpm(95.9);
  CHECK(ceiling_words(summary) == "up to 95 quarter notes a minute");
  summary.best_ceiling = Qpm(120.2);
  CHECK(ceiling_words(summary) == "up to 95 quarter notes a minute (up to 120 with the fastest fingerings)");
  CHECK(ceiling_words({}) == "nothing here limits the tempo");
}

TEST_CASE("a choice matters where the usual fingering is not the only one or not the one chosen") {
  Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(120), Attack::slurred);
  const Plan plan = plan_passage(toy, passage, {}).front();
  CHECK_FALSE(choice_matters(toy, passage.notes[1], plan.notes[1]));
  PlannedNote derived = plan.notes[1];
  Candidate found = *derived.candidate;
  found.origin = Origin::derived;
  derived.candidate = found;
  CHECK(choice_matters(toy, passage.notes[1], derived));
  PlannedNote none = plan.notes[1];
  none.candidate = std::nullopt;
  CHECK(choice_matters(toy, passage.notes[1], none));
  NoteEvent trill = passage.notes[1];
  trill.kind = NoteKind::trill;
  CHECK(choice_matters(toy, trill, plan.notes[1]));
  TableFingering other = toy.instrument.table[1];
  other.mark = "other";
  other.standing = Standing::alternate;
  toy.instrument.table.push_back(other);
  CHECK(choice_matters(toy, passage.notes[1], plan.notes[1]));
}

TEST_CASE("marks go where a choice matters, once a measure, or everywhere when all are asked for") {
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(120), Attack::slurred);
  Plan plan = plan_passage(toy, passage, {}).front();
  CHECK(marks_for(toy, passage, plan, MarkWhich::all).size() == passage.notes.size());
  const auto before = marks_for(toy, passage, plan, MarkWhich::choices).size();
  // The same derived fingering on the first note of each bar's Bb3.
  for (std::size_t i : {2U, 4U}) {
    Candidate candidate = *plan.notes[i].candidate;
    candidate.origin = Origin::derived;
    candidate.fingering.pressed = {toy_one, toy_three};
    plan.notes[i].candidate = candidate;
  }
  const auto marks = marks_for(toy, passage, plan, MarkWhich::choices);
  CHECK(marks.size() == before + 2);
  CHECK(std::ranges::find(marks, 4U, &ScoreMark::element) != marks.end());
}

TEST_CASE("a derived mark says which touches are added to and left out of the usual fingering") {
  const Played toy = toy_played(toy_instrument());
  PlannedNote note;
  Candidate candidate;
  candidate.line = 1;
  candidate.origin = Origin::derived;
  candidate.fingering.pressed = {toy_two, toy_three};
  note.candidate = candidate;
  // All of the usual fingering is gone: the whole new one is shorter.
  CHECK(pencil_mark(toy, note) == "1·two 2");
  candidate.fingering.pressed = {toy_one, toy_three};
  note.candidate = candidate;
  // So short that it says more than the usual mark and an addition would.
  CHECK(pencil_mark(toy, note) == "1 2");
  candidate.line = 3;
  candidate.fingering.pressed = {toy_one, toy_two};
  note.candidate = candidate;
  CHECK(pencil_mark(toy, note) == "1+two");
  candidate.fingering.pressed = {toy_one, toy_two, toy_three};
  candidate.origin = Origin::table;
  note.candidate = candidate;
  CHECK(pencil_mark(toy, note) == "three");
  note.candidate = std::nullopt;
  CHECK(pencil_mark(toy, note) == "no fingering");
}
