// What this part answers: one player's line as a list of note events, each remembering where it stands in the score.
// It knows no instrument and no file format; readers fill it, `plan` consumes it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "fingerway/music/pitch.hpp"
#include "fingerway/music/score_time.hpp"
#include "fingerway/music/tempo.hpp"

namespace fingerway {

/// How a note starts: with the tongue, or slurred from the note before.
enum class Attack : std::uint8_t { tongued, slurred };
enum class NoteKind : std::uint8_t { plain, trill, tremolo };
/// Whether a note is written out, or a part of an ornament spelled out from its sign.
enum class NotePart : std::uint8_t { plain, ornament };
/// What the pitches of a passage say: what the player reads, or what is heard (a score at concert pitch).
enum class PitchSense : std::uint8_t { written, sounding };
/// Written loudness in force at a note.
enum class Dynamic : std::uint8_t { unmarked, ppp, pp, p, mp, mf, f, ff, fff };

/// Written signs on a note that say how it is played.
struct Signs {
  bool staccato = false;
  bool tenuto = false;
  bool accent = false;
  bool breath_after = false;
  bool fermata = false;

  friend bool operator==(const Signs&, const Signs&) = default;
};

/// Where a note stands in the file: the part's `<note>` elements counted from 0 in document order, rests included.
struct NotePlace {
  std::uint32_t measure = 0;        ///< index into Passage::measures
  std::uint32_t element = 0;        ///< the `<note>` that starts the sound
  std::vector<std::uint32_t> tied;  ///< further `<note>`s tied to it, in order

  friend bool operator==(const NotePlace&, const NotePlace&) = default;
};

/// One sounding note. Tied notes are one event; rests are the gaps between events.
struct NoteEvent {
  Spelling spelling;  ///< as the player reads it
  WrittenPitch pitch;
  ScoreTime onset;  ///< from the start of the passage's first measure
  ScoreTime length;
  Attack attack = Attack::tongued;
  NoteKind kind = NoteKind::plain;
  std::optional<Spelling> other;  ///< the upper note of a trill, the second note of a tremolo
  Dynamic dynamic = Dynamic::unmarked;
  Signs signs;
  bool grace = false;  ///< its length was taken from a neighbour
  NotePlace place;
  NotePart part = NotePart::plain;
  std::vector<std::string> marked = {};  ///< fingerings that stand at the note in the file, as they are

  friend bool operator==(const NoteEvent&, const NoteEvent&) = default;
};

/// One measure as printed.
struct Measure {
  std::string name;  ///< the number as printed ("1", "12a")
  ScoreTime start;
  ScoreTime length;
  int beats = 4;  ///< time signature in force
  int beat_type = 4;
  int key_fifths = 0;  ///< key signature in force, sharps positive
  int pass = 1;        ///< 2 when it is played for the second time

  friend bool operator==(const Measure&, const Measure&) = default;
};

/// Something the reader skipped or assumed, told in every report.
struct Remark {
  std::string within;  ///< "measure 3"
  std::string what;

  friend bool operator==(const Remark&, const Remark&) = default;
};

/// One voice of one part.
struct Passage {
  std::string file;
  std::string title;
  std::string part_id;
  std::string part_name;
  std::string voice;
  Transposition transposition;    ///< as the score states it; of a score at concert pitch, its octaves only
  std::vector<Measure> measures;  ///< in the order they are played; one that is repeated stands there again
  std::vector<NoteEvent> notes;   ///< by onset; they do not overlap
  TempoMap tempo;
  std::vector<Remark> remarks;
  PitchSense sense = PitchSense::written;
  std::optional<Transposition> transposed_part =
      {};  ///< how a score at concert pitch says the player's part transposes
};

/// The passage as the player of an instrument of this transposition reads it: pitches of a score at concert pitch are
/// moved by the interval, with the key (its usual spelling: two semitones are a step, three are two steps); a passage
/// already written for its player is left as it is.
[[nodiscard]] Passage as_read_on(Passage passage, Transposition instrument);
/// The beat a note falls on, counted from 1 in beats of the time signature ("1", "2.5", "4 1/3" is kept exact).
[[nodiscard]] ScoreTime beat_of(const Passage& passage, const NoteEvent& note);
/// "2", "2.5" where the fraction is short in decimals, else "2+1/3".
[[nodiscard]] std::string beat_name(const Passage& passage, const NoteEvent& note);
/// The notes whose measures run from the one named `first` to the next one named `last`, times kept; both must exist,
/// `last` not before `first`.
[[nodiscard]] Passage bars(const Passage& passage, const std::string& first, const std::string& last);
/// Number of measures (from 0), found by printed name and the time it is played; nothing when there is none.
[[nodiscard]] std::optional<std::size_t> find_measure(const Passage& passage, const std::string& printed_name,
                                                      int pass = 1);

}  // namespace fingerway
