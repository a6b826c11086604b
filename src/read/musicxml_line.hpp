// What this part answers: the notes of one voice of one <part>, in score time, with everything that hangs on them.
// It does not join ties or give grace notes time; musicxml_events.hpp does.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "fingerway/music/passage.hpp"
#include "musicxml_findings.hpp"
#include "musicxml_marks.hpp"

namespace pugi {
class xml_node;
}

namespace fingerway {

/// A voice and the staff it starts on.
struct VoiceChoice {
  std::string voice;
  int staff = 1;
};

/// One <note> of the voice. Rests are kept: grace notes take time from them.
struct LineNote {
  Spelling spelling;
  ScoreTime onset;
  ScoreTime length;  ///< zero for a grace note
  bool rest = false;
  bool grace = false;
  bool steals_from_before = false;  ///< a grace note that says so
  int key_fifths = 0;               ///< key signature in force
  std::uint32_t measure = 0;
  std::uint32_t element = 0;
  NoteMarks marks;
};

/// Loudness from a moment on.
struct DynamicChange {
  ScoreTime at;
  Dynamic dynamic = Dynamic::unmarked;
};

/// A tempo mark by measure, since parts may differ in where their measures start.
struct LineTempo {
  std::uint32_t measure = 0;
  ScoreTime within;  ///< from the start of the measure
  Qpm tempo;
  TempoSource source = TempoSource::sound_element;
};

/// What a walk through a part finds.
struct Line {
  std::vector<Measure> measures;
  std::vector<LineNote> notes;  ///< by onset
  std::vector<DynamicChange> dynamics;
  std::vector<LineTempo> tempos;
  Transposition transposition;
};

/// The voice asked for, or that of the part's first pitched note. Nothing when the part has no such voice.
[[nodiscard]] std::optional<VoiceChoice> choose_voice(const pugi::xml_node& part, const std::string& voice);
/// The voices of a part, as hints list them: "1 (24 notes), 2 (3 notes)".
[[nodiscard]] std::string voices_of(const pugi::xml_node& part);

/// Walks through a part once.
[[nodiscard]] Line read_line(const pugi::xml_node& part, const VoiceChoice& choice, Findings& findings);

}  // namespace fingerway
