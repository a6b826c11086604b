// What this part answers: a passage as a new MusicXML score, with words over its bars.
// Private to report. It knows no fingerings; marks are laid over its text afterwards (marks.hpp).
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "fingerway/music/passage.hpp"

namespace fingerway {

/// Words above the start of a bar.
struct BarWords {
  std::size_t measure = 0;  ///< index into Passage::measures
  std::string text;
};

struct PassageScore {
  std::string text;
  std::vector<std::uint32_t> elements;  ///< for each note of the passage its <note>, counted from 0, rests included
};

/// Notes must be plain, lie within their bars and be as long as one note sign, dotted or not; gaps become rests. Tempo
/// changes are written where they fall on the start of a bar.
[[nodiscard]] PassageScore passage_score(const Passage& passage, const std::vector<BarWords>& words);

}  // namespace fingerway
