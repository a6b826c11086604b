// What this part answers: the sign that ends each kind of move, and its words in the legend.
// Private to report.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fingerway/report/lanes.hpp"

namespace fingerway {

/// The sign of a move at a place; shapes differ, so that nothing hangs on colour.
[[nodiscard]] std::string sign_svg(MoveKind kind, bool upward, double x, double y);
/// The line that leads to it: as long as the move takes; arched for a jump, dashed for idle travel.
[[nodiscard]] std::string line_svg(MoveKind kind, double from, double to, double y);

/// A sign and what it means.
struct SignMeaning {
  MoveKind kind = MoveKind::press;
  bool upward = false;
  std::string_view words;
};
[[nodiscard]] const std::vector<SignMeaning>& sign_meanings();

}  // namespace fingerway
