#include "agreement/score.hpp"

namespace fingerway {

bool right_side(Said said, Verdict verdict) {
  const bool playable = said == Said::good || said == Said::awkward;
  const bool found_playable = verdict == Verdict::fluent || verdict == Verdict::workable;
  return playable == found_playable;
}

RankAgreement rank_agreement(const std::vector<JudgedTrill>& judged) {
  RankAgreement agreement;
  for (const JudgedTrill& a : judged) {
    for (const JudgedTrill& b : judged) {
      if (a.statement->said >= b.statement->said || !comparable(a.statement->kind, b.statement->kind)) continue;
      ++agreement.pairs;
      if (a.rate.value() > b.rate.value()) {
        agreement.right += 1.0;
      } else if (a.rate.value() == b.rate.value()) {
        agreement.right += 0.5;
      }
    }
  }
  return agreement;
}

}  // namespace fingerway
