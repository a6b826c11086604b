// What this part answers: the program run as a process of its own with bounds on time and memory, and what it said.
#pragma once

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <string>
#include <vector>

#include "app/program_run.hpp"
#include "support/scratch_folder.hpp"

namespace fingerway {

/// Bounds of a run; address sanitizers need room of their own, so there memory is not bounded.
struct RunLimits {
  rlim_t seconds = 20;
  rlim_t mebibytes = 1024;
};

[[nodiscard]] inline bool have_program() { return std::getenv("FINGERWAY_PROGRAM") != nullptr; }

[[nodiscard]] inline bool memory_can_be_bounded() {
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
  return false;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
  return false;
#else
  return true;
#endif
#else
  return true;
#endif
}

/// `code` is -1 where a signal ended it: a crash, or the time was over.
[[nodiscard]] inline Run limited_run(const std::vector<std::string>& words, const RunLimits& limits = {}) {
  const ScratchFolder scratch;
  const std::string out = (scratch.path() / "out").string();
  const std::string err = (scratch.path() / "err").string();
  const pid_t child = ::fork();
  if (child == 0) {
    const rlimit time{limits.seconds, limits.seconds};
    ::setrlimit(RLIMIT_CPU, &time);
    const rlimit memory{limits.mebibytes << 20U, limits.mebibytes << 20U};
    if (memory_can_be_bounded()) ::setrlimit(RLIMIT_AS, &memory);
    ::dup2(::open(out.c_str(), O_CREAT | O_WRONLY, 0600), STDOUT_FILENO);
    ::dup2(::open(err.c_str(), O_CREAT | O_WRONLY, 0600), STDERR_FILENO);
    const char* program = std::getenv("FINGERWAY_PROGRAM");
    std::vector<char*> argv = {const_cast<char*>(program)};
    for (const std::string& word : words) argv.push_back(const_cast<char*>(word.c_str()));
    argv.push_back(nullptr);
    ::execv(program, argv.data());
    ::_exit(127);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, text_of(out), text_of(err)};
}

}  // namespace fingerway
