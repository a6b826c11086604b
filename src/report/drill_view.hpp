// What this part answers: practice material in words; its score and its text say the same.
// Private to report.
#pragma once

#include <string>
#include <vector>

#include "fingerway/decide/drill.hpp"
#include "passage_score.hpp"

namespace fingerway {

/// "1. D♭2 – E♭2: step by step, ...": without words that programs take for a tempo.
[[nodiscard]] std::string stretch_words(const Drill& drill, const DrillStretch& stretch);
/// "steps", "long-short", "short-long", "added".
[[nodiscard]] std::string_view stretch_id(DrillKind kind);
/// "bars 1 to 8".
[[nodiscard]] std::string stretch_bars(const DrillStretch& stretch);
/// The two notes of an exercise: "D♭2 – E♭2".
[[nodiscard]] std::string exercise_notes(const Drill& drill, std::size_t exercise);
/// Why the top tempo is what it is.
[[nodiscard]] std::string target_words(const Exercise& exercise);

}  // namespace fingerway
