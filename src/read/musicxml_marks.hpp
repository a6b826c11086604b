// What this part answers: what the notations of one <note> and the marks of one <direction> say.
// It does not join notes; musicxml_events.hpp does.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "fingerway/music/passage.hpp"
#include "musicxml_findings.hpp"

namespace pugi {
class xml_node;
}

namespace fingerway {

/// The part of a tremolo between two notes that a note takes.
enum class TremoloRole : std::uint8_t { none, first, second };

/// Written signs of one <note>.
struct NoteMarks {
  Signs signs;
  bool separated = false;  ///< tongued even under a slur
  bool trill = false;
  std::optional<int> trill_alter;  ///< alteration of the upper note where a sign states it
  TremoloRole tremolo = TremoloRole::none;
  std::optional<Dynamic> dynamic;
  bool tied_onward = false;
  bool tied_from_before = false;
  std::uint32_t slur_starts = 0;  ///< bit n: a slur numbered n starts here
  std::uint32_t slur_stops = 0;
};

/// Reads all <notations> of a note; what is not understood is remarked or, where it is no MusicXML, a fault.
[[nodiscard]] NoteMarks note_marks(const pugi::xml_node& note, Findings& findings);

/// Tempo marks and dynamics of one <direction>, in order.
struct DirectionMarks {
  struct Tempo {
    Qpm tempo;
    TempoSource source = TempoSource::sound_element;
  };
  std::optional<Dynamic> dynamic;
  std::optional<Tempo> tempo;
};
[[nodiscard]] DirectionMarks direction_marks(const pugi::xml_node& direction, Findings& findings);

/// The tempo of a <sound> element, if it states one.
[[nodiscard]] std::optional<Qpm> sound_tempo(const pugi::xml_node& sound, Findings& findings);

}  // namespace fingerway
