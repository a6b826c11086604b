// What this part answers: how time, awkwardness and tone are weighed against each other for the choice.
// It is the only place where they meet; what is reported is never weighed.
#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include "fingerway/music/passage.hpp"
#include "fingerway/plan/played.hpp"
#include "fingerway/search/layers.hpp"

namespace fingerway {

/// What a fingering costs by itself, each in points.
enum class NoteTerm : std::uint8_t { standing, traits, dynamic, doubtful, spare, shading, strain, rest, habit };
inline constexpr std::size_t note_term_count = 9;
[[nodiscard]] std::string_view words(NoteTerm term);

struct NoteCost {
  std::array<double, note_term_count> terms{};

  [[nodiscard]] Points total() const;
};

/// A note's demands on its fingering.
struct NoteContext {
  Ms length{0};
  Dynamic dynamic = Dynamic::unmarked;
  bool trilled = false;                     ///< trill-only fingerings are at home here
  std::optional<WrittenPitch> after = {};   ///< the note right before, for habits of a pair
  std::optional<WrittenPitch> before = {};  ///< the note right after

  friend auto operator<=>(const NoteContext&, const NoteContext&) = default;
};

/// What it costs to play a note with a candidate, wherever idle fingers are.
[[nodiscard]] NoteCost note_cost(const Played& played, const Candidate& candidate, const NoteContext& context);

/// What a change costs the choice, each in points; they sum to its weight.
enum class StepTerm : std::uint8_t { effort, tightness, overload, gap, passing };
inline constexpr std::size_t step_term_count = 5;
[[nodiscard]] std::string_view words(StepTerm term);

struct StepCost {
  std::array<double, step_term_count> terms{};

  [[nodiscard]] Points total() const;
};

/// `passing` is the expected distance of wrong notes passed, in semitones (passing.hpp).
[[nodiscard]] StepCost step_cost(const MotionNumbers& numbers, const Step& step, const StepContext& context,
                                 double passing);

/// Points for using up the time there is, and for needing more than there is; for changes and for trills.
[[nodiscard]] inline double tightness(const MotionNumbers& numbers, double load) {
  const double share = std::min(load, 1.0);
  return numbers.tightness_points.value * share * share;
}
[[nodiscard]] inline double overload(const MotionNumbers& numbers, double load) {
  return load > 1.0 ? numbers.misfit_points.value + numbers.overload_points.value * (load - 1.0) : 0.0;
}
/// How much of its awkwardness a change costs. One that has a second to happen in is hardly felt; at the limit it is.
[[nodiscard]] inline double haste(const MotionNumbers& numbers, double load) {
  return numbers.effort_floor.value + std::min(load, 1.5);
}

/// Points as the search counts them: micro-points, rounded, so that ties are exact.
/// To the nearest integer, halves away from zero; much faster than the library's, which the search would feel.
[[nodiscard]] inline Weight weight(Points points) {
  const double micro = points.value() * 1e6;
  return static_cast<Weight>(micro + (micro < 0.0 ? -0.5 : 0.5));
}
/// The weight of a change. Passing notes are rounded apart from the rest, so that they can be added when they matter.
[[nodiscard]] Weight weight(const StepCost& cost);
/// A load as the search counts it: millionths, rounded.
[[nodiscard]] Load load_units(double load);

}  // namespace fingerway
