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
/// Where the passage is broken into lines, and the scale they share.
struct Systems {
  double units_per_ms = 0.1;
  std::vector<Span> spans;
};
/// Systems no longer than `width`: whole bars where they fit, else whole beats. The shortest usual note is about
/// `note_width` long.
[[nodiscard]] Systems pack(const Passage& passage, const std::vector<Span>& notes, double width, double note_width);
/// Bar lines and beats within a system.
[[nodiscard]] std::vector<LaneBeat> beats_within(const Passage& passage, const Span& system);

}  // namespace fingerway
