// What this part answers: when each note of a passage starts and ends, and where the lanes may be broken into systems.
// Private to report.
#pragma once

#include <vector>

#include "fingerway/music/passage.hpp"
#include "fingerway/report/lanes.hpp"

namespace fingerway {

struct Span {
  Ms start{0};
  Ms end{0};

  [[nodiscard]] Ms length() const { return end - start; }
  /// True when a moment falls into it; its end belongs to the next one.
  [[nodiscard]] bool holds(Ms moment) const { return start <= moment && moment < end; }
};

/// From each note's start to the next one's; the last note to its own end.
[[nodiscard]] std::vector<Span> note_spans(const Passage& passage);
/// How many units a millisecond gets so that the shortest usual note is `note_width` long.
[[nodiscard]] double scale_for(const std::vector<Span>& notes, double width, double note_width);
/// Systems no longer than `longest`: whole bars where they fit, else whole beats.
[[nodiscard]] std::vector<Span> system_spans(const Passage& passage, const std::vector<Span>& notes, Ms longest);
/// Bar lines and beats within a system.
[[nodiscard]] std::vector<LaneBeat> beats_within(const Passage& passage, const Span& system);

}  // namespace fingerway
