// What this part answers: pitches as written and as sounding, their names, MIDI key numbers and frequencies.
// It does not know any instrument; a transposition is handed in.
#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

#include "fingerway/base/quantities.hpp"

namespace fingerway {

/// A difference between two pitches, in semitones of equal temperament.
struct Semitones {
  int count = 0;

  constexpr Semitones() = default;
  constexpr explicit Semitones(int n) : count(n) {}
  friend constexpr auto operator<=>(Semitones, Semitones) = default;
  friend constexpr Semitones operator+(Semitones a, Semitones b) { return Semitones(a.count + b.count); }
  friend constexpr Semitones operator-(Semitones a) { return Semitones(-a.count); }
};

/// A point on the semitone scale, numbered like MIDI keys (60 = C4, middle C). `Sense` tells written from sounding.
template <class Sense>
struct PitchPoint {
  int key = 60;

  constexpr PitchPoint() = default;
  constexpr explicit PitchPoint(int k) : key(k) {}
  friend constexpr auto operator<=>(PitchPoint, PitchPoint) = default;
  friend constexpr Semitones operator-(PitchPoint a, PitchPoint b) { return Semitones(a.key - b.key); }
  friend constexpr PitchPoint operator+(PitchPoint a, Semitones d) { return PitchPoint(a.key + d.count); }
};

/// A pitch as the player reads it, spelling left aside; fingering tables are keyed by it.
using WrittenPitch = PitchPoint<struct WrittenSense>;
/// A pitch as it sounds; `key` is the MIDI key number.
using SoundingPitch = PitchPoint<struct SoundingSense>;

/// How an instrument transposes: sounding = written + interval.
struct Transposition {
  Semitones interval;

  friend constexpr bool operator==(Transposition, Transposition) = default;
};

[[nodiscard]] constexpr SoundingPitch sounding(WrittenPitch p, Transposition t) {
  return SoundingPitch(p.key + t.interval.count);
}

/// A note name: a letter, an alteration in semitones (-1 flat), an octave (C4 = middle C).
struct Spelling {
  char step = 'C';
  int alter = 0;
  int octave = 4;

  friend constexpr bool operator==(const Spelling&, const Spelling&) = default;
};

/// The written point a spelling names; C#4 and Db4 name the same one.
[[nodiscard]] WrittenPitch written(const Spelling& spelling);
/// "Db2", "F##3", "Bb1": scientific pitch names with # and b.
[[nodiscard]] std::string name(const Spelling& spelling);
/// The same with typographic signs, for people: "D♭2".
[[nodiscard]] std::string display_name(const Spelling& spelling);
/// Reads a scientific pitch name ("C#2", "Db2", "F3"); nothing when it is not one. Octaves -1 to 9, up to two signs.
[[nodiscard]] std::optional<Spelling> parse_spelling(std::string_view text);
/// The usual spelling of a point where no key is known: Bb, Eb, Ab and F#, C# (as fingering charts print them).
[[nodiscard]] Spelling chart_spelling(WrittenPitch pitch);
/// Frequency in equal temperament at A4 = 440 Hz. Source: ISO 16 (A4 = 440 Hz), twelve-tone equal temperament.
[[nodiscard]] Hertz frequency(SoundingPitch pitch);

}  // namespace fingerway
