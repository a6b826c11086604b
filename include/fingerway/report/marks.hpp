// What this part answers: a MusicXML text with fingering marks added at given notes, all else byte for byte as it was;
// and the same text without them again. It does not choose which notes get a mark, and reads no files.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "fingerway/music/passage.hpp"

namespace fingerway {

/// One mark: the note element it belongs to (NotePlace::element) and what the player reads.
struct ScoreMark {
  std::uint32_t element = 0;
  std::string text;
  std::string full = {};  ///< every touch by full name, for programs; engravers do not draw it
};

/// Returns `score_text` (UTF-8, partwise or timewise) with a `<technical><fingering>` for each mark, in the part named
/// by id, after taking earlier marks of ours off that part. Marks of one note are joined, equal ones written once.
/// Throws InputError when the text is not the score the marks were made for.
[[nodiscard]] std::string with_marks(std::string_view score_text, const std::string& part_id,
                                     const std::vector<ScoreMark>& marks);

/// The score without any mark of ours, in all parts: byte for byte the text they were added to. Where a program has
/// written more into an element we had added, the element stays and only the mark goes. Throws InputError as above.
[[nodiscard]] std::string without_marks(std::string_view score_text);

/// A mark as it is written into scores: digits lowered (R4 -> R₄), blanks unbreakable, "+", "-", "/", "~", "," and "&"
/// as their typographic twins. A mark of digits only stays. Such marks are drawn by every engraver tried.
[[nodiscard]] std::string engraved_text(std::string_view mark);
/// The mark that was written so, in plain letters.
[[nodiscard]] std::string plain_text(std::string_view engraved);

}  // namespace fingerway
