// What this part answers: a short number that tells whether what an outcome depends on has changed.
// It is no protection against anybody who wants two things to look alike.
#pragma once

#include <cstdint>
#include <string_view>

#include "fingerway/instrument/instrument.hpp"
#include "fingerway/motion/numbers.hpp"
#include "fingerway/motion/player.hpp"
#include "fingerway/music/passage.hpp"

namespace fingerway {

/// A hash being fed, value by value (FNV-1a, 64 bits; the same on every machine).
class Fingerprint {
 public:
  Fingerprint& add(std::string_view text);
  Fingerprint& add(std::uint64_t value);
  Fingerprint& add(double value);
  /// All of a passage that planning looks at: notes, times, tempo; not where it stands in which file.
  Fingerprint& add(const Passage& passage);
  /// All of an instrument that planning looks at; not its names, sources and prices.
  Fingerprint& add(const Instrument& instrument);
  Fingerprint& add(const MotionNumbers& numbers);
  /// All of a player but the name.
  Fingerprint& add(const Player& player);

  [[nodiscard]] std::uint64_t value() const { return value_; }

 private:
  std::uint64_t value_ = 0xCBF29CE484222325ULL;
};

}  // namespace fingerway
