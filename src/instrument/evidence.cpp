#include "fingerway/instrument/evidence.hpp"

namespace fingerway {

std::string_view words(Confidence c) {
  switch (c) {
    case Confidence::very_low:
      return "very low";
    case Confidence::low:
      return "low";
    case Confidence::medium:
      return "medium";
    case Confidence::high:
      break;
  }
  return "high";
}

std::optional<Confidence> parse_confidence(std::string_view text) {
  if (text == "very-low") return Confidence::very_low;
  if (text == "low") return Confidence::low;
  if (text == "medium") return Confidence::medium;
  if (text == "high") return Confidence::high;
  return std::nullopt;
}

}  // namespace fingerway
