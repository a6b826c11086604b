// What this part answers: which habits of one's own instrument fail in a passage on a borrowed one, and what to use.
// It does not say what a conversion is worth (payoff).
#pragma once

#include <optional>
#include <vector>

#include "fingerway/decide/relearning.hpp"
#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// One fingering of the plan on the own instrument that does not give its note on the borrowed one.
struct FailingHabit {
  WrittenPitch pitch;
  Fingering habit;  ///< touches of the own instrument
  CarriedResult result = CarriedResult::no_note;
  std::vector<WrittenPitch> sounds;  ///< what answers instead
  TouchSet missing;                  ///< touches of the own instrument that the borrowed one has not got
  std::vector<std::size_t> notes;    ///< where the passage has it
  std::vector<Candidate> instead;    ///< what the plan on the borrowed instrument uses there; may be several
};

struct Borrowed {
  Plan own;                           ///< what the player is used to: the best plan on the own instrument
  Plan plan;                          ///< on the borrowed one, every habit that works kept
  std::vector<FailingHabit> failing;  ///< by first note
  std::size_t failing_notes = 0;      ///< notes with a failing habit
  std::size_t habits = 0;             ///< notes that have a fingering on the own instrument
};

/// Both instruments must share a family; touches are matched by name.
[[nodiscard]] Borrowed borrow(const Played& own, const Played& borrowed, const Passage& passage);

}  // namespace fingerway
