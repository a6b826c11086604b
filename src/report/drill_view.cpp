#include "drill_view.hpp"

#include <cmath>

#include "words.hpp"

namespace fingerway {
namespace {

std::string tempo_words(Qpm tempo) { return rounded(std::floor(tempo.value() + 1e-9), 0); }

std::string kind_words(DrillKind kind) {
  switch (kind) {
    case DrillKind::steps:
      return "step by step, on only when it is even";
    case DrillKind::long_short:
      return "long, short: the way back quick";
    case DrillKind::short_long:
      return "short, long: the way there quick";
    case DrillKind::added:
      break;
  }
  return "a note more each time, with the rests";
}

}  // namespace

std::string_view stretch_id(DrillKind kind) {
  switch (kind) {
    case DrillKind::steps:
      return "steps";
    case DrillKind::long_short:
      return "long-short";
    case DrillKind::short_long:
      return "short-long";
    case DrillKind::added:
      break;
  }
  return "added";
}

std::string exercise_notes(const Drill& drill, std::size_t exercise) {
  for (const DrillStretch& stretch : drill.stretches) {
    if (stretch.exercise != exercise) continue;
    for (std::size_t n = 0; n + 1 < drill.passage.notes.size(); ++n) {
      if (drill.passage.notes[n].place.measure != stretch.first_bar) continue;
      return display_name(drill.passage.notes[n].spelling) + " – " + display_name(drill.passage.notes[n + 1].spelling);
    }
  }
  return {};
}

std::string stretch_words(const Drill& drill, const DrillStretch& stretch) {
  return std::to_string(stretch.exercise + 1) + ". " + exercise_notes(drill, stretch.exercise) + ": " +
         kind_words(stretch.kind);
}

std::string stretch_bars(const DrillStretch& stretch) {
  const std::string first = std::to_string(stretch.first_bar + 1);
  return stretch.bars == 1 ? "bar " + first
                           : "bars " + first + " to " + std::to_string(stretch.first_bar + stretch.bars);
}

std::string target_words(const Exercise& exercise) {
  const std::string target = tempo_words(exercise.target);
  const std::string limit = tempo_words(exercise.limit);
  if (exercise.reaches_target()) {
    return "Target: eighths at quarter = " + target + ", as fast as in the passage; predicted to go up to " + limit;
  }
  return "The passage asks for eighths at quarter = " + target + "; the exercise stops at " + limit +
         ", the fastest predicted there and back: beyond it lies strain, not practice";
}

}  // namespace fingerway
