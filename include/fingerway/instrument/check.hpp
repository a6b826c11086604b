// What this part answers: every contradiction inside one instrument that its types do not rule out.
// It does not read files; readers have already refused what is not well formed.
#pragma once

#include <string>
#include <vector>

#include "fingerway/instrument/instrument.hpp"

namespace fingerway {

/// A contradiction: which part of the data (for the reader to find its line), what, hint.
struct Finding {
  enum class Subject { instrument, pad, touch, rule, grip, slide, latch, fingering } subject = Subject::instrument;
  std::size_t index = 0;  ///< into the list the subject names
  std::string what;
  std::string hint;
};

/// All faults: a grip with two fingers, a fingering that needs one finger in two places that are no grip, a half state
/// on a touch that has none, a pad that nothing moves, a touch that moves nothing, a closing rule that would fight the
/// finger opening the pad (the pad must spring open by itself), notes outside the range, a range note without a line.
[[nodiscard]] std::vector<Finding> check(const Instrument& instrument);

}  // namespace fingerway
