// What this part answers: why a moment of a plan is hard, and what is wrong with a note, in sentences.
// Private to report.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fingerway/plan/trills.hpp"
#include "fingerway/report/view.hpp"

namespace fingerway {

/// The finger whose move takes longest in an arrival, idle travel included; nothing when no finger moves.
[[nodiscard]] const FingerMove* deciding_move(const std::vector<FingerMove>& moves, const Arrival& arrival);
/// True when the whole hand gets there in the time there is.
[[nodiscard]] bool fits(const Arrival& arrival);
/// "needs 170 ms, 94 ms are there".
[[nodiscard]] std::string needs_words(const Arrival& arrival);
/// "bar 3, beat 2".
[[nodiscard]] std::string place_words(const Passage& passage, std::size_t note);
/// "E♭2 → D♭2: left little finger slides low E-flat → low D-flat under a slur; needs 170 ms, 94 ms are there".
[[nodiscard]] std::string change_words(const Played& played, const Passage& passage, const Plan& plan,
                                       std::size_t note);
/// The changes into notes by falling load, at most `most`; trills out of reach come first.
[[nodiscard]] std::vector<Moment> hardest_moments(const Played& played, const Passage& passage, const Plan& plan,
                                                  std::size_t most);
/// Everything that is wrong with a note.
[[nodiscard]] std::vector<std::string> warnings_of(const Played& played, const Passage& passage, const Plan& plan,
                                                   std::size_t note);
/// What the plan takes on trust: places, assumed numbers, doubtful lines, a tempo nobody wrote.
[[nodiscard]] std::vector<std::string> assumptions(const Played& played, const Passage& passage, const Plan& plan);

}  // namespace fingerway
