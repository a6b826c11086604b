// README's examples are run and must print what README shows. `...` alone on a line stands for any lines left out.
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "support/scratch_folder.hpp"

using fingerway::ScratchFolder;

namespace {

struct Example {
  std::string command;
  std::vector<std::string> shown;
};

std::vector<std::string> lines_of(std::istream& stream) {
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::vector<Example> examples(const std::vector<std::string>& readme) {
  std::vector<Example> found;
  bool inside = false;
  for (const std::string& line : readme) {
    if (line.starts_with("```")) {
      inside = line == "```console";
    } else if (inside && line.starts_with("$ fingerway ")) {
      found.push_back({.command = line.substr(12), .shown = {}});
    } else if (inside) {
      REQUIRE_FALSE(found.empty());
      found.back().shown.push_back(line);
    }
  }
  return found;
}

/// Matches from the front; `...` takes as few lines as let the rest match.
bool matches(const std::vector<std::string>& shown, std::size_t s, const std::vector<std::string>& printed,
             std::size_t p) {
  if (s == shown.size()) return p == printed.size();
  if (shown[s] == "...") {
    for (std::size_t skip = p; skip <= printed.size(); ++skip) {
      if (matches(shown, s + 1, printed, skip)) return true;
    }
    return false;
  }
  return p < printed.size() && shown[s] == printed[p] && matches(shown, s + 1, printed, p + 1);
}

}  // namespace

TEST_CASE("README's examples print what README shows") {
  const char* program = std::getenv("FINGERWAY_PROGRAM");
  REQUIRE(program != nullptr);
  const auto project = fingerway::project_folder();
  const ScratchFolder scratch;
  std::ifstream readme(project / "README.md");
  const auto found = examples(lines_of(readme));
  REQUIRE(found.size() >= 5);
  for (const Example& example : found) {
    INFO("fingerway " << example.command);
    const auto output = scratch.path() / "output.txt";
    const std::string line = "cd '" + project.string() + "' && '" + std::string(program) + "' " + example.command +
                             " > '" + output.string() + "' 2>&1";
    const int status = std::system(line.c_str());
    CHECK(status != -1);
    std::ifstream stream(output);
    const auto printed = lines_of(stream);
    INFO("first line printed: " << (printed.empty() ? std::string("(nothing)") : printed.front()));
    CHECK(matches(example.shown, 0, printed, 0));
  }
}
