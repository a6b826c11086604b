// Processor time and memory of this process, as the system counts them.
#pragma once

#include <cstddef>
#include <ctime>
#include <fstream>
#include <string>

namespace fingerway {

/// Processor seconds of this process so far.
inline double processor_seconds() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

/// Processor seconds that `work` takes.
template <class Work>
double timed(Work work) {
  const double start = processor_seconds();
  work();
  return processor_seconds() - start;
}

/// A line of /proc/self/status in bytes: "VmRSS" now, "VmHWM" at most.
inline std::size_t memory_bytes(const std::string& line) {
  std::ifstream status("/proc/self/status");
  for (std::string name; status >> name; status.ignore(1000, '\n')) {
    std::size_t kilobytes = 0;
    if (name == line + ":" && status >> kilobytes) return kilobytes * 1024;
  }
  return 0;
}

/// From now on the most memory counts from what there is now.
inline bool forget_peak_memory() {
  return static_cast<bool>(std::ofstream("/proc/self/clear_refs") << "5" << std::flush);
}

}  // namespace fingerway
