// What this part answers: the hidden command `reference`, which builds and shells call: man page, completions, ids.
#pragma once

#include <string>

#include "command_words.hpp"
#include "commands.hpp"

namespace fingerway {

struct ReferenceCommand {
  std::string what;   ///< man, bash, zsh, fish or instruments
  std::string typed;  ///< of instruments: what stands there already
};
[[nodiscard]] ExitCode run(const ReferenceCommand& command, const CLI::App& app, const Console& console);

}  // namespace fingerway
