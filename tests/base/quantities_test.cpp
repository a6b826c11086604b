#include <concepts>

#include <catch2/catch.hpp>

#include "fingerway/base/quantities.hpp"

using namespace fingerway;

namespace {

template <class A, class B>
concept addable = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept comparable = requires(A a, B b) {
  a < b;
};

static_assert(addable<Mm, Mm> && addable<Ms, Ms> && comparable<Qpm, Qpm>);
static_assert(!addable<Ms, Mm> && !addable<Mm, Ms>, "times and lengths do not mix");
static_assert(!addable<Mm, Cents> && !addable<Points, Ms>, "units do not mix");
static_assert(!comparable<Hertz, NotesPerSecond>, "units do not compare");
static_assert(!std::convertible_to<double, Mm> && !std::convertible_to<Mm, double>, "a bare number has no unit");
static_assert(!addable<Mm, double>);

}  // namespace

TEST_CASE("quantities of one unit add, scale and compare") {
  CHECK(Mm(2.0) + Mm(3.0) == Mm(5.0));
  CHECK(Mm(2.0) - Mm(3.0) == Mm(-1.0));
  CHECK(2.0 * Mm(3.0) == Mm(3.0) * 2.0);
  CHECK(Mm(3.0) / Mm(2.0) == 1.5);
  CHECK(Mm(2.0) < Mm(3.0));
  Points sum(1.0);
  sum += Points(0.5);
  CHECK(sum.value() == 1.5);
}
