// What this part answers: how to carry a number together with its unit.
// It does not convert between written and sounding pitch (music) and knows no score time (music).
#pragma once

#include <chrono>
#include <compare>

namespace fingerway {

/// A duration in milliseconds, fractional.
using Ms = std::chrono::duration<double, std::milli>;

/// A number of one unit; two quantities of different units do not mix.
template <class Unit>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double value) : value_(value) {}

  /// The bare number, in the unit the type names.
  [[nodiscard]] constexpr double value() const { return value_; }

  friend constexpr auto operator<=>(Quantity, Quantity) = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.value_ + b.value_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.value_ - b.value_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.value_ * k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
  constexpr Quantity& operator+=(Quantity other) {
    value_ += other.value_;
    return *this;
  }

 private:
  double value_ = 0.0;
};

/// A length on the instrument, millimetres.
using Mm = Quantity<struct MillimetreUnit>;
/// A deviation of tuning, cents (1200 to the octave).
using Cents = Quantity<struct CentUnit>;
/// Awkwardness, in points: steers the choice among playable ways, is never a time.
using Points = Quantity<struct PointUnit>;
/// A frequency, hertz.
using Hertz = Quantity<struct HertzUnit>;
/// A tempo, quarter notes a minute.
using Qpm = Quantity<struct QuartersPerMinuteUnit>;
/// Notes a second, as trills are counted: both notes of the pair count.
using NotesPerSecond = Quantity<struct NotesPerSecondUnit>;

}  // namespace fingerway
