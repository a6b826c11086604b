// What this part answers: a plan as a table for spreadsheets (RFC 4180), one row a note.
// Numbers are not rounded for show.
#pragma once

#include <string>

#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// A header row, then one row a note; lines end in CR LF, UTF-8 without a byte order mark.
[[nodiscard]] std::string plan_csv(const Played& played, const Passage& passage, const Plan& plan);

}  // namespace fingerway
