// What this part answers: rows of a table for spreadsheets, as RFC 4180 wants them.
// It knows nothing of what stands in them.
#pragma once

#include <string>
#include <vector>

namespace fingerway {

/// The shortest text that reads back as the same number.
[[nodiscard]] std::string csv_number(double value);
/// Cells, quoted where they hold a comma, a quote or a line break, and CR LF.
[[nodiscard]] std::string csv_row(const std::vector<std::string>& cells);

}  // namespace fingerway
