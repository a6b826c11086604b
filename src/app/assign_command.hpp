// What this part answers: what `assign` was asked for, and a folder of sheets from it.
// It parses no command line (command_line.hpp).
#pragma once

#include "commands.hpp"

namespace fingerway {

struct AssignCommand {
  std::string roster;
  std::string out;       ///< folder; empty: only the summary is told
  unsigned threads = 0;  ///< 0: one a core
  std::string json;
};
[[nodiscard]] ExitCode run(const AssignCommand& command, const Console& console);

}  // namespace fingerway
