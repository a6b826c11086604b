// What this part answers: outcomes and payoff requests as lines of a work file, and back again, without losing a bit.
#pragma once

#include <cstdint>
#include <string>
#include <utility>

#include "fingerway/decide/outcome.hpp"
#include "payoff_material.hpp"

namespace fingerway {

/// The first line of a work file.
[[nodiscard]] std::string request_line(const PayoffRequest& request);
/// Throws InputError where the line is none.
[[nodiscard]] PayoffRequest parse_request_line(const std::string& line, const std::string& file);

/// One unit as a line.
[[nodiscard]] std::string unit_line(std::uint64_t key, const PassageOutcome& outcome);
/// Throws InputError naming file and line.
[[nodiscard]] std::pair<std::uint64_t, PassageOutcome> parse_unit_line(const std::string& line, const std::string& file,
                                                                       int number);

}  // namespace fingerway
