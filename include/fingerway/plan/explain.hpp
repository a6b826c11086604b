// What this part answers: what each choice at one note would cost, consequences included, and why.
// It does not decide anything.
#pragma once

#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// One fingering that could be played at the note.
struct Option {
  PlannedNote here;                    ///< with its arrival, along the best plan that uses it
  Shared<Arrival> leave;               ///< the change to the next note
  Points dearer{0};                    ///< what the whole passage costs more with it than at best
  std::vector<std::size_t> elsewhere;  ///< notes that would be fingered otherwise too
  std::size_t around_first = 0;        ///< the notes nearby along that plan, from this one on, to be drawn
  std::vector<PlannedNote> around;
};

struct Explanation {
  std::size_t note = 0;
  std::vector<Option> options;  ///< best first; the first is the plan's own
};

/// The choices at one note, at most `most` of them.
[[nodiscard]] Explanation explain_note(const Played& played, const Passage& passage, const Choices& choices,
                                       std::size_t note, std::size_t most);

}  // namespace fingerway
