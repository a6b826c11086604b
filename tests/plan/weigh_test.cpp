// Terms of what fingerings and changes cost, on the toy and on our own bassoon.
#include <catch2/catch.hpp>

#include "fingerway/plan/weigh.hpp"
#include "report/toy_report.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

double term_of(const NoteCost& cost, NoteTerm term) { return cost.terms[static_cast<std::size_t>(term)]; }

}  // namespace

TEST_CASE("tightness grows with the square of the time used, and no further than all of it") {
  const MotionNumbers& n = own_numbers();
  CHECK(tightness(n, 1.0) == Approx(n.tightness_points.value));
  CHECK(tightness(n, 0.5) == Approx(n.tightness_points.value / 4));
  CHECK(tightness(n, 3.0) == tightness(n, 1.0));
}

TEST_CASE("what does not fit costs at once, and more the less it fits") {
  const MotionNumbers& n = own_numbers();
  CHECK(overload(n, 1.0) == 0.0);
  CHECK(overload(n, 1.001) == Approx(n.misfit_points.value + 0.001 * n.overload_points.value));
  CHECK(overload(n, 2.0) == Approx(n.misfit_points.value + n.overload_points.value));
}

TEST_CASE("an unstable or resistant fingering is against loud and soft, a stuffy or soft one against loud only") {
  MotionNumbers n = toy_numbers();
  n.dynamic_points.value = 7.0;
  const auto against = [&](Trait trait, Dynamic dynamic) {
    Instrument toy = toy_instrument();
    toy.table[1].traits = {trait};
    const Played player = played(toy, n, Level::amateur);
    const Candidate& b = player.derivation.of(WrittenPitch(59)).front();
    return term_of(note_cost(player, b, {.length = Ms(100), .dynamic = dynamic}), NoteTerm::dynamic);
  };
  for (Trait trait : {Trait::unstable, Trait::resistant}) {
    CHECK(against(trait, Dynamic::ff) == Approx(7.0));
    CHECK(against(trait, Dynamic::p) == Approx(7.0));
    CHECK(against(trait, Dynamic::ppp) == Approx(7.0));
    CHECK(against(trait, Dynamic::mf) == 0.0);
    CHECK(against(trait, Dynamic::unmarked) == 0.0);
  }
  for (Trait trait : {Trait::soft, Trait::stuffy}) {
    CHECK(against(trait, Dynamic::f) == Approx(7.0));
    CHECK(against(trait, Dynamic::p) == 0.0);
  }
}

TEST_CASE("muting keys that stand in the table are meant, and cost nothing as held without need") {
  const Played& bassoon = own_played("bassoon");
  int muted = 0;
  for (const TableFingering& line : bassoon.instrument.table) {
    const auto own = as_candidate(bassoon.instrument, bassoon.derivation, line.pitch, line.fingering);
    if (!own || own->spare.empty() || bassoon.instrument.table[own->line].fingering != line.fingering) continue;
    ++muted;
    CHECK(term_of(note_cost(bassoon, *own, {.length = Ms(500)}), NoteTerm::spare) == 0.0);
  }
  CHECK(muted > 0);
}
