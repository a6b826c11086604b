// What this part answers: which notes of a line lie under a slur.
// It reads no XML and does not know how notes are tongued.
#pragma once

#include <vector>

#include "musicxml_findings.hpp"
#include "musicxml_line.hpp"

namespace fingerway {

/// Slurs that start or end in another voice: their end here is moved to the note of this line that is nearest to the
/// other end, inside the slur.
void join_slurs_across_voices(Line& line);

/// For each note, whether a slur leads into it. A slur that never ends leads nowhere and is remarked; one that is open
/// where play jumps away (`jumped`: measures that do not follow the one before) ends at the last note before.
[[nodiscard]] std::vector<bool> slurred_into(const std::vector<LineNote>& notes, const std::vector<Measure>& measures,
                                             const std::vector<bool>& jumped, Findings& findings);

}  // namespace fingerway
