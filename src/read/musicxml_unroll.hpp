// What this part answers: a written line in the order in which it is played.
// It does not find that order (musicxml_order.hpp).
#pragma once

#include <vector>

#include "musicxml_line.hpp"
#include "musicxml_order.hpp"

namespace fingerway {

/// A line as it is played: its measures and notes stand as often as they are played.
struct PlayedLine {
  std::vector<Measure> measures;
  std::vector<bool> jumped;  ///< of each measure: it does not follow the one before as written
  std::vector<LineNote> notes;
  TempoMap tempo;
};

/// `tempos` are those of the line, or of another part of the score.
[[nodiscard]] PlayedLine played_line(Line written, const std::vector<LineTempo>& tempos,
                                     const std::vector<PlayedMeasure>& order);

/// The order of a line that is read as written.
[[nodiscard]] std::vector<PlayedMeasure> written_order(std::size_t measures);
/// How many notes each measure has.
[[nodiscard]] std::vector<std::size_t> notes_by_measure(const Line& line);

}  // namespace fingerway
