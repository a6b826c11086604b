// What this part answers: divisions, key, time signature and transposition in force, from <attributes> elements.
// It does not know where in the part they stand.
#pragma once

#include <optional>

#include "fingerway/music/passage.hpp"
#include "musicxml_findings.hpp"

namespace pugi {
class xml_node;
}

namespace fingerway {

/// What holds for a staff until the next <attributes>.
struct Attributes {
  std::optional<ScoreTime> divisions;  ///< duration units to a quarter note
  int key_fifths = 0;
  int beats = 4;
  int beat_type = 4;
  std::optional<Transposition> transposition;
  std::optional<Transposition> transposed_part;  ///< what <for-part> says of a score at concert pitch
};

/// Reads one <attributes> element into what holds; `staff` says which of several staves counts.
void read_attributes(const pugi::xml_node& node, int staff, Attributes& attributes, Findings& findings);

/// The length the time signature gives a measure.
[[nodiscard]] ScoreTime full_measure(const Attributes& attributes);

}  // namespace fingerway
