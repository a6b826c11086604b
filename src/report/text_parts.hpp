// What this part answers: the pieces that several text reports share: head, labelled lines, foot.
// Private to report.
#pragma once

#include <string>
#include <vector>

#include "compare_view.hpp"
#include "fingerway/report/view.hpp"

namespace fingerway {

/// Lines "label   text", labels padded to one width.
[[nodiscard]] std::string labelled_lines(const std::vector<Labelled>& lines);
/// A heading and one bullet an item; nothing when there are no items.
[[nodiscard]] std::string bullets(const std::string& title, const std::vector<std::string>& items);
/// The cautions, under their heading.
[[nodiscard]] std::string foot();
/// Gained or lost fingerings under a heading, by note; "none" when there are none.
[[nodiscard]] std::string changed_text(const std::string& title, const std::vector<ChangedNote>& notes);
/// How to read the short fingerings.
[[nodiscard]] std::string compact_key();
/// What kind of instrument and player: for reports without a passage.
[[nodiscard]] std::vector<Labelled> instrument_lines(const Played& played);
/// A place in the passage with its note: "bar 3, beat 2, E♭2".
[[nodiscard]] std::string where_words(const NoteView& note);

}  // namespace fingerway
