// What this part answers: `serve`: the page on this machine until it is told to stop.
// It parses no command line (command_line.hpp).
#pragma once

#include "app/commands.hpp"
#include "http_server.hpp"

namespace fingerway {

struct ServeCommand {
  HttpOptions http;
  ServiceOptions service;
};
[[nodiscard]] ExitCode run(const ServeCommand& command, const Console& console);

}  // namespace fingerway
