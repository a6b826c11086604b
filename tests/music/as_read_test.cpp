#include <string>

#include <catch2/catch.hpp>

#include "fingerway/music/passage.hpp"

using namespace fingerway;

namespace {

/// A passage of these notes, a measure each, with a key signature.
Passage at_concert_pitch(const std::vector<std::string>& names, int key_fifths = 0) {
  Passage passage;
  passage.sense = PitchSense::sounding;
  for (const std::string& text : names) {
    NoteEvent note;
    note.spelling = parse_spelling(text).value();
    note.pitch = written(note.spelling);
    note.place.measure = static_cast<std::uint32_t>(passage.measures.size());
    passage.notes.push_back(note);
    Measure measure;
    measure.key_fifths = key_fifths;
    passage.measures.push_back(measure);
  }
  return passage;
}

std::string read_on(const Passage& passage, int sounding) {
  std::string list;
  for (const NoteEvent& note : as_read_on(passage, Transposition{Semitones(sounding)}).notes) {
    list += (list.empty() ? "" : " ") + name(note.spelling);
    CHECK(note.pitch == written(note.spelling));
  }
  return list;
}

}  // namespace

TEST_CASE("concert pitch is read a tone higher in B flat, a minor third higher in A, a fifth higher in F") {
  // Common practice of transposing instruments.
  CHECK(read_on(at_concert_pitch({"C4", "F#4", "Bb3"}), -2) == "D4 G#4 C4");
  CHECK(read_on(at_concert_pitch({"C4", "F#4", "Bb3"}), -3) == "Eb4 A4 Db4");
  CHECK(read_on(at_concert_pitch({"C4", "Bb3"}), -7) == "G4 F4");
  CHECK(read_on(at_concert_pitch({"C4", "Bb3"}), -9) == "A4 G4");
  CHECK(read_on(at_concert_pitch({"C4"}), -14) == "D5");
  CHECK(read_on(at_concert_pitch({"C5"}), 3) == "A4");
  CHECK(read_on(at_concert_pitch({"C5"}), 12) == "C4");
}

TEST_CASE("the key signature moves along and stays within seven signs") {
  const Passage read = as_read_on(at_concert_pitch({"Eb4"}, -3), Transposition{Semitones(-2)});
  CHECK(read.measures.front().key_fifths == -1);
  CHECK(read.sense == PitchSense::written);
  CHECK(read.transposition == Transposition{Semitones(-2)});
  // F sharp major would be G sharp major, eight sharps: it is read in A flat, four flats.
  const Passage far = as_read_on(at_concert_pitch({"F#4", "A#4"}, 6), Transposition{Semitones(-2)});
  CHECK(far.measures.front().key_fifths == -4);
  CHECK(name(far.notes[0].spelling) == "Ab4");
  CHECK(name(far.notes[1].spelling) == "C5");
}

TEST_CASE("the second note of a trill moves too") {
  Passage passage = at_concert_pitch({"C4"});
  passage.notes[0].other = parse_spelling("Db4");
  CHECK(name(as_read_on(passage, Transposition{Semitones(-2)}).notes[0].other.value()) == "Eb4");
}

TEST_CASE("a part written for its player is left alone, and so is concert pitch for an instrument in C") {
  Passage passage = at_concert_pitch({"C4", "F#4"});
  CHECK(as_read_on(passage, Transposition{}).notes == passage.notes);
  passage.sense = PitchSense::written;
  passage.transposition = Transposition{Semitones(-2)};
  CHECK(as_read_on(passage, Transposition{Semitones(-3)}).notes == passage.notes);
  CHECK(as_read_on(passage, Transposition{Semitones(-3)}).transposition == passage.transposition);
}

TEST_CASE("octaves that a concert score writes apart are counted") {
  // A bass an octave below where it is written: the score's interval is that octave, the instrument's the same.
  Passage passage = at_concert_pitch({"C3"});
  passage.transposition = Transposition{Semitones(-12)};
  CHECK(read_on(passage, -12) == "C3");
  CHECK(read_on(passage, 0) == "C2");
}
