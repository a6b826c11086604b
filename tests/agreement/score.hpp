// What this part answers: how well the program agrees with a set of judged statements, in a few figures.
#pragma once

#include <vector>

#include "agreement/judge.hpp"

namespace fingerway {

struct JudgedChoice {
  const ChoiceRule* rule = nullptr;
  ChoiceVerdict verdict;
};

struct JudgedTrill {
  const TrillStatement* statement = nullptr;
  NotesPerSecond rate;
  Verdict verdict = Verdict::out_of_reach;
};

/// How many of how many.
struct Share {
  std::size_t met = 0;
  std::size_t all = 0;

  void add(bool is_met) {
    met += is_met ? 1 : 0;
    ++all;
  }
  [[nodiscard]] double value() const { return all == 0 ? 1.0 : static_cast<double>(met) / static_cast<double>(all); }
};

/// True when a statement and a verdict fall on the same side: good and awkward are playable, the others are not.
[[nodiscard]] bool right_side(Said said, Verdict verdict);

/// Of all comparable pairs of statements that say different things, the share in which the easier one has the higher
/// rate; equal rates count half. 0.5 is chance, 1 perfect (with two classes it is the area under the curve).
struct RankAgreement {
  double right = 0.0;
  std::size_t pairs = 0;

  [[nodiscard]] double value() const { return pairs == 0 ? 1.0 : right / static_cast<double>(pairs); }
};
[[nodiscard]] RankAgreement rank_agreement(const std::vector<JudgedTrill>& judged);

}  // namespace fingerway
