// What this part answers: the pitch a <pitch> element names, and the notes beside one in a key.
// It knows nothing of time.
#pragma once

#include <optional>

#include "fingerway/music/pitch.hpp"
#include "musicxml_findings.hpp"

namespace pugi {
class xml_node;
}

namespace fingerway {

/// The pitch, to the semitone; what is no pitch is a fault.
[[nodiscard]] std::optional<Spelling> read_pitch(const pugi::xml_node& pitch, Findings& findings);

/// Alterations that a sign at the note or an accidental earlier in its measure gives the note beside it.
struct SideAlterations {
  std::optional<int> stated;      ///< by the sign of the ornament
  std::optional<int> in_measure;  ///< by a note of the same line or space before it

  friend bool operator==(const SideAlterations&, const SideAlterations&) = default;
};

/// The note a step above in the key: where a trill goes. Unless a sign says otherwise, a semitone or a tone up.
[[nodiscard]] Spelling note_above(const Spelling& main, int key_fifths, const SideAlterations& alterations);
/// The note a step below in the key.
[[nodiscard]] Spelling note_below(const Spelling& main, int key_fifths, const SideAlterations& alterations);

}  // namespace fingerway
