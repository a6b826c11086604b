// What this part answers: many jobs on all cores, with a line on the terminal that tells how far they are.
// It does not know what a job is. Nothing here decides a result: jobs write to places of their own.
#pragma once

#include <cstddef>
#include <functional>
#include <mutex>
#include <ostream>
#include <string>

namespace fingerway {

/// How many threads to use: as many as asked for, or one a core.
[[nodiscard]] unsigned thread_count(unsigned asked);

/// Calls `job` with every number below `count`, in that order, on several threads. The first exception thrown stops the
/// rest and is thrown here.
void run_on_threads(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& job);

/// "12 of 96 plans" on a terminal, and nothing elsewhere.
class Progress {
 public:
  /// `what` names the things counted: "plans".
  Progress(std::ostream& out, std::string what, std::size_t total);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  /// May be called from any thread.
  void add(std::size_t done);

 private:
  std::mutex mutex_;
  std::ostream* out_;  ///< null where there is no terminal
  std::string what_;
  std::size_t total_;
  std::size_t done_ = 0;
  std::size_t shown_percent_ = 101;
};

}  // namespace fingerway
