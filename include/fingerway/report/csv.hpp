// What this part answers: plans and trills as tables for spreadsheets (RFC 4180).
// Numbers are not rounded for show.
#pragma once

#include <string>

#include "fingerway/decide/trill_changes.hpp"
#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// A header row, then one row a note; lines end in CR LF, UTF-8 without a byte order mark.
[[nodiscard]] std::string plan_csv(const Played& played, const Passage& passage, const Plan& plan);
/// One row a pair of notes.
[[nodiscard]] std::string trills_csv(const Played& played, const std::vector<Trill>& trills);
/// One row a pair, both instruments side by side.
[[nodiscard]] std::string trill_changes_csv(const Played& stock, const Played& converted,
                                            const std::vector<TrillChange>& changes);

}  // namespace fingerway
