// What this part answers: a payoff as text, JSON, CSV and a page with plots.
// It computes nothing and rounds only what people read.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "fingerway/base/text.hpp"
#include "fingerway/decide/payoff.hpp"

namespace fingerway {

/// A payoff and all that it was worked out from; everything must outlive the report.
struct PayoffReport {
  const Repertoire& repertoire;
  const std::vector<ConversionSheet>& conversions;
  const std::vector<Variant>& variants;
  const std::vector<RefusedSet>& refused;
  const Payoff& payoff;
  std::function<SetInFull(std::size_t variant)> in_full;  ///< worked out each time: all sets are too much to hold
};

/// Advice, sets beside each other, each conversion in full, the repairer's list, what was assumed and skipped.
[[nodiscard]] std::string payoff_text(const PayoffReport& report);
/// Format "fingerway/payoff".
void payoff_json(const PayoffReport& report, const TextSink& sink);
/// One row for each set and passage.
void payoff_csv(const PayoffReport& report, const TextSink& sink);
/// The same as the text, with plots: gain against cost, ceilings before and after, where in which passages it helps.
[[nodiscard]] std::string payoff_page(const PayoffReport& report);

}  // namespace fingerway
