// What this part answers: the program's command line: its commands, options and help, and what became of a run.
#pragma once

#include <iosfwd>

namespace fingerway {

/// Parses, runs, and tells what went wrong. Returns the exit code; throws nothing.
[[nodiscard]] int run_command_line(int argc, const char* const* argv, std::ostream& out, std::ostream& err);

}  // namespace fingerway
