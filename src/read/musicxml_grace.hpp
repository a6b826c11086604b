// What this part answers: how long grace notes last and whom they take the time from.
// It reads no XML.
#pragma once

#include <vector>

#include "musicxml_findings.hpp"
#include "musicxml_line.hpp"

namespace fingerway {

/// Gives every grace note of a line time, taken from a neighbour; `notes` are by onset and stay so.
///
/// Each takes a sixteenth note (common practice at middling tempi; no notation says it) or, without a slash, its own
/// note value; a group takes at most half of its neighbour. The neighbour is the note the group leads to: grace notes
/// start on the beat and that note starts later. It is the note before, at its end, where the file says so
/// (steal-time-previous), where the group closes a measure, and where no note follows at once.
void give_grace_notes_time(std::vector<LineNote>& notes, const std::vector<Measure>& measures, Findings& findings);

}  // namespace fingerway
