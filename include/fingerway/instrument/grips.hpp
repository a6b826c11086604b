// What this part answers: all that one finger can hold at one moment.
// It does not say what the pads do then (mechanism) or how long getting there takes (motion).
#pragma once

#include <vector>

#include "fingerway/instrument/instrument.hpp"

namespace fingerway {

/// One way a finger can be: nothing, one touch, one touch half, or a declared grip. `half` is a part of `touches`.
struct Hold {
  TouchSet touches;
  TouchSet half;

  friend auto operator<=>(const Hold&, const Hold&) = default;
};

/// All holds of a finger; the empty one first, then single touches in table order, half states, declared grips.
[[nodiscard]] std::vector<Hold> holds_of(const Instrument& instrument, Finger finger);

/// The touch a finger stays over when it lets go of a hold: the one of lowest index. The hold must not be empty.
[[nodiscard]] TouchId home_touch(const Hold& hold);

/// Distance between two touches, from centre to centre.
[[nodiscard]] Mm distance(const Instrument& instrument, TouchId a, TouchId b);

}  // namespace fingerway
