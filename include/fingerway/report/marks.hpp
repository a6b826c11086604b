// What this part answers: a MusicXML text with fingering marks added at given notes, all else byte for byte as it was.
// It does not choose which notes get a mark.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fingerway/music/passage.hpp"

namespace fingerway {

/// One mark: the note element it belongs to (NotePlace::element) and what the player reads.
struct ScoreMark {
  std::uint32_t element = 0;
  std::string text;
};

/// Returns `score_text` with a `<technical><fingering>` for each mark, in the part named by id. Nothing else changes.
/// Throws InputError when the text is not the score the marks were made for.
[[nodiscard]] std::string with_marks(std::string_view score_text, const std::string& part_id,
                                     const std::vector<ScoreMark>& marks);

}  // namespace fingerway
