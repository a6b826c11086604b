// What this part answers: the body of a plan's page, for the page itself and for sheets that say more above it.
// Private to report.
#pragma once

#include <string>

#include "fingerway/plan/plan.hpp"
#include "fingerway/report/page.hpp"
#include "fingerway/report/view.hpp"

namespace fingerway {

/// What was read and the key numbers, side by side.
[[nodiscard]] std::string plan_facts(const PlanView& seen);
/// From what cannot be played to what was left out: finger lanes, hardest moments, note by note.
[[nodiscard]] std::string plan_sections(const Played& played, const Passage& passage, const Plan& plan,
                                        const PlanView& seen, const std::vector<PageSystem>& engraved = {});

}  // namespace fingerway
