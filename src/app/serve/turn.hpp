// What this part answers: whose turn it is on the machine's cores: requests that plan wait for a free one.
#pragma once

#include <atomic>
#include <semaphore>
#include <stdexcept>

namespace fingerway {

/// Carries a request out of the server when it stops before the request had its turn.
class Stopping : public std::runtime_error {
 public:
  Stopping() : std::runtime_error("the server is stopping") {}
};

/// The cores there are to work on.
class Turns {
 public:
  explicit Turns(unsigned at_a_time) : free_(static_cast<std::ptrdiff_t>(at_a_time)) {}

  /// Who waits now, or asks later, gets no turn.
  void stop() { over_ = true; }

 private:
  friend class TurnOnCore;

  std::counting_semaphore<> free_;
  std::atomic<bool> over_ = false;
};

/// Waits for a free core, and gives it back at the end of the scope. Throws Stopping.
class TurnOnCore {
 public:
  explicit TurnOnCore(Turns& turns) : turns_(turns) {
    turns_.free_.acquire();
    if (!turns_.over_) return;
    turns_.free_.release();
    throw Stopping();
  }
  ~TurnOnCore() { turns_.free_.release(); }
  TurnOnCore(const TurnOnCore&) = delete;
  TurnOnCore& operator=(const TurnOnCore&) = delete;

 private:
  Turns& turns_;
};

}  // namespace fingerway
