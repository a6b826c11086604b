#include "serve_command.hpp"

#include <signal.h>

#include <ostream>

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

}  // namespace

ExitCode run(const ServeCommand& command, const Console& console) {
  const sigset_t signals = stopping_signals();
  Service service(command.service, ServiceLimits{});
  const HttpServer server(service, command.http);
  console.out << "fingerway is at " << server.address() << "\nstop with Ctrl+C" << std::endl;
  int stopped_by = 0;
  static_cast<void>(sigwait(&signals, &stopped_by));
  console.out << "stopped\n";
  return ExitCode::done;
}

}  // namespace fingerway
