// What this part answers: the best fingerings for a passage on one instrument, and what they cost in time and effort.
// It compares nothing (decide) and prints nothing (report).
#pragma once

#include <optional>
#include <vector>

#include "fingerway/base/shared.hpp"
#include "fingerway/plan/passage_graph.hpp"
#include "fingerway/search/paths.hpp"

namespace fingerway {

enum class Objective { least_awkward, smoothest };

struct PlanRequest {
  Objective objective = Objective::least_awkward;
  std::size_t alternatives = 1;  ///< how many different plans to give, the best first
  Choices choices;
};

/// How the hand gets to a note.
struct Arrival {
  StepContext context;
  Step step;
  StepCost cost;
  Posture from, to;                  ///< of the hand, before and after: moves_into() tells the moves
  std::vector<PassingNote> passing;  ///< under a slur

  [[nodiscard]] double load() const { return step.load(context.available); }
};

/// Small, so that long parts fit: what recurs through a plan is shared.
struct PlannedNote {
  Shared<Candidate> candidate;         ///< nothing: no fingering for this note on this instrument
  Shared<Candidate> other;             ///< the second fingering of a trill or tremolo
  std::optional<NotesPerSecond> rate;  ///< of the trill or tremolo
  Posture posture;
  NoteCost cost;
  std::size_t choices = 0;
  Shared<Arrival> arrive;  ///< nothing on the first note
};

struct PlanSummary {
  bool complete = true;   ///< every note has a fingering
  bool fits = true;       ///< every change fits its time, and every trill can be played
  Points awkwardness{0};  ///< sum over all changes
  double worst_load = 0.0;
  std::optional<std::size_t> worst_note;  ///< the note whose arrival has that load
  std::optional<Qpm> ceiling;       ///< the fastest starting tempo at which this plan fits; nothing: nothing limits
  std::optional<Qpm> best_ceiling;  ///< the fastest with any fingering
  Weight weight = 0;
};

struct Plan {
  std::vector<PlannedNote> notes;  ///< one for each note of the passage
  PlanSummary summary;
};

/// The fingers that do something on the way to a note, in order LT, L1 ... R4.
[[nodiscard]] std::vector<FingerMove> moves_into(const Played& played, const Arrival& arrival);

/// The best plan and, if asked, the next best ones that differ in some fingering. Never empty.
[[nodiscard]] std::vector<Plan> plan_passage(const Played& played, const Passage& passage, const PlanRequest& request);

/// A plan along one path of a graph.
[[nodiscard]] Plan plan_along(const Played& played, const Passage& passage, const PassageGraph& graph,
                              const std::vector<std::uint32_t>& path);

}  // namespace fingerway
