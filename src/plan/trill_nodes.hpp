// What this part answers: the postures of a trill or tremolo and its rate, for one pair of fingerings.
// Private to plan; shared by the board of trills and by trills inside a passage.
#pragma once

#include "fingerway/plan/played.hpp"
#include "postures.hpp"

namespace fingerway {

/// Both postures of a pair: a finger that only one of the two needs waits over its touch during the other.
struct PairPostures {
  Posture from;
  Posture to;
};
/// `idle`: where fingers are that neither of the two needs.
[[nodiscard]] PairPostures pair_postures(const Played& played, const Candidate& from, const Candidate& to,
                                         const Posture& idle);

}  // namespace fingerway
