// What this part answers: which notes of a line lie under a slur.
// It reads no XML and does not know how notes are tongued.
#pragma once

#include <vector>

#include "musicxml_findings.hpp"
#include "musicxml_line.hpp"

namespace fingerway {

/// For each note, whether a slur leads into it. A slur that never ends leads nowhere and is remarked.
[[nodiscard]] std::vector<bool> slurred_into(const std::vector<LineNote>& notes, const std::vector<Measure>& measures,
                                             Findings& findings);

}  // namespace fingerway
