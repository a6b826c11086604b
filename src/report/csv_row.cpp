#include "csv_row.hpp"

#include <fmt/format.h>

namespace fingerway {
namespace {

std::string field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + "\"";
}

}  // namespace

std::string csv_number(double value) { return fmt::format("{}", value); }

std::string csv_row(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) line += (i > 0 ? "," : "") + field(cells[i]);
  return line + "\r\n";
}

}  // namespace fingerway
