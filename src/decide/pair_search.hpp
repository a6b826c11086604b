// What this part answers: which sets of elementary changes make one pair of notes go faster, there and back.
// Private to decide. It does not look at the rest of the repertoire.
#pragma once

#include <map>
#include <vector>

#include "fingerway/decide/conversion_search.hpp"

namespace fingerway {

/// Changes by their number in the list of all, rising.
using ChangeSet = std::vector<std::size_t>;

/// A set that was tried.
struct TriedSet {
  ChangeSet changes;
  double rate = 0.0;  ///< notes a second; 0 where a note is lost
  int price = 0;
};

/// The search for one pair.
class PairSearch {
 public:
  PairSearch(const Played& stock, const std::vector<ElementaryChange>& all, const HardPair& pair,
             const SearchLimits& limits, const RunJobs& run);

  /// The best sets of up to the most changes, the fastest first, of equal ones the cheaper; each change earns its
  /// place.
  [[nodiscard]] std::vector<TriedSet> best();
  [[nodiscard]] std::size_t tried() const { return tried_.size(); }

 private:
  [[nodiscard]] std::vector<std::size_t> useful() const;
  [[nodiscard]] double rate_of(const ChangeSet& changes) const;
  void try_all(std::vector<ChangeSet> sets);
  [[nodiscard]] std::vector<TriedSet> ranked(std::size_t size) const;
  [[nodiscard]] bool earns_its_place(const TriedSet& set) const;
  [[nodiscard]] std::vector<ChangeSet> grown(const std::vector<TriedSet>& from,
                                             const std::vector<std::size_t>& by) const;

  const Played& stock_;
  const std::vector<ElementaryChange>& all_;
  const HardPair& pair_;
  const SearchLimits& limits_;
  const RunJobs& run_;
  Instrument only_;  ///< the instrument with the table lines of these two notes alone: deriving it is quick
  std::map<ChangeSet, TriedSet> tried_;
};

/// The changes of a set, spelled out.
[[nodiscard]] std::vector<ElementaryChange> spelled_out(const std::vector<ElementaryChange>& all, const ChangeSet& set);

}  // namespace fingerway
