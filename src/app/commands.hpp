// What this part answers: what each command of the program does: from a filled request to text, files and exit code.
// It parses no command line (command_line.hpp).
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "requests.hpp"

namespace fingerway {

/// What scripts may rely on; see README.
enum class ExitCode : int { done = 0, does_not_fit = 1, bad_input = 2, bad_command_line = 3, cannot_read_or_write = 4 };

/// Where a command speaks: reports to `out`, messages to `err`.
struct Console {
  std::ostream& out;
  std::ostream& err;
};

struct PlanCommand {
  ScoreRequest score;
  PlayedRequest played;
  std::string choices;
  std::size_t alternatives = 1;
  bool smoothest = false;
  bool mark_all = false;
  bool keep_marked = false;  ///< fingerings in the file are pins
  bool list_parts = false;   ///< only say which parts there are
  bool unmark = false;       ///< only write the score without our marks
  std::string explain;       ///< "BAR:BEAT"
  std::string habits;        ///< the player's own instrument, where `played` is a borrowed one
  std::string json, csv, html, musicxml, graph;
};
[[nodiscard]] ExitCode run(const PlanCommand& command, const Console& console);

struct CompareCommand {
  ScoreRequest score;  ///< of the first score; part, bars and tempo hold for all
  std::vector<std::string> scores;
  PlayedRequest played;
  std::string with;
  std::string json, html;
};
[[nodiscard]] ExitCode run(const CompareCommand& command, const Console& console);

struct PriceCommand {
  ScoreRequest score;
  PlayedRequest played;
  std::string choices;
  std::string json;
};
[[nodiscard]] ExitCode run(const PriceCommand& command, const Console& console);

struct TrillsCommand {
  PlayedRequest played;
  std::vector<std::string> between;  ///< none, or two note names
  std::string against;               ///< another state of the same instrument; empty: none
  std::string json, csv;
};
[[nodiscard]] ExitCode run(const TrillsCommand& command, const Console& console);

struct ChartCommand {
  PlayedRequest played;
  std::string against;
  std::string json;
};
[[nodiscard]] ExitCode run(const ChartCommand& command, const Console& console);

struct CheckCommand {
  std::vector<std::string> files;
  std::string json;
};
[[nodiscard]] ExitCode run(const CheckCommand& command, const Console& console);

}  // namespace fingerway
