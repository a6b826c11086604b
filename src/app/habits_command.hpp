// What this part answers: `plan --habits`: the habits of one's own instrument on a borrowed one.
// It parses no command line (command_line.hpp).
#pragma once

#include "commands.hpp"

namespace fingerway {

/// `command.played` is the borrowed instrument, `command.habits` the player's own.
[[nodiscard]] ExitCode tell_habits(const PlanCommand& command, const Console& console);

}  // namespace fingerway
