#include <cstdint>
#include <limits>
#include <stdexcept>

#include <catch2/catch.hpp>

#include "fingerway/music/score_time.hpp"

using namespace fingerway;

namespace {

constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t smallest = std::numeric_limits<std::int64_t>::min();

}  // namespace

TEST_CASE("a score time is a reduced fraction with a positive denominator") {
  CHECK(ScoreTime(6, 4) == ScoreTime(3, 2));
  CHECK(ScoreTime(-6, -4) == ScoreTime(3, 2));
  CHECK(ScoreTime(1, -2).numerator() == -1);
  CHECK(ScoreTime(1, -2).denominator() == 2);
  CHECK(ScoreTime(0, 7).denominator() == 1);
  CHECK(ScoreTime().is_zero());
}

TEST_CASE("three triplet eighths are exactly a quarter") {
  const ScoreTime third(1, 3);
  CHECK(third + third + third == ScoreTime(1));
  CHECK(ScoreTime(1) - third - third == third);
}

TEST_CASE("score times multiply, divide and order exactly") {
  CHECK(ScoreTime(2, 3) * ScoreTime(3, 4) == ScoreTime(1, 2));
  CHECK(ScoreTime(2, 3) / ScoreTime(-4, 3) == ScoreTime(-1, 2));
  CHECK(ScoreTime(1, 3) < ScoreTime(1, 2));
  CHECK(ScoreTime(-1, 2) < ScoreTime(-1, 3));
  // Two fractions that are equal as doubles.
  CHECK(ScoreTime(largest - 1, largest) < ScoreTime(1));
  CHECK((ScoreTime(1, largest) <=> ScoreTime(1, largest - 1)) == std::strong_ordering::less);
}

TEST_CASE("a result that does not fit is an error, never a wrong time") {
  CHECK_THROWS_AS(ScoreTime(largest) + ScoreTime(1), std::overflow_error);
  CHECK_THROWS_AS(ScoreTime(smallest) - ScoreTime(1), std::overflow_error);
  CHECK_THROWS_AS(ScoreTime(largest) * ScoreTime(2), std::overflow_error);
  CHECK_THROWS_AS(ScoreTime(1, largest) + ScoreTime(1, largest - 1), std::overflow_error);
  CHECK_THROWS_AS(ScoreTime(1) / ScoreTime(smallest), std::overflow_error);
  CHECK(ScoreTime(largest) * ScoreTime(2, 4) * ScoreTime(2) == ScoreTime(largest));
  CHECK(ScoreTime(smallest) + ScoreTime(largest) == ScoreTime(-1));
}

TEST_CASE("score times are told as fractions") {
  CHECK(to_string(ScoreTime(3, 2)) == "3/2");
  CHECK(to_string(ScoreTime(8, 2)) == "4");
  CHECK(to_string(ScoreTime(-1, 3)) == "-1/3");
}
