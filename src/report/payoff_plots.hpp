// What this part answers: the plots of a payoff as SVG: readable in print, in the dark, and without colour.
// Private to report. Shapes and words carry the meaning; every plot has a title and says the same in text.
#pragma once

#include <string>

#include "fingerway/report/payoff.hpp"

namespace fingerway {

/// Every set by what it costs and gains, with the line no other set beats.
[[nodiscard]] std::string gain_against_cost_svg(const PayoffReport& report);
/// Each passage's ceiling on the stock instrument and with a set, beside the tempo asked for.
[[nodiscard]] std::string ceilings_svg(const PayoffReport& report, const SetInFull& set);
/// Each passage from its first to its last note: where a set relieves, spoils, or changes a fingering.
[[nodiscard]] std::string places_svg(const PayoffReport& report, const SetInFull& set);

}  // namespace fingerway
