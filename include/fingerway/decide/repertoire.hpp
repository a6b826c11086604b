// What this part answers: what somebody plays: passages with how much each counts and how often it is played.
// It reads no lists or folders (read, app) and plans nothing.
#pragma once

#include <string>
#include <vector>

#include "fingerway/music/passage.hpp"

namespace fingerway {

/// One passage of a repertoire.
struct Piece {
  Passage passage;
  std::string name;   ///< how reports call it: "Lowland round, bars 9-12"
  std::string bars;   ///< as asked for; empty: all
  double weight = 1;  ///< how much it matters to its player
  double times = 1;   ///< how often it is played
  /// What each of its notes counts for in the repertoire.
  [[nodiscard]] double share() const { return weight * times; }
};

struct Repertoire {
  std::string name;
  std::string file;  ///< the list or folder it comes from
  std::vector<Piece> pieces;
  std::vector<Remark> skipped;  ///< files that could not be used, and why
};

}  // namespace fingerway
