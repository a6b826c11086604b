// What this part answers: the program run in this process, and what it printed; the text of a file it wrote.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include "app/command_line.hpp"

namespace fingerway {

struct Run {
  int code = 0;
  std::string out;
  std::string err;
};

[[nodiscard]] inline Run run(const std::vector<std::string>& words) {
  std::vector<const char*> argv = {"fingerway"};
  for (const std::string& word : words) argv.push_back(word.c_str());
  std::ostringstream out;
  std::ostringstream err;
  const int code = run_command_line(static_cast<int>(argv.size()), argv.data(), out, err);
  return {code, out.str(), err.str()};
}

[[nodiscard]] inline std::string text_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

}  // namespace fingerway
