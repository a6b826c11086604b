// The man page and the completions say what --help says.
#include <catch2/catch.hpp>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "program_run.hpp"

using fingerway::run;

namespace {

std::set<std::string> options_in(const std::string& help) {
  std::set<std::string> found;
  std::istringstream stream(help);
  for (std::string line; std::getline(stream, line);) {
    // Options begin their line; a description may name one further on.
    if (!line.starts_with("  -")) continue;
    std::istringstream words(line);
    for (std::string word; words >> word;) {
      if (!word.starts_with("-")) break;
      found.insert(word.substr(0, word.find(',')));
      const auto comma = word.find(',');
      if (comma != std::string::npos) found.insert(word.substr(comma + 1));
    }
  }
  return found;
}

const std::vector<std::vector<std::string>> commands = {{"plan"},   {"compare"},        {"price"}, {"trills"},
                                                        {"chart"},  {"assign"},         {"drill"}, {"check"},
                                                        {"payoff"}, {"payoff", "merge"}};

std::string without_escapes(std::string text) {
  for (std::size_t at = text.find("\\-"); at != std::string::npos; at = text.find("\\-")) text.erase(at, 1);
  return text;
}

/// The part of the man page on one command.
std::string section(const std::string& man, const std::string& name) {
  const std::size_t begin = man.find("\n.SS " + name + "\n");
  REQUIRE(begin != std::string::npos);
  return man.substr(begin, man.find("\n.S", begin + 4) - begin);
}

}  // namespace

TEST_CASE("The man page tells every option that a command's help tells") {
  const std::string man = without_escapes(run({"reference", "man"}).out);
  CHECK(man.starts_with(".TH FINGERWAY 1"));
  for (const auto& words : commands) {
    std::vector<std::string> asked = words;
    asked.emplace_back("--help");
    const auto options = options_in(run(asked).out);
    CHECK(options.size() >= 3);
    const std::string name = words.size() == 1 ? words[0] : words[0] + " " + words[1];
    const std::string told = section(man, name);
    for (const std::string& option : options) {
      INFO(name << ' ' << option);
      CHECK(told.find("\\fB" + option + "\\fP") != std::string::npos);
    }
  }
  CHECK(man.find("stop on pain") != std::string::npos);
  CHECK(man.find(".SS reference") == std::string::npos);
}

TEST_CASE("Help says how to begin, and the man page what may be left out") {
  CHECK(run({"--help"}).out.find("fingerway plan SCORE -i INSTRUMENT") != std::string::npos);
  CHECK(run({"plan", "--help"}).out.find("Begin with") == std::string::npos);
  const std::string man = run({"reference", "man"}).out;
  CHECK(man.find("\\fBfingerway serve\\fP [\\fISCORE\\fP] [") != std::string::npos);
  CHECK(man.find("\\fBfingerway plan\\fP \\fISCORE\\fP \\fB") != std::string::npos);
}

TEST_CASE("Each shell is told every command and option, and the words an option takes") {
  const std::vector<std::string> shells = {"bash", "zsh", "fish"};
  for (const std::string& shell : shells) {
    const std::string text = run({"reference", shell}).out;
    INFO(shell);
    for (const auto& words : commands) {
      CHECK(text.find(words.back()) != std::string::npos);
      std::vector<std::string> asked = words;
      asked.emplace_back("--help");
      for (const std::string& option : options_in(run(asked).out)) {
        INFO(option);
        const std::string name = option.substr(option.find_first_not_of('-'));
        const std::string in_fish = (option.starts_with("--") ? " -l " : " -s ") + name;
        CHECK(text.find(shell == "fish" ? in_fish : option) != std::string::npos);
      }
    }
    CHECK(text.find("professional amateur beginner") != std::string::npos);
    CHECK(text.find("fingerway reference instruments") != std::string::npos);
  }
}

TEST_CASE("Ids are completed, and conversions behind a plus sign") {
  CHECK(run({"reference", "instruments"}).out.find("\nbassoon\n") != std::string::npos);
  const std::string stacked = run({"reference", "instruments", "bassoon+interlinked-low-keys+lo"}).out;
  CHECK(stacked.find("bassoon+interlinked-low-keys+low-key-rollers\n") != std::string::npos);
  CHECK(stacked.find("trill-key-flute") == std::string::npos);
  CHECK(run({"reference", "poem"}).code == 3);
}

TEST_CASE("The version comes with the libraries and theirs") {
  const std::string said = run({"--version"}).out;
  CHECK(said.find("built with") != std::string::npos);
  for (const char* library : {"Boost 1.", "CLI11 2.", "fmt ", "libzip 1.", "pugixml 1.", "yaml-cpp 0."}) {
    INFO(library);
    CHECK(said.find(library) != std::string::npos);
  }
}
