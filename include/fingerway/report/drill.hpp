// What this part answers: practice material as a MusicXML score of our own making, as text and as JSON.
// It decides nothing (decide/drill.hpp) and writes no files.
#pragma once

#include <string>

#include "fingerway/decide/drill.hpp"

namespace fingerway {

/// MusicXML 4.0, partwise, for the instrument: tempo marks, what to do in words, the caution on strain, and fingering
/// marks as `plan` writes them where an exercise begins.
[[nodiscard]] std::string drill_score(const Played& played, const Drill& drill);

/// Each change with its tempos. `passage` and `plan` are what the drill was made from.
[[nodiscard]] std::string drill_text(const Played& played, const Passage& passage, const Plan& plan,
                                     const Drill& drill);

/// Format "fingerway/drill".
[[nodiscard]] std::string drill_json(const Played& played, const Passage& passage, const Plan& plan,
                                     const Drill& drill);

}  // namespace fingerway
