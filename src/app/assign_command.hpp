// What this part answers: what `assign` was asked for, and a folder of sheets from it.
// It parses no command line (command_line.hpp).
#pragma once

#include <functional>
#include <string>

#include "commands.hpp"
#include "fingerway/report/assign.hpp"

namespace fingerway {

struct AssignCommand {
  std::string roster;
  std::string out;       ///< folder; empty: only the summary is told
  unsigned threads = 0;  ///< 0: one a core
  std::string json;
};
[[nodiscard]] ExitCode run(const AssignCommand& command, const Console& console);

/// The sheets of a roster's class without any file; `done` is told the share of sheets that are made.
[[nodiscard]] Assignment assignment_of(const std::string& roster, unsigned threads,
                                       const std::function<void(double)>& done);

}  // namespace fingerway
