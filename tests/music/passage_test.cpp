#include <string>

#include <catch2/catch.hpp>

#include "fingerway/music/passage.hpp"

using namespace fingerway;

namespace {

NoteEvent note_at(ScoreTime onset, std::uint32_t measure) {
  NoteEvent note;
  note.onset = onset;
  note.length = ScoreTime(1, 2);
  note.place.measure = measure;
  return note;
}

/// A pickup of one quarter, two full measures of 4/4, one of 6/8.
Passage example() {
  Passage passage;
  passage.measures = {{"0", ScoreTime(0), ScoreTime(1), 4, 4, 0},
                      {"1", ScoreTime(1), ScoreTime(4), 4, 4, 0},
                      {"2", ScoreTime(5), ScoreTime(4), 4, 4, 0},
                      {"3", ScoreTime(9), ScoreTime(3), 6, 8, 0}};
  passage.notes = {note_at(ScoreTime(0), 0), note_at(ScoreTime(1), 1), note_at(ScoreTime(5, 2), 1),
                   note_at(ScoreTime(16, 3), 2), note_at(ScoreTime(21, 2), 3)};
  passage.remarks = {{"", "whole score"}, {"measure 1", "in one"}, {"measure 3", "in three"}};
  return passage;
}

}  // namespace

TEST_CASE("beats are counted from 1 in beats of the time signature") {
  const Passage passage = example();
  CHECK(beat_of(passage, passage.notes[1]) == ScoreTime(1));
  CHECK(beat_of(passage, passage.notes[2]) == ScoreTime(5, 2));
  CHECK(beat_of(passage, passage.notes[3]) == ScoreTime(4, 3));
  // The fourth eighth of 6/8.
  CHECK(beat_of(passage, passage.notes[4]) == ScoreTime(4));
}

TEST_CASE("a pickup is counted as the end of a full measure") {
  const Passage passage = example();
  CHECK(beat_of(passage, passage.notes[0]) == ScoreTime(4));
}

TEST_CASE("beats are named shortly where decimals are short") {
  Passage passage = example();
  CHECK(beat_name(passage, passage.notes[1]) == "1");
  CHECK(beat_name(passage, passage.notes[2]) == "2.5");
  CHECK(beat_name(passage, passage.notes[3]) == "1+1/3");
  passage.notes[2].onset = ScoreTime(1) + ScoreTime(1, 16);
  CHECK(beat_name(passage, passage.notes[2]) == "1+1/16");
  passage.notes[2].onset = ScoreTime(1) + ScoreTime(1, 8);
  CHECK(beat_name(passage, passage.notes[2]) == "1.125");
  passage.notes[2].onset = ScoreTime(1) + ScoreTime(1, 20);
  CHECK(beat_name(passage, passage.notes[2]) == "1.05");
}

TEST_CASE("cutting out bars keeps times and leaves no note or remark of other bars") {
  const Passage cut = bars(example(), "1", "2");
  REQUIRE(cut.measures.size() == 2);
  CHECK(cut.measures[0].name == "1");
  CHECK(cut.measures[0].start == ScoreTime(1));
  REQUIRE(cut.notes.size() == 3);
  CHECK(cut.notes[0].onset == ScoreTime(1));
  CHECK(cut.notes[2].place.measure == 1);
  CHECK(cut.remarks == std::vector<Remark>{{"", "whole score"}, {"measure 1", "in one"}});
  CHECK(beat_name(cut, cut.notes[1]) == "2.5");
}

TEST_CASE("measures are found by printed name") {
  CHECK(find_measure(example(), "2") == std::size_t{2});
  CHECK_FALSE(find_measure(example(), "9"));
}
