#include <random>
#include <string_view>

#include "store.hpp"

namespace fingerway {

std::string new_token() {
  constexpr std::string_view digits = "0123456789abcdef";
  std::random_device system;
  std::string token;
  for (int word = 0; word < 4; ++word) {
    const unsigned int bits = system();
    for (unsigned int shift = 0; shift < 32; shift += 4) token += digits[(bits >> shift) & 0xFU];
  }
  return token;
}

}  // namespace fingerway
