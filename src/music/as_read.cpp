#include <array>
#include <cstddef>
#include <cstdlib>

#include "fingerway/music/passage.hpp"

namespace fingerway {

namespace {

constexpr int keys_per_octave = 12;
constexpr int steps_per_octave = 7;
constexpr std::string_view letters = "CDEFGAB";

/// An interval in steps of the staff and in semitones.
struct Interval {
  int steps = 0;
  int semitones = 0;
};

int floor_mod(int a, int b) { return (a % b + b) % b; }

/// The interval players know by its size in semitones: two semitones are a major second, three a minor third. Six are
/// an augmented fourth (common practice).
Interval usual_interval(int semitones) {
  constexpr std::array<int, keys_per_octave> steps = {0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6};
  const int within = floor_mod(semitones, keys_per_octave);
  const int octaves = (semitones - within) / keys_per_octave;
  // Downwards the same interval is its mirror image, so that going down and up again leads back.
  if (semitones < 0) {
    const Interval up = usual_interval(-semitones);
    return {-up.steps, semitones};
  }
  return {steps[static_cast<std::size_t>(within)] + steps_per_octave * octaves, semitones};
}

/// How many fifths an interval moves a key signature: a fifth is four steps and seven semitones.
int fifths_of(const Interval& interval) {
  return steps_per_octave * interval.semitones - keys_per_octave * interval.steps;
}

/// The interval that keeps the key signature within seven sharps or flats: beyond, a step more or less names it.
Interval in_key(Interval interval, int key_fifths) {
  constexpr int most = 7;
  if (key_fifths + fifths_of(interval) > most) ++interval.steps;
  if (key_fifths + fifths_of(interval) < -most) --interval.steps;
  return interval;
}

Spelling moved(const Spelling& spelling, const Interval& interval) {
  const int place = static_cast<int>(letters.find(spelling.step)) + steps_per_octave * spelling.octave + interval.steps;
  const int letter = floor_mod(place, steps_per_octave);
  Spelling there{letters[static_cast<std::size_t>(letter)], 0, (place - letter) / steps_per_octave};
  const WrittenPitch wanted = written(spelling) + Semitones(interval.semitones);
  there.alter = (wanted - written(there)).count;
  constexpr int most_signs = 2;
  return std::abs(there.alter) <= most_signs ? there : chart_spelling(wanted);
}

}  // namespace

Passage as_read_on(Passage passage, Transposition instrument) {
  if (passage.sense == PitchSense::written) return passage;
  // sounding = pitch + the score's octaves; written = sounding - the instrument's interval.
  const int semitones = passage.transposition.interval.count - instrument.interval.count;
  const Interval interval = usual_interval(semitones);
  passage.sense = PitchSense::written;
  passage.transposition = instrument;
  if (semitones == 0) return passage;
  for (NoteEvent& note : passage.notes) {
    const Interval here = in_key(interval, passage.measures.at(note.place.measure).key_fifths);
    note.spelling = moved(note.spelling, here);
    note.pitch = written(note.spelling);
    if (note.other) note.other = moved(*note.other, here);
  }
  for (Measure& measure : passage.measures) measure.key_fifths += fifths_of(in_key(interval, measure.key_fifths));
  return passage;
}

}  // namespace fingerway
