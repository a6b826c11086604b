// What this part answers: a payoff as text, JSON, CSV and a page with plots.
// It computes nothing and rounds only what people read.
#pragma once

#include <string>
#include <vector>

#include "fingerway/decide/payoff.hpp"

namespace fingerway {

/// A payoff and all that it was worked out from; everything must outlive the report.
struct PayoffReport {
  const Repertoire& repertoire;
  const std::vector<ConversionSheet>& conversions;
  const std::vector<Variant>& variants;
  const std::vector<RefusedSet>& refused;
  const OutcomeGrid& outcomes;  ///< of the world asked for
  const Payoff& payoff;
};

/// Advice, sets beside each other, each conversion in full, the repairer's list, what was assumed and skipped.
[[nodiscard]] std::string payoff_text(const PayoffReport& report);
/// Format "fingerway/payoff".
[[nodiscard]] std::string payoff_json(const PayoffReport& report);
/// One row for each set and passage.
[[nodiscard]] std::string payoff_csv(const PayoffReport& report);
/// The same as the text, with plots: gain against cost, ceilings before and after, where in which passages it helps.
[[nodiscard]] std::string payoff_page(const PayoffReport& report);

}  // namespace fingerway
