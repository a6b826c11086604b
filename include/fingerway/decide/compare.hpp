// What this part answers: the same passage on two instruments: what changes hands, what is gained, what is lost.
// It does not say whether a conversion pays off over a repertoire.
#pragma once

#include <vector>

#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// A note where the two plans part: another fingering, or another way to get there.
struct DifferingNote {
  std::size_t note = 0;
  bool fingering_differs = false;
  bool arrival_differs = false;
};

struct Comparison {
  Plan stock;
  Plan converted;
  std::vector<DifferingNote> differing;
  /// Fingerings only one of the instruments has, for the notes of this passage (trills' second notes included).
  Difference here;
};

[[nodiscard]] Comparison compare(const Played& stock, const Played& converted, const Passage& passage,
                                 const PlanRequest& request);

/// The same from plans that are there already.
[[nodiscard]] Comparison compared(const Played& stock, const Played& converted, const Passage& passage, Plan stock_plan,
                                  Plan converted_plan);

}  // namespace fingerway
