// What this part answers: `serve`: the page on this machine until it is told to stop.
// It parses no command line (command_line.hpp).
#pragma once

#include "app/commands.hpp"
#include "http_server.hpp"

namespace fingerway {

struct ServeCommand {
  HttpOptions http;
  std::string score;  ///< a score to begin with; empty: none
  bool open = false;  ///< show the page in the user's browser, on another port where the usual one is taken
  bool port_asked = false;
  ServiceOptions service;
};
[[nodiscard]] ExitCode run(const ServeCommand& command, const Console& console);

}  // namespace fingerway
