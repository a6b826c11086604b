// What this part answers: sounding notes (events) from the written notes of a line: ties joined, slurs followed,
// trills and tremolos given their second note.
// It reads no XML and counts no durations.
#pragma once

#include <vector>

#include "fingerway/music/passage.hpp"
#include "musicxml_findings.hpp"
#include "musicxml_line.hpp"

namespace fingerway {

/// The events of a line, by onset and without overlap; what contradicts that is a fault.
[[nodiscard]] std::vector<NoteEvent> note_events(Line line, Findings& findings);

/// The note above that a trill goes to: the next step in the key, or with the alteration a sign states.
[[nodiscard]] Spelling trill_neighbour(const Spelling& main, int key_fifths, std::optional<int> stated_alter);

}  // namespace fingerway
