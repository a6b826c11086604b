// What this part answers: the notes of one voice of one part as written, in score time, with everything that hangs on
// them.
// It does not follow repeats (musicxml_order.hpp), join ties or give grace notes time (musicxml_events.hpp).
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "fingerway/music/passage.hpp"
#include "musicxml_choice.hpp"
#include "musicxml_directions.hpp"
#include "musicxml_findings.hpp"
#include "musicxml_marks.hpp"

namespace fingerway {

/// One <note> of the voice. Rests are kept: grace notes take time from them.
struct LineNote {
  Spelling spelling;
  ScoreTime onset;
  ScoreTime length;  ///< zero for a grace note
  bool rest = false;
  bool grace = false;
  bool steals_from_before = false;       ///< a grace note that says so
  std::optional<ScoreTime> grace_value;  ///< the note value of a grace note without a slash
  int staff = 1;
  int key_fifths = 0;             ///< key signature in force
  std::optional<int> above_here;  ///< alteration that a note a step above got earlier in the measure
  std::optional<int> below_here;
  std::uint32_t measure = 0;
  std::uint32_t element = 0;
  NoteMarks marks;
};

/// Loudness from a moment on.
struct DynamicChange {
  ScoreTime at;
  Dynamic dynamic = Dynamic::unmarked;
};

/// A hairpin's end at a moment.
struct WedgeAt {
  ScoreTime at;
  Wedge wedge;
};

/// A tempo mark by measure, since parts may differ in where their measures start.
struct LineTempo {
  std::uint32_t measure = 0;
  ScoreTime within;  ///< from the start of the measure
  TempoMark mark;
};

/// An end of a slur in another voice that has no other end there.
struct StraySlur {
  ScoreTime at;
  unsigned number = 1;
  bool starts = false;
};

/// What a walk through a part finds.
struct Line {
  std::vector<Measure> measures;
  std::vector<LineNote> notes;  ///< by measure, then onset
  std::vector<DynamicChange> dynamics;
  std::vector<WedgeAt> wedges;
  std::vector<LineTempo> tempos;
  std::vector<StraySlur> stray_slurs;  ///< by time
  Transposition transposition;
  std::optional<Transposition> transposed_part;
};

/// What the walk needs to know besides the voice.
struct LineRequest {
  VoiceChoice voice;
  Divisi divisi = Divisi::refuse;
};

/// Walks through a part once.
[[nodiscard]] Line read_line(const ScorePart& part, const LineRequest& request, Findings& findings);

/// Whether notes of the voice sound at once on different staves: it is then no one line, and one staff must do.
[[nodiscard]] bool staves_clash(const Line& line);

}  // namespace fingerway
