// What this part answers: a plan read off a path, note by note. Private to plan.
#pragma once

#include <map>
#include <unordered_map>
#include <utility>

#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// The fingerings a note is played with; null where there is none.
struct Fingered {
  WrittenPitch pitch;
  std::optional<WrittenPitch> other;  ///< of a trill or tremolo
  const Candidate* candidate = nullptr;
  const Candidate* second = nullptr;
};

class PlanWriter {
 public:
  PlanWriter(const Played& played, const Passage& passage);

  /// The next note, played so; `own` is what the node weighs.
  void add(const Fingered& fingered, const Node& node, Weight own);
  [[nodiscard]] Plan done(std::optional<Load> least_limit);

 private:
  /// What the last note leaves behind.
  struct Last {
    WrittenPitch pitch;
    Shared<Candidate> candidate;
    Posture posture;
  };
  /// All that an arrival depends on; candidates, which recur with their notes, by where they are kept.
  struct Change {
    StepContext context;
    const Candidate* from = nullptr;
    const Candidate* to = nullptr;
    Posture before, after;

    friend bool operator==(const Change&, const Change&) = default;
  };
  struct ChangeHash {
    std::size_t operator()(const Change& change) const;
  };
  /// An arrival with what it adds to the plan's sums.
  struct Arrived {
    Shared<Arrival> arrival;
    Weight weight = 0;
    double limit = 0.0;
  };

  [[nodiscard]] Shared<Candidate> kept(WrittenPitch pitch, const Candidate* candidate);
  [[nodiscard]] Arrived worked_out(const Last& last, const Change& change, WrittenPitch pitch);
  void arrive(const Last& last, WrittenPitch pitch, const Posture& posture);

  const Played& played_;
  const Passage& passage_;
  PassingNotes passing_;
  std::map<std::pair<WrittenPitch, Fingering>, Shared<Candidate>> candidates_;
  std::unordered_map<Change, Arrived, ChangeHash> arrivals_;
  std::optional<Last> last_;  ///< nothing: the last note has no fingering, or there is none
  double limit_ = 0.0;
  Plan plan_;
};

/// The fastest starting tempo for a limiting load in search units; nothing where nothing limits.
[[nodiscard]] std::optional<Qpm> ceiling_for(const Passage& passage, std::optional<Load> limit);

}  // namespace fingerway
