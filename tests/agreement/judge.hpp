// What this part answers: whether the program agrees with one statement, by how much, and what decides.
// It sums nothing up (agreement_main.cpp) and fits nothing (fit.hpp).
#pragma once

#include <optional>

#include "agreement/statements.hpp"
#include "fingerway/plan/plan.hpp"
#include "fingerway/plan/trills.hpp"

namespace fingerway {

/// A choice rule against the best plan.
struct ChoiceVerdict {
  /// Points the best plan that breaks the rule costs more than the best that keeps it: met when positive. Nothing: one
  /// of the two cannot be had on this instrument.
  std::optional<Points> margin;
  bool met = false;
  Plan ours;                   ///< the best plan of all
  std::optional<Plan> theirs;  ///< the best that keeps the rule
};
[[nodiscard]] ChoiceVerdict judge(const Played& played, const ChoiceRule& rule);

/// The margin alone and whether it is positive, without the plans: what fitting needs.
[[nodiscard]] ChoiceVerdict judge_margin(const Played& played, const ChoiceRule& rule);

/// The rate of the best pair, back and forth. A slur is one change, done once: it is put on the same scale by holding
/// it against an eighth at 120 quarter notes a minute (assumed) instead of a note of a workable trill. Zero when a note
/// has no fingering.
[[nodiscard]] NotesPerSecond judge(const Played& played, const TrillStatement& statement);

/// Why the plan does otherwise: the fingerings at the first note where the plans differ on a wish, and the terms of
/// cost in which they differ most. Several lines, for people.
[[nodiscard]] std::string reasons(const Played& played, const ChoiceRule& rule, const ChoiceVerdict& verdict);

}  // namespace fingerway
