#include "workers.hpp"

#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <exception>
#include <iostream>
#include <thread>
#include <utility>
#include <vector>

namespace fingerway {

unsigned thread_count(unsigned asked) { return asked > 0 ? asked : std::max(1U, std::thread::hardware_concurrency()); }

void run_on_threads(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& job) {
  std::atomic<std::size_t> next = 0;
  std::mutex mutex;
  std::exception_ptr failed;
  const auto work = [&] {
    try {
      for (std::size_t i = next++; i < count; i = next++) job(i);
    } catch (...) {
      const std::scoped_lock lock(mutex);
      if (!failed) failed = std::current_exception();
      next = count;
    }
  };
  std::vector<std::jthread> others;
  const std::size_t wanted = std::min<std::size_t>(threads, count);
  for (std::size_t t = 1; t < wanted; ++t) others.emplace_back(work);
  work();
  others.clear();
  if (failed) std::rethrow_exception(failed);
}

Progress::Progress(std::ostream& out, std::string what, std::size_t total)
    : out_(&out == &std::cerr && ::isatty(STDERR_FILENO) != 0 ? &out : nullptr), what_(std::move(what)), total_(total) {
  add(0);
}

Progress::~Progress() {
  if (out_ != nullptr) *out_ << "\r\033[K" << std::flush;
}

void Progress::add(std::size_t done) {
  const std::scoped_lock lock(mutex_);
  done_ += done;
  if (out_ == nullptr || total_ == 0) return;
  const std::size_t percent = done_ * 100 / total_;
  if (percent == shown_percent_) return;
  shown_percent_ = percent;
  constexpr std::size_t width = 30;
  const std::size_t full = width * done_ / total_;
  *out_ << "\r[" << std::string(full, '#') << std::string(width - full, '.') << "] " << done_ << " of " << total_ << ' '
        << what_ << std::flush;
}

}  // namespace fingerway
