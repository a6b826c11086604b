// What this part answers: whose turn it is on the machine's cores: requests that plan wait for a free one.
#pragma once

#include <semaphore>

namespace fingerway {

/// Waits for a free core, and gives it back at the end of the scope.
class Turn {
 public:
  explicit Turn(std::counting_semaphore<>& working) : working_(working) { working_.acquire(); }
  ~Turn() { working_.release(); }
  Turn(const Turn&) = delete;
  Turn& operator=(const Turn&) = delete;

 private:
  std::counting_semaphore<>& working_;
};

}  // namespace fingerway
