// What this part answers: which moment of the clock a moment of the score falls on.
// It does not read tempo marks; readers hand it a list of changes.
#pragma once

#include <vector>

#include "fingerway/base/quantities.hpp"
#include "fingerway/music/score_time.hpp"

namespace fingerway {

/// Where a tempo comes from; an assumed one is said to be assumed in every report.
enum class TempoSource { metronome_mark, sound_element, request, assumed };

/// From `at` on, `tempo` quarter notes a minute.
struct TempoChange {
  ScoreTime at;
  Qpm tempo{100.0};
  TempoSource source = TempoSource::assumed;

  friend bool operator==(const TempoChange&, const TempoChange&) = default;
};

/// Piecewise constant tempo. Never empty: before the first change its tempo holds.
class TempoMap {
 public:
  /// One assumed tempo of 100 quarter notes a minute.
  TempoMap();
  /// Changes in any order; of several at one moment the last given wins. Tempos must be positive.
  explicit TempoMap(std::vector<TempoChange> changes);

  [[nodiscard]] const std::vector<TempoChange>& changes() const { return changes_; }
  /// Clock time of a score moment, from score time 0.
  [[nodiscard]] Ms at(ScoreTime time) const;
  /// Clock time from one score moment to a later one. Equal stretches at one tempo last equally long to the last bit,
  /// wherever they are, so that what is worked out for one serves for all.
  [[nodiscard]] Ms between(ScoreTime from, ScoreTime to) const;
  [[nodiscard]] Qpm tempo_at(ScoreTime time) const;
  /// The same map with every tempo multiplied, so that the first is `first`; sources become `request`.
  [[nodiscard]] TempoMap starting_at(Qpm first) const;

 private:
  std::vector<TempoChange> changes_;
  std::vector<Ms> clock_;
};

}  // namespace fingerway
