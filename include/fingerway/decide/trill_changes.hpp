// What this part answers: what a conversion changes for each trill and tremolo of an instrument.
// It knows no passage; what a repertoire gains is payoff's.
#pragma once

#include <vector>

#include "fingerway/plan/trills.hpp"

namespace fingerway {

/// One pair of notes on both instruments.
struct TrillChange {
  Trill stock;
  Trill converted;

  /// Notes a second more on the converted instrument; a pair that cannot be fingered counts as none a second.
  [[nodiscard]] NotesPerSecond gain() const;
};

/// Both instruments' trills side by side, matched by their notes. A note only one of them has is trilled on the
/// other with nothing.
[[nodiscard]] std::vector<TrillChange> trill_changes(const std::vector<Trill>& stock,
                                                     const std::vector<Trill>& converted);

}  // namespace fingerway
