// What this part answers: what the fingers of a hand do together, tabled by the way each of them goes, and what moving
// several fingers at once takes. Private to motion; hand.hpp keeps the tables.
#pragma once

#include <vector>

#include "fingerway/motion/hand.hpp"

namespace fingerway {

/// A finger's part in what its hand does.
[[nodiscard]] FingerPart part_of(const Move& move, std::size_t digit, bool holds);

/// One for every combination of ways of five fingers.
[[nodiscard]] std::vector<Together> together_table(const MotionNumbers& numbers);

/// Expected from the first moving finger to the last, in ms.
[[nodiscard]] MoversTable spread_table(const MotionNumbers& numbers, Level level);
/// For moving several fingers, in points.
[[nodiscard]] MoversTable fingers_table(const MotionNumbers& numbers);

}  // namespace fingerway
