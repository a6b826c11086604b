// What this part answers: what the marks of one <direction> or <sound> say of tempo and loudness.
// Jumps and repeats are musicxml_order.hpp's.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fingerway/music/passage.hpp"
#include "musicxml_findings.hpp"

namespace pugi {
class xml_node;
}

namespace fingerway {

/// A tempo as it is written: in quarters a minute, or as a multiple of the tempo before (metric modulation).
struct TempoMark {
  Qpm tempo;
  TempoSource source = TempoSource::sound_element;
  std::optional<double> factor;
};

/// One end of a hairpin.
struct Wedge {
  enum class Kind : std::uint8_t { crescendo, diminuendo, stop } kind = Kind::stop;
  int number = 1;
};

/// Tempo marks and dynamics of one <direction>.
struct DirectionMarks {
  std::optional<Dynamic> dynamic;
  std::optional<TempoMark> tempo;
  std::vector<Wedge> wedges;
  std::string tempo_words;
};
[[nodiscard]] DirectionMarks direction_marks(const pugi::xml_node& direction, Findings& findings);

/// The tempo of a <sound> element, if it states one.
[[nodiscard]] std::optional<Qpm> sound_tempo(const pugi::xml_node& sound, Findings& findings);

/// The loudness a <dynamics> element leaves in force.
[[nodiscard]] std::optional<Dynamic> dynamic_of(const pugi::xml_node& dynamics);
/// Quarter notes in a note value ("eighth"); nothing for a word that names none.
[[nodiscard]] std::optional<ScoreTime> note_value(std::string_view word);

}  // namespace fingerway
