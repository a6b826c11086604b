// What this part answers: the ten fingers that may work touches, and what a player calls them.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace fingerway {

/// A finger: T thumb, 1 index to 4 little finger, of the left or right hand.
enum class Finger : std::uint8_t { LT, L1, L2, L3, L4, RT, R1, R2, R3, R4 };
inline constexpr std::size_t finger_count = 10;
inline constexpr std::array<Finger, finger_count> all_fingers = {Finger::LT, Finger::L1, Finger::L2, Finger::L3,
                                                                 Finger::L4, Finger::RT, Finger::R1, Finger::R2,
                                                                 Finger::R3, Finger::R4};
enum class Hand : std::uint8_t { left, right };

[[nodiscard]] constexpr std::size_t index(Finger f) { return static_cast<std::size_t>(f); }
[[nodiscard]] constexpr Hand hand_of(Finger f) { return f < Finger::RT ? Hand::left : Hand::right; }
/// Place in the hand: 0 thumb to 4 little finger.
[[nodiscard]] constexpr std::size_t digit(Finger f) { return index(f) % 5; }

/// "LT", "R4": as in data.
[[nodiscard]] std::string_view code(Finger f);
/// "left thumb", "right little finger": as told to people.
[[nodiscard]] std::string_view words(Finger f);
[[nodiscard]] std::optional<Finger> parse_finger(std::string_view code);

}  // namespace fingerway
