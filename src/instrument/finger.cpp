#include "fingerway/instrument/finger.hpp"

#include <algorithm>

namespace fingerway {

namespace {

constexpr std::array<std::string_view, finger_count> codes = {"LT", "L1", "L2", "L3", "L4",
                                                              "RT", "R1", "R2", "R3", "R4"};
constexpr std::array<std::string_view, finger_count> names = {
    "left thumb",  "left index finger",  "left middle finger",  "left ring finger",  "left little finger",
    "right thumb", "right index finger", "right middle finger", "right ring finger", "right little finger"};

}  // namespace

std::string_view code(Finger f) { return codes[index(f)]; }

std::string_view words(Finger f) { return names[index(f)]; }

std::optional<Finger> parse_finger(std::string_view code) {
  const auto found = std::find(codes.begin(), codes.end(), code);
  if (found == codes.end()) return std::nullopt;
  return all_fingers[static_cast<std::size_t>(found - codes.begin())];
}

}  // namespace fingerway
