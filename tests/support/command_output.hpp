// What this part answers: what another program prints, for tests that ask a program which is not ours.
#pragma once

#include <cstdio>
#include <memory>
#include <string>

namespace fingerway {

/// What a command prints; empty when it fails.
inline std::string output_of(const std::string& command) {
  struct Closer {
    void operator()(std::FILE* pipe) const { static_cast<void>(::pclose(pipe)); }
  };
  const std::unique_ptr<std::FILE, Closer> pipe(::popen(command.c_str(), "r"));
  std::string text;
  char buffer[4096];
  while (pipe) {
    const std::size_t got = std::fread(buffer, 1, sizeof buffer, pipe.get());
    if (got == 0) break;
    text.append(buffer, got);
  }
  return text;
}

}  // namespace fingerway
