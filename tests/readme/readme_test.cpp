// README's examples, and those of the guide, are run and must print what is shown there. `...` alone on a line stands
// for any lines left out. In the guide a block `console exit=1` says the exit code (0 where nothing is said),
// and a block `yaml file=NAME` is a file the reader writes. README's picture must be what the program draws.
#include <sys/wait.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
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

std::string text_of(const std::filesystem::path& file) {
  std::ifstream stream(file);
  return {std::istreambuf_iterator<char>(stream), {}};
}

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

/// The shell's line for a command. The page's server is asked for any free port and no browser, and stopped once it
/// answers.
std::string shell_line(std::string command, const std::string& program, const std::string& output) {
  const std::string into = " > '" + output + "' 2>&1";
  if (!command.starts_with("serve")) return "'" + program + "' " + command + into;
  if (const std::size_t open = command.find(" --open"); open != std::string::npos) command.erase(open, 7);
  return "('" + program + "' " + command + " --port 0" + into + " & server=$!; " +
         "for i in $(seq 600); do grep -q '^stop with' '" + output + "' && break; sleep 0.1; done; " +
         "kill -TERM $server; wait $server)";
}

/// Runs the program in a folder.
Outcome outcome(const std::string& command, const std::filesystem::path& folder, const ScratchFolder& scratch) {
  const char* program = std::getenv("FINGERWAY_PROGRAM");
  REQUIRE(program != nullptr);
  const auto output = scratch.path() / "output.txt";
  const std::string line = "cd '" + folder.string() + "' && " + shell_line(command, program, output.string());
  const int status = std::system(line.c_str());
  REQUIRE(status != -1);
  std::ifstream stream(output);
  return {.exit_code = WEXITSTATUS(status), .printed = lines_of(stream)};
}

void check_shown(const Example& example, const Outcome& came) {
  INFO("fingerway " << example.command);
  INFO("first line printed: " << (came.printed.empty() ? std::string("(nothing)") : came.printed.front()));
  CHECK(matches(example.shown, 0, came.printed, 0));
  if (example.command.starts_with("serve")) {
    REQUIRE_FALSE(came.printed.empty());
    CHECK(came.printed.front().starts_with("fingerway is at http://127.0.0.1:"));
  }
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
  REQUIRE(found.size() >= 3);
  for (const Example& example : found) check_shown(example, outcome(example.command, project, scratch));
}

TEST_CASE("README's picture is what the program draws (tools/guide/build --pictures takes it anew)") {
  const auto project = fingerway::project_folder();
  const ScratchFolder scratch;
  const std::string page = (scratch.path() / "compared.html").string();
  const Outcome made = outcome(
      "compare scores/alder-street/low-bridge.musicxml -i bassoon --with "
      "bassoon+interlinked-low-keys --bars 10 --html '" +
          page + "'",
      project, scratch);
  REQUIRE(made.exit_code == 0);
  const std::string drawn = text_of(page);
  const std::size_t start = drawn.find("<svg class=\"system ");
  REQUIRE(start != std::string::npos);
  // In the picture the drawing also has a width and a height.
  const std::string lanes = drawn.substr(start + 5, drawn.find("</svg>", start) - start);
  CHECK(text_of(project / "tools/guide/pictures/lanes.svg").find(lanes) != std::string::npos);
}

TEST_CASE("The guide's commands give what the guide shows, in a folder that has only the demo scores") {
  const auto project = fingerway::project_folder();
  std::vector<std::filesystem::path> chapters;
  for (const auto& entry : std::filesystem::directory_iterator(project / "tools/guide/chapters")) {
    if (entry.path().extension() == ".md") chapters.push_back(entry.path());
  }
  std::ranges::sort(chapters);
  REQUIRE(chapters.size() >= 8);
  std::size_t commands = 0;
  for (const auto& chapter : chapters) {
    INFO(chapter.filename());
    const ScratchFolder scratch;
    const auto folder = scratch.path() / "fingerings";
    std::filesystem::create_directory(folder);
    std::filesystem::create_directory_symlink(project / "scores", folder / "scores");
    commands += follow(chapter, folder, scratch);
  }
  CHECK(commands >= 35);
}
