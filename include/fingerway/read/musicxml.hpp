// What this part answers: one voice of one part of a MusicXML file as a passage.
// It does not decide fingerings and does not know instruments. Version 4.0 score-partwise, uncompressed.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "fingerway/music/passage.hpp"

namespace fingerway {

/// Which line to read.
struct ScoreChoice {
  std::string part;   ///< part id or name; empty: the only part, or a fault that lists them
  std::string voice;  ///< empty: the voice of the part's first note
};

/// Reads a file. Throws InputError (not XML, not MusicXML, truncated, no such part, a chord, ...) or FileError.
[[nodiscard]] Passage read_musicxml(const std::filesystem::path& file, const ScoreChoice& choice);
/// The same from text already in memory; `file` is only for messages.
[[nodiscard]] Passage parse_musicxml(std::string_view text, const std::string& file, const ScoreChoice& choice);

}  // namespace fingerway
