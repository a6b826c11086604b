// What this part answers: what `drill` was asked for, and practice material from it.
// It parses no command line (command_line.hpp).
#pragma once

#include "commands.hpp"

namespace fingerway {

struct DrillCommand {
  ScoreRequest score;
  PlayedRequest played;
  std::string choices;
  std::size_t hardest = 3;
  std::string musicxml, json;
};
[[nodiscard]] ExitCode run(const DrillCommand& command, const Console& console);

}  // namespace fingerway
