// What this part answers: how long one connection may take, and how large its head may be.
#pragma once

#include <chrono>
#include <cstddef>

namespace fingerway {

struct StreamLimits {
  std::chrono::milliseconds silence{10'000};  ///< between two pieces, either way
  std::chrono::milliseconds arrival{60'000};  ///< of the whole request
  std::chrono::milliseconds leaving{60'000};  ///< of the whole answer, once it begins
  std::size_t head_bytes = 32'768;
};

}  // namespace fingerway
