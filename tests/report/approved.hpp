// What this part answers: whether a report reads as it was approved (tests/approved), with a difference people can
// read. FINGERWAY_APPROVE=1 writes what comes out as the new approved text; look at it with git diff before it is kept.
#pragma once

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "support/scratch_folder.hpp"

namespace fingerway {

[[nodiscard]] inline std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// The lines between the common start and the common end: "-" approved, "+" what came out.
[[nodiscard]] inline std::string difference_between(const std::string& approved, const std::string& now) {
  const auto a = lines_of(approved);
  const auto b = lines_of(now);
  std::size_t first = 0;
  while (first < std::min(a.size(), b.size()) && a[first] == b[first]) ++first;
  std::size_t last = 0;
  while (last < std::min(a.size(), b.size()) - first && a[a.size() - 1 - last] == b[b.size() - 1 - last]) ++last;
  std::string text = "from line " + std::to_string(first + 1) + ":\n";
  for (std::size_t i = first; i < a.size() - last; ++i) text += "- " + a[i] + "\n";
  for (std::size_t i = first; i < b.size() - last; ++i) text += "+ " + b[i] + "\n";
  return text;
}

/// Empty when the text is the approved one, else what differs.
[[nodiscard]] inline std::string unapproved(const std::string& name, const std::string& text) {
  const auto file = project_folder() / "tests" / "approved" / name;
  if (std::getenv("FINGERWAY_APPROVE") != nullptr) {
    std::ofstream(file, std::ios::binary) << text;
    return {};
  }
  std::ifstream in(file, std::ios::binary);
  if (!in) return "there is no tests/approved/" + name;
  std::ostringstream approved;
  approved << in.rdbuf();
  return approved.str() == text ? std::string()
                                : "tests/approved/" + name + " " + difference_between(approved.str(), text);
}

}  // namespace fingerway
