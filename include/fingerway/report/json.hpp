// What this part answers: every report as JSON for scripts; the formats stand in tools/schema.
// Numbers are not rounded for show. Names of fields are stable: fields are added, never renamed.
#pragma once

#include <string>
#include <vector>

#include "fingerway/decide/compare.hpp"
#include "fingerway/decide/trill_changes.hpp"
#include "fingerway/plan/explain.hpp"
#include "fingerway/plan/plan.hpp"
#include "fingerway/plan/trills.hpp"

namespace fingerway {

/// Format "fingerway/plan". The first plan is the answer; further ones stand under "alternatives".
[[nodiscard]] std::string plan_json(const Played& played, const Passage& passage, const std::vector<Plan>& plans);
/// Format "fingerway/compare".
[[nodiscard]] std::string compare_json(const Played& stock, const Played& converted, const Passage& passage,
                                       const Comparison& comparison);
/// Format "fingerway/trills".
[[nodiscard]] std::string trills_json(const Played& played, const std::vector<Trill>& trills);
/// Format "fingerway/trills" of the converted instrument, with what the stock one does beside each pair.
[[nodiscard]] std::string trill_changes_json(const Played& stock, const Played& converted,
                                             const std::vector<TrillChange>& changes);
/// Format "fingerway/chart"; "gained" and "lost" are empty.
[[nodiscard]] std::string chart_json(const Played& played);
/// Format "fingerway/chart" of `other`, with what it gains and loses against `played`.
[[nodiscard]] std::string chart_against_json(const Played& played, const Played& other);
/// Format "fingerway/price".
[[nodiscard]] std::string price_json(const Played& played, const Passage& passage, const Plan& own, const Plan& best);
/// Format "fingerway/explain".
[[nodiscard]] std::string explain_json(const Played& played, const Passage& passage, const Explanation& explanation);

}  // namespace fingerway
