// What this part answers: exact time in a score, in quarter notes, as a reduced fraction.
// It is not clock time: the tempo map (tempo.hpp) turns it into milliseconds.
#pragma once

#include <compare>
#include <cstdint>
#include <string>

namespace fingerway {

/// A point or a length in quarter notes: a reduced fraction with a positive denominator.
/// Arithmetic throws std::overflow_error when a result does not fit 64 bits; readers turn that into a fault.
class ScoreTime {
 public:
  constexpr ScoreTime() = default;
  /// numerator / denominator quarter notes; the denominator must not be zero.
  explicit ScoreTime(std::int64_t numerator, std::int64_t denominator = 1);

  [[nodiscard]] constexpr std::int64_t numerator() const { return numerator_; }
  [[nodiscard]] constexpr std::int64_t denominator() const { return denominator_; }
  [[nodiscard]] constexpr double quarters() const {
    return static_cast<double>(numerator_) / static_cast<double>(denominator_);
  }
  [[nodiscard]] constexpr bool is_zero() const { return numerator_ == 0; }

  friend ScoreTime operator+(ScoreTime a, ScoreTime b);
  friend ScoreTime operator-(ScoreTime a, ScoreTime b);
  friend ScoreTime operator*(ScoreTime a, ScoreTime b);
  /// The divisor must not be zero.
  friend ScoreTime operator/(ScoreTime a, ScoreTime b);
  ScoreTime& operator+=(ScoreTime other) { return *this = *this + other; }
  friend constexpr bool operator==(ScoreTime, ScoreTime) = default;
  friend std::strong_ordering operator<=>(ScoreTime a, ScoreTime b);

 private:
  std::int64_t numerator_ = 0;
  std::int64_t denominator_ = 1;
};

/// "3/2", "4": as read in data and shown in reports.
[[nodiscard]] std::string to_string(ScoreTime time);

}  // namespace fingerway
