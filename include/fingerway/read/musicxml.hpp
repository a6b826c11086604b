// What this part answers: which parts a MusicXML score has, and one voice of one of them as a passage.
// It does not decide fingerings and knows no instrument; what fits one is handed in as plain values. Versions 1.0 to
// 4.0, score-partwise and score-timewise.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fingerway/music/passage.hpp"

namespace fingerway {

/// What to read of a chord: nothing (it is a fault), its highest or its lowest note.
enum class Divisi : std::uint8_t { refuse, top, bottom };
/// What the score's pitches are: as its <concert-score> says (as_written), or concert pitch whatever it says.
enum class ConcertPitch : std::uint8_t { as_written, concert };
/// The measures in the order they are played (repeats, endings, jumps), or once each as they stand.
enum class PlayOrder : std::uint8_t { played, as_written };
/// Ornaments spelled out the way the trade plays them, or their main notes alone. Trills and tremolos stay whole.
enum class Ornaments : std::uint8_t { play, main_note };

/// What an instrument's part looks like, for choosing it among several.
struct PartWanted {
  std::vector<std::string> names = {};   ///< "bassoon", "fagott", "bsn": case and full stops do not matter
  std::vector<std::string> sounds = {};  ///< MusicXML sound ids: "wind.reed.bassoon"
  std::optional<WrittenPitch> lowest = {};
  std::optional<WrittenPitch> highest = {};
  std::vector<std::string> clefs = {};  ///< sign and line: "F4", "C4"; empty: any
};

/// Which line to read, and how.
struct ScoreChoice {
  /// Part id or name (case does not matter, numbers do). Empty: the only part, or the one that fits `wanted`, or a
  /// fault that lists them.
  std::string part = {};
  /// Empty: the voice with the most notes, of equals the one of lowest number.
  std::string voice = {};
  std::optional<int> staff = {};  ///< only notes of this staff of the part, counted from 1
  Divisi divisi = Divisi::refuse;
  ConcertPitch concert = ConcertPitch::as_written;
  PlayOrder order = PlayOrder::played;
  Ornaments ornaments = Ornaments::play;
  std::optional<PartWanted> wanted = {};
};

/// The notes of one voice on one staff of a part.
struct VoiceInfo {
  std::string voice;
  int staff = 1;
  std::size_t notes = 0;

  friend bool operator==(const VoiceInfo&, const VoiceInfo&) = default;
};

/// A part as a player looks for it. Notes are `<note>` elements with a pitch, cue notes left aside.
struct PartInfo {
  std::string id;
  std::string name;
  std::string abbreviation;
  std::string instrument;  ///< name of its first instrument, where it differs from the part's
  std::vector<std::string> sounds;
  std::size_t notes = 0;
  std::optional<Spelling> lowest;  ///< as they stand in the file
  std::optional<Spelling> highest;
  std::vector<std::string> clefs;  ///< sign and line, in the order they first appear
  int staves = 1;
  std::vector<VoiceInfo> voices;  ///< by number, then staff
  bool percussion = false;        ///< has notes without pitch
};

/// How well a part fits an instrument, by name and sound first, then range and clef: 0 not at all, else the more the
/// better.
[[nodiscard]] int part_fit(const PartInfo& part, const PartWanted& wanted);

/// Reads a file. Throws InputError (not XML, not MusicXML, truncated, no such part, a chord, ...) or FileError.
[[nodiscard]] Passage read_musicxml(const std::filesystem::path& file, const ScoreChoice& choice);
/// The same from text already in memory; `file` is only for messages.
[[nodiscard]] Passage parse_musicxml(std::string_view text, const std::string& file, const ScoreChoice& choice);
/// The parts of a score, in its order. Throws as parse_musicxml does where the text is no score.
[[nodiscard]] std::vector<PartInfo> list_parts(std::string_view text, const std::string& file);

}  // namespace fingerway
