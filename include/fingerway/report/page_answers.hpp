// What this part answers: what the served page is told of plans, choices at a note and trills, as JSON on one line
// (src/app/serve/README.md names every field). It decides nothing; lanes are in lane_pictures.hpp.
#pragma once

#include <string>
#include <vector>

#include "fingerway/decide/compare.hpp"
#include "fingerway/plan/explain.hpp"
#include "fingerway/plan/plan.hpp"
#include "fingerway/plan/trills.hpp"

namespace fingerway {

/// One instrument's plan with the choices it was made under.
struct AnswerSide {
  const Played& played;
  const Plan& plan;
  const Choices& choices;
};

/// A passage planned on one instrument, or on two with their comparison. `token` is what the page calls it by.
[[nodiscard]] std::string plan_answer(const std::string& token, const Passage& passage,
                                      const std::vector<AnswerSide>& sides, const Comparison* comparison);

/// The choices at one note; `pictures` are their lanes, one an option, or none.
[[nodiscard]] std::string note_answer(const AnswerSide& side, const Passage& passage, const Explanation& explanation,
                                      const std::vector<std::string>& pictures);

/// All trills of an instrument for a board.
[[nodiscard]] std::string trills_answer(const Played& played, const std::vector<Trill>& trills);
/// One of them in words; `picture` are its lanes.
[[nodiscard]] std::string trill_answer(const Played& played, const Trill& trill, const std::string& picture);

/// {"choices": {pins, bans, holds}} with touches by full name and notes by number.
[[nodiscard]] std::string choices_answer(const Instrument& instrument, const Choices& choices);
/// The same as a choices file (YAML), places by bar and beat.
[[nodiscard]] std::string choices_text(const Played& played, const Passage& passage, const Choices& choices);

/// The notes whose changes are hardest, hardest first, as lanes number them.
[[nodiscard]] std::vector<std::size_t> hardest_notes(const Played& played, const Passage& passage, const Plan& plan);
/// The notes on which the two plans part.
[[nodiscard]] std::vector<std::size_t> differing_notes(const Comparison& comparison);

}  // namespace fingerway
