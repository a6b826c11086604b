// README's examples, and those of the guide, are run and must print what is shown there. `...` alone on a line stands
// for any lines left out. In the guide a block `console exit=1` says the exit code (0 where nothing is said),
// and a block `yaml file=NAME` is a file the reader writes.
#include <sys/wait.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
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
  std::optional<int> exit_code;  // where the text says one
};

struct Outcome {
  int exit_code = 0;
  std::vector<std::string> printed;
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
      found.push_back({.command = line.substr(12), .shown = {}, .exit_code = {}});
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

/// Runs the program in a folder.
Outcome outcome(const std::string& command, const std::filesystem::path& folder, const ScratchFolder& scratch) {
  const char* program = std::getenv("FINGERWAY_PROGRAM");
  REQUIRE(program != nullptr);
  const auto output = scratch.path() / "output.txt";
  const std::string line =
      "cd '" + folder.string() + "' && '" + std::string(program) + "' " + command + " > '" + output.string() + "' 2>&1";
  const int status = std::system(line.c_str());
  REQUIRE(status != -1);
  std::ifstream stream(output);
  return {.exit_code = WEXITSTATUS(status), .printed = lines_of(stream)};
}

void check_shown(const Example& example, const Outcome& came) {
  INFO("fingerway " << example.command);
  INFO("first line printed: " << (came.printed.empty() ? std::string("(nothing)") : came.printed.front()));
  CHECK(matches(example.shown, 0, came.printed, 0));
  if (example.exit_code) CHECK(came.exit_code == *example.exit_code);
}

/// A chapter of the guide as its reader goes through it: files are written, commands run, in the order of the text.
std::size_t follow(const std::filesystem::path& chapter, const std::filesystem::path& folder,
                   const ScratchFolder& scratch) {
  std::ifstream stream(chapter);
  const std::vector<std::string> lines = lines_of(stream);
  std::size_t commands = 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!lines[i].starts_with("```")) continue;
    const std::string kind = lines[i];
    std::vector<std::string> block = {"```console"};
    for (++i; i < lines.size() && lines[i] != "```"; ++i) block.push_back(lines[i]);
    REQUIRE(i < lines.size());
    if (const std::size_t file = kind.find(" file="); file != std::string::npos) {
      const auto path = folder / kind.substr(file + 6);
      std::filesystem::create_directories(path.parent_path());
      std::ofstream out(path);
      for (std::size_t l = 1; l < block.size(); ++l) out << block[l] << '\n';
    } else if (kind.starts_with("```console")) {
      const std::size_t exit = kind.find(" exit=");
      const std::string code = exit == std::string::npos ? "0" : kind.substr(exit + 6);
      for (Example& example : examples(block)) {
        example.exit_code = std::stoi(code);
        check_shown(example, outcome(example.command, folder, scratch));
        ++commands;
      }
    }
  }
  return commands;
}

}  // namespace

TEST_CASE("README's examples print what README shows") {
  const auto project = fingerway::project_folder();
  const ScratchFolder scratch;
  std::ifstream readme(project / "README.md");
  const auto found = examples(lines_of(readme));
  REQUIRE(found.size() >= 5);
  for (const Example& example : found) check_shown(example, outcome(example.command, project, scratch));
}

TEST_CASE("The guide's commands give what the guide shows, in a folder that has only the demo scores") {
  const auto project = fingerway::project_folder();
  std::vector<std::filesystem::path> chapters;
  for (const auto& entry : std::filesystem::directory_iterator(project / "tools/guide/chapters")) {
    if (entry.path().extension() == ".md") chapters.push_back(entry.path());
  }
  std::ranges::sort(chapters);
  REQUIRE(chapters.size() >= 7);
  std::size_t commands = 0;
  for (const auto& chapter : chapters) {
    INFO(chapter.filename());
    const ScratchFolder scratch;
    const auto folder = scratch.path() / "fingerings";
    std::filesystem::create_directory(folder);
    std::filesystem::create_directory_symlink(project / "scores", folder / "scores");
    commands += follow(chapter, folder, scratch);
  }
  CHECK(commands >= 20);
}
