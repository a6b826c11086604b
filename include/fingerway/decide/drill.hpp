// What this part answers: practice material for the changes that decide how fast a passage goes, as a passage of its
// own. It writes no score and no words (report/drill.hpp).
#pragma once

#include <cstdint>
#include <vector>

#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// What a stretch of bars practises: the change back and forth, faster step by step; the same in rhythms that make one
/// of the two changes quick; the change within its surroundings, a note more each time.
enum class DrillKind : std::uint8_t { steps, long_short, short_long, added };

/// Bars of one kind at one tempo.
struct DrillStretch {
  DrillKind kind = DrillKind::steps;
  std::size_t exercise = 0;
  std::size_t first_bar = 0;  ///< index into the drill's measures
  std::size_t bars = 0;
  Qpm tempo;
};

/// One change of the passage that is practised. Eighths stand for its notes, whatever they are in the passage.
struct Exercise {
  std::size_t note = 0;  ///< of the passage: the second note of the change
  Qpm target;            ///< quarters a minute at which an eighth is as long as the passage's own note
  Qpm limit;             ///< the fastest both ways, as predicted
  Qpm top;               ///< the fastest asked for: the target, or the limit where that is less
  [[nodiscard]] bool reaches_target() const { return limit >= target; }
};

struct Drill {
  Passage passage;                  ///< the exercises one after another, in 4/4
  Plan plan;                        ///< its fingerings: those of the passage's plan
  std::vector<std::size_t> source;  ///< for each note of it the note of the passage
  std::vector<Exercise> exercises;  ///< the hardest change first
  std::vector<DrillStretch> stretches;
};

/// Exercises for at most `hardest` changes, those with the largest load first, each pair of fingerings once. Empty
/// where no finger has to move. `plan` is a plan of `passage`.
[[nodiscard]] Drill drill(const Played& played, const Passage& passage, const Plan& plan, std::size_t hardest);

}  // namespace fingerway
