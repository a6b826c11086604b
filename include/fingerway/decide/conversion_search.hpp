// What this part answers: which small sets of elementary changes to the keywork would help a repertoire most.
// It proposes; whether a change can be built, a qualified repairer says. It knows no conversion files.
#pragma once

#include <functional>
#include <vector>

#include "fingerway/decide/elementary.hpp"
#include "fingerway/decide/payoff.hpp"

namespace fingerway {

/// Bounds of the search; they also bound its time. The same bounds give the same answer on every machine.
struct SearchLimits {
  std::size_t pairs = 4;         ///< of the hardest pairs of notes, each searched by itself
  std::size_t most_changes = 3;  ///< in a set
  std::size_t beam = 12;         ///< sets of each size that are built on
  std::size_t trials = 8000;     ///< sets tried for a pair
  std::size_t full = 10;         ///< sets planned over the whole repertoire
  ChangeLimits changes;
};

/// Two notes that stand in the way: trilled, or following each other, too hard for the tempo.
struct HardPair {
  WrittenPitch low;
  WrittenPitch high;
  double played = 0.0;  ///< how often, each time with the share of its piece
  NotesPerSecond rate;  ///< the fastest there and back on the stock instrument
  NoteSite example;
};

/// A set of changes and what it does.
struct ProposedSet {
  std::vector<ElementaryChange> changes;
  int price = 0;                      ///< sum of the price classes' steps
  std::vector<NotesPerSecond> rates;  ///< of the hard pairs, with the changes
  Balance balance;                    ///< over the whole repertoire
  std::vector<Balance> pieces;
  std::vector<LostFingering> lost;  ///< that the stock plans use
};

struct SearchResult {
  std::vector<HardPair> pairs;        ///< the hardest first
  std::size_t changes = 0;            ///< elementary changes that could be made
  std::size_t tried = 0;              ///< sets tried
  std::vector<ProposedSet> proposed;  ///< the greatest gain first, of equal ones the cheaper; only those that gain
};

/// Runs job(0) ... job(count - 1), in any order, perhaps at once; they write to places of their own.
using RunJobs = std::function<void(std::size_t count, const std::function<void(std::size_t)>& job)>;

/// Searches pair by pair: single changes, all pairs of changes, and one more change on the best of them; every change
/// of a set must earn its place. The best sets, and unions of the best of different pairs, are then planned over the
/// whole repertoire as sets.
[[nodiscard]] SearchResult search_conversions(const Played& stock, const Repertoire& repertoire,
                                              const SearchLimits& limits, const RunJobs& run);

/// The pairs of notes that are laborious or out of reach at the repertoire's tempos, the most often played first.
[[nodiscard]] std::vector<HardPair> hard_pairs(const Played& stock, const Repertoire& repertoire,
                                               const std::vector<PassageOutcome>& outcomes, std::size_t most);

}  // namespace fingerway
