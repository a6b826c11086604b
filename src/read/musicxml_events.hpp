// What this part answers: sounding notes (events) from the written notes of a line: ties joined, slurs followed,
// trills and tremolos given their second note.
// It reads no XML and counts no durations.
#pragma once

#include <vector>

#include "fingerway/music/passage.hpp"
#include "musicxml_findings.hpp"
#include "musicxml_line.hpp"
#include "musicxml_unroll.hpp"

namespace fingerway {

/// The events of a line, by onset and without overlap; what contradicts that is a fault.
[[nodiscard]] std::vector<NoteEvent> note_events(PlayedLine line, Ornaments ornaments, Findings& findings);

/// Wavy lines of a written line become trills: on the note they start on, and on those of other pitch under them.
void settle_wavy_lines(Line& line, Findings& findings);

}  // namespace fingerway
