#include "agreement/motion_text.hpp"

#include <fmt/format.h>

#include <fstream>
#include <regex>
#include <sstream>
#include <stdexcept>

namespace fingerway {
namespace {

std::string whole_text(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in) throw std::runtime_error("cannot read " + file.string());
  return text.str();
}

/// The line of one number with another value, prior, basis and source; the range, unit and what it is about stay.
void put_line(std::string& text, const std::string& name, double value, double prior, bool moved) {
  const std::regex line("  - \\{name: " + name +
                        ", value: [^,]+, (prior: [^,]+, )?(range: \\[[^\\]]*\\], unit: [^,]+, )" +
                        "basis: ([a-z-]+), source: ([a-z0-9-]+), ");
  std::smatch found;
  if (!std::regex_search(text, found, line)) throw std::runtime_error("no line of its own for " + name);
  const bool was_fitted = found[3].str() == "fitted";
  const std::string basis = moved ? "fitted" : was_fitted ? "assumed" : found[3].str();
  const std::string source = moved ? "fit" : was_fitted ? "choice" : found[4].str();
  const std::string prior_part = moved ? fmt::format("prior: {:g}, ", prior) : "";
  const std::string put = fmt::format("  - {{name: {}, value: {:g}, {}{}basis: {}, source: {}, ", name, value,
                                      prior_part, found[2].str(), basis, source);
  text.replace(static_cast<std::size_t>(found.position()), static_cast<std::size_t>(found.length()), put);
}

}  // namespace

void write_fitted(const std::filesystem::path& file, const MotionNumbers& numbers, const std::vector<FitNumber>& fitted,
                  const std::string& figures) {
  std::string text = whole_text(file);
  for (const FitNumber& n : fitted) put_line(text, n.name, n.value, n.prior, n.value != n.prior);
  for (const auto& [name, number] : {std::pair{"fluent-from", &numbers.fluent_from},
                                     {"workable-from", &numbers.workable_from},
                                     {"laborious-from", &numbers.laborious_from}}) {
    put_line(text, name, number->value, number->prior, true);
  }
  const std::regex source("\n  fit: \"[^\"]*\"");
  const std::string line = "\n  fit: \"" + figures + "\"";
  if (std::regex_search(text, source)) {
    text = std::regex_replace(text, source, line);
  } else {
    text.insert(text.find("\nnumbers:"), line);
  }
  const std::filesystem::path fresh = file.string() + ".new";
  {
    std::ofstream out(fresh, std::ios::binary);
    out << text;
    if (!out.flush()) throw std::runtime_error("cannot write " + fresh.string());
  }
  std::filesystem::rename(fresh, file);
}

}  // namespace fingerway
