// What this part answers: the notes that an ornament sign stands for.
// Trills and tremolos are no such ornaments: they stay one event each.
#pragma once

#include <cstddef>
#include <vector>

#include "musicxml_line.hpp"

namespace fingerway {

/// An event with an ornament, and the note that has the sign.
struct Ornamented {
  std::size_t event = 0;
  const LineNote* note = nullptr;
};

/// The events with their ornaments spelled out the way the trade plays them (common practice), on the beat and slurred:
/// mordent: note, note below, note; short trill: note, note above, note; turn: above, note, below, note; delayed turn:
/// the same at the end of the note; slide: up to the note from a third below. Each added note takes a 32nd, at most a
/// quarter of the note (a delayed turn an eighth of it). What was assumed is remarked, with how often.
[[nodiscard]] std::vector<NoteEvent> spell_out(std::vector<NoteEvent> events, const std::vector<Ornamented>& ornamented,
                                               Ornaments choice, Findings& findings);

/// The notes beside the main one that an ornament or trill uses.
[[nodiscard]] Spelling upper_note(const LineNote& note);
[[nodiscard]] Spelling lower_note(const LineNote& note);

}  // namespace fingerway
