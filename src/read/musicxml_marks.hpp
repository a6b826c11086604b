// What this part answers: what the notations of one <note> say.
// It does not join notes; musicxml_events.hpp does.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "fingerway/music/passage.hpp"
#include "musicxml_findings.hpp"

namespace pugi {
class xml_node;
}

namespace fingerway {

/// The part of a tremolo between two notes that a note takes.
enum class TremoloRole : std::uint8_t { none, first, second };

/// Ornaments that are spelled out as notes of their own. A mordent goes down, a short trill up and back.
enum class Ornament : std::uint8_t {
  none,
  mordent,
  short_trill,
  turn,
  inverted_turn,
  delayed_turn,
  delayed_inverted_turn,
  slide
};

/// Written signs of one <note>.
struct NoteMarks {
  Signs signs;
  bool separated = false;  ///< tongued even under a slur
  bool trill = false;
  bool wavy_line_starts = false;
  bool wavy_line_stops = false;
  Ornament ornament = Ornament::none;
  std::optional<int> alter_above;  ///< alteration of an ornament's upper note where a sign states it
  std::optional<int> alter_below;  ///< and of its lower note
  TremoloRole tremolo = TremoloRole::none;
  std::optional<Dynamic> dynamic;
  bool tied_onward = false;
  bool tied_from_before = false;
  std::uint32_t slur_starts = 0;  ///< bit n: a slur numbered n starts here
  std::uint32_t slur_stops = 0;
  std::vector<std::string> marked;  ///< fingerings
};

/// Reads all <notations> of a note; what is not understood is remarked or, where it is no MusicXML, a fault.
[[nodiscard]] NoteMarks note_marks(const pugi::xml_node& note, Findings& findings);

}  // namespace fingerway
