#include "fingerway/music/score_time.hpp"

#include <cassert>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace fingerway {

namespace {

// Products and sums of products of two 64-bit numbers fit here, so only the reduced result needs a check.
__extension__ typedef __int128 Wide;

bool fits(Wide n) {
  return n >= std::numeric_limits<std::int64_t>::min() && n <= std::numeric_limits<std::int64_t>::max();
}

Wide common_divisor(Wide a, Wide b) {
  if (a < 0) a = -a;
  // Nearly every score stays small, where the 64-bit division is several times faster.
  if (fits(a) && fits(b)) return std::gcd(static_cast<std::int64_t>(a), static_cast<std::int64_t>(b));
  while (b != 0) {
    const Wide rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

struct Fraction {
  std::int64_t numerator;
  std::int64_t denominator;
};

Fraction reduced(Wide numerator, Wide denominator) {
  assert(denominator != 0);
  if (denominator < 0) {
    numerator = -numerator;
    denominator = -denominator;
  }
  const Wide divisor = common_divisor(numerator, denominator);
  numerator /= divisor;
  denominator /= divisor;
  if (!fits(numerator) || !fits(denominator)) throw std::overflow_error("score time out of range");
  return {static_cast<std::int64_t>(numerator), static_cast<std::int64_t>(denominator)};
}

ScoreTime time_of(Wide numerator, Wide denominator) {
  const Fraction fraction = reduced(numerator, denominator);
  return ScoreTime(fraction.numerator, fraction.denominator);
}

}  // namespace

ScoreTime::ScoreTime(std::int64_t numerator, std::int64_t denominator) {
  const Fraction fraction = reduced(numerator, denominator);
  numerator_ = fraction.numerator;
  denominator_ = fraction.denominator;
}

ScoreTime operator+(ScoreTime a, ScoreTime b) {
  return time_of(Wide{a.numerator_} * b.denominator_ + Wide{b.numerator_} * a.denominator_,
                 Wide{a.denominator_} * b.denominator_);
}

ScoreTime operator-(ScoreTime a, ScoreTime b) {
  return time_of(Wide{a.numerator_} * b.denominator_ - Wide{b.numerator_} * a.denominator_,
                 Wide{a.denominator_} * b.denominator_);
}

ScoreTime operator*(ScoreTime a, ScoreTime b) {
  return time_of(Wide{a.numerator_} * b.numerator_, Wide{a.denominator_} * b.denominator_);
}

ScoreTime operator/(ScoreTime a, ScoreTime b) {
  assert(!b.is_zero());
  return time_of(Wide{a.numerator_} * b.denominator_, Wide{a.denominator_} * b.numerator_);
}

std::strong_ordering operator<=>(ScoreTime a, ScoreTime b) {
  const Wide left = Wide{a.numerator_} * b.denominator_;
  const Wide right = Wide{b.numerator_} * a.denominator_;
  if (left < right) return std::strong_ordering::less;
  return left > right ? std::strong_ordering::greater : std::strong_ordering::equal;
}

std::string to_string(ScoreTime time) {
  std::string text = std::to_string(time.numerator());
  if (time.denominator() != 1) text += "/" + std::to_string(time.denominator());
  return text;
}

}  // namespace fingerway
