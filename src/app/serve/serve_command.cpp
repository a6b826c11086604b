#include "serve_command.hpp"

#include <signal.h>
#include <spawn.h>
#include <unistd.h>

#include <array>
#include <memory>
#include <ostream>

#include "fingerway/base/errors.hpp"

namespace fingerway {
namespace {

/// The signals that end the server, kept from every thread made after this.
sigset_t stopping_signals() {
  sigset_t signals;
  sigemptyset(&signals);
  sigaddset(&signals, SIGINT);
  sigaddset(&signals, SIGTERM);
  pthread_sigmask(SIG_BLOCK, &signals, nullptr);
  return signals;
}

/// A port of its own where another page already has the usual one and the user did not ask for any.
std::unique_ptr<HttpServer> listen(Service& service, const ServeCommand& command) {
  HttpOptions options = command.http;
  try {
    return std::make_unique<HttpServer>(service, options);
  } catch (const FileError&) {
    if (!command.open || command.port_asked) throw;
  }
  options.port = 0;
  return std::make_unique<HttpServer>(service, options);
}

/// Hands the address to the desktop. The child must not inherit our blocked signals.
bool show_in_browser(const std::string& address) {
  std::string program = "xdg-open";
  std::string argument = address;
  std::array<char*, 3> words = {program.data(), argument.data(), nullptr};
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  sigset_t none;
  sigemptyset(&none);
  posix_spawnattr_setsigmask(&attributes, &none);
  posix_spawnattr_setpgroup(&attributes, 0);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETPGROUP);
  pid_t child = 0;
  const bool started = ::posix_spawnp(&child, words[0], nullptr, &attributes, words.data(), environ) == 0;
  posix_spawnattr_destroy(&attributes);
  return started;
}

}  // namespace

ExitCode run(const ServeCommand& command, const Console& console) {
  if (command.service.repertoire.empty() != command.service.instrument.empty()) {
    throw InputError(Fault{{}, "--repertoire and --instrument go together", "name the folder and the instrument"});
  }
  const sigset_t signals = stopping_signals();
  Service service(command.service, ServiceLimits{});
  const std::string token = command.score.empty() ? std::string() : service.bring_file(command.score);
  const std::unique_ptr<HttpServer> server = listen(service, command);
  const std::string address = server->address() + (token.empty() ? "" : "?score=" + token);
  console.out << "fingerway is at " << address << "\nstop with Ctrl+C" << std::endl;
  if (command.open && !show_in_browser(address)) {
    console.err << "no browser could be started (open the address above yourself)\n";
  }
  int stopped_by = 0;
  static_cast<void>(sigwait(&signals, &stopped_by));
  // What is being planned comes to its end; who does not want to wait for it says so again.
  pthread_sigmask(SIG_UNBLOCK, &signals, nullptr);
  console.out << "stopped\n";
  return ExitCode::done;
}

}  // namespace fingerway
