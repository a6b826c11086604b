// What this part answers: every report as plain text for people at a terminal, at most 100 columns wide.
// It computes nothing; rounding and words come from view.hpp and are the same on the page.
#pragma once

#include <string>
#include <vector>

#include "fingerway/decide/compare.hpp"
#include "fingerway/decide/trill_changes.hpp"
#include "fingerway/plan/explain.hpp"
#include "fingerway/plan/plan.hpp"
#include "fingerway/plan/trills.hpp"

namespace fingerway {

/// The best plan note by note, the hardest moments, where the other plans differ, what was read and assumed.
/// `plans` must not be empty; all are plans of `passage`.
[[nodiscard]] std::string plan_text(const Played& played, const Passage& passage, const std::vector<Plan>& plans);

/// Totals side by side, every note that differs, fingerings gained and lost that matter in the passage.
[[nodiscard]] std::string compare_text(const Played& stock, const Played& converted, const Passage& passage,
                                       const Comparison& comparison);

/// Each pair with its rate, verdict and moves, then a grid of verdicts.
[[nodiscard]] std::string trills_text(const Played& played, const std::vector<Trill>& trills);
/// What the conversion changes: pairs whose verdict changes, then those that only go faster or slower, and a board.
[[nodiscard]] std::string trill_changes_text(const Played& stock, const Played& converted,
                                             const std::vector<TrillChange>& changes);

/// Every note with its table fingerings and the leanest derived ones; touches that may stay down are named, not listed
/// one by one.
[[nodiscard]] std::string chart_text(const Played& played);
/// What `other` has that `played` has not (gained) and the other way round (lost), with the note each belongs to, and
/// the regulation check list of the conversions on `other`.
[[nodiscard]] std::string chart_against_text(const Played& played, const Played& other);

/// The player's own way beside the best one, and where it loses most.
[[nodiscard]] std::string price_text(const Played& played, const Passage& passage, const Plan& own, const Plan& best);

/// The options at one note, dearest last, each with what it costs and which finger decides it.
[[nodiscard]] std::string explain_text(const Played& played, const Passage& passage, const Explanation& explanation);

/// One line for each linkage a conversion adds or changes: what to press and what the pads must do then. Empty on a
/// stock instrument.
[[nodiscard]] std::vector<std::string> regulation_check_list(const Instrument& instrument);

}  // namespace fingerway
