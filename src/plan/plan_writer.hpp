// What this part answers: a plan read off a path, note by note. Private to plan.
#pragma once

#include "fingerway/plan/plan.hpp"

namespace fingerway {

class PlanWriter {
 public:
  PlanWriter(const Played& played, const Passage& passage);

  /// The next note, played so; `own` is what the node weighs.
  void add(const NoteLayer& layer, const Node& node, Weight own);
  [[nodiscard]] Plan done(std::optional<Load> least_limit);

 private:
  /// What the last note leaves behind.
  struct Last {
    WrittenPitch pitch;
    Fingering fingering;
    Posture posture;
  };

  [[nodiscard]] Arrival arrival(const Last& last, const NoteLayer& layer, const Node& node);
  void arrive(const Arrival& arrival);

  const Played& played_;
  const Passage& passage_;
  PassingNotes passing_;
  std::optional<Last> last_;  ///< nothing: the last note has no fingering, or there is none
  double limit_ = 0.0;
  Plan plan_;
};

/// The fastest starting tempo for a limiting load in search units; nothing where nothing limits.
[[nodiscard]] std::optional<Qpm> ceiling_for(const Passage& passage, std::optional<Load> limit);

}  // namespace fingerway
