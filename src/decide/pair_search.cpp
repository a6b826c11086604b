#include "pair_search.hpp"

#include <algorithm>
#include <set>

namespace fingerway {
namespace {

/// A change that makes the pair no more than this much faster is not worth its price.
constexpr double least_use = 1.05;

/// Beyond the rate of a fluent trill, faster is no better.
double useful_rate(const Played& stock, double rate) { return std::min(rate, stock.hand.numbers().fluent_from.value); }

bool moves_the_hand(const ElementaryChange& change) {
  return change.kind == ChangeKind::duplicate || change.kind == ChangeKind::roller;
}

/// Pads that the two notes want differently: what a change must touch to be of use between them.
PadSet contested(const Derivation& derivation, const Instrument& instrument, const HardPair& pair) {
  PadSet pads;
  for (const Target& a : derivation.targets) {
    if (instrument.table[a.line].pitch != pair.low) continue;
    for (const Target& b : derivation.targets) {
      if (instrument.table[b.line].pitch != pair.high) continue;
      pads |= (a.demand.closed - b.demand.closed) | (b.demand.closed - a.demand.closed);
      pads |= (a.demand.open - b.demand.open) | (b.demand.open - a.demand.open);
    }
  }
  return pads;
}

}  // namespace

std::vector<ElementaryChange> spelled_out(const std::vector<ElementaryChange>& all, const ChangeSet& set) {
  std::vector<ElementaryChange> changes;
  changes.reserve(set.size());
  for (std::size_t change : set) changes.push_back(all[change]);
  return changes;
}

PairSearch::PairSearch(const Played& stock, const std::vector<ElementaryChange>& all, const HardPair& pair,
                       const SearchLimits& limits, const RunJobs& run)
    : stock_(stock), all_(all), pair_(pair), limits_(limits), run_(run), only_(stock.instrument) {
  std::erase_if(only_.table,
                [&](const TableFingering& line) { return line.pitch != pair.low && line.pitch != pair.high; });
}

std::vector<std::size_t> PairSearch::useful() const {
  const PadSet pads = contested(derive(only_), only_, pair_);
  std::vector<std::size_t> result;
  for (std::size_t c = 0; c < all_.size(); ++c) {
    const ElementaryChange& change = all_[c];
    const bool linkage = change.kind == ChangeKind::opens || change.kind == ChangeKind::closes;
    const PadSet moved = linkage ? PadSet{change.pad}
                                 : moved_by(only_, change.touch) |
                                       (change.kind == ChangeKind::roller ? moved_by(only_, change.beside) : PadSet{});
    if (moved.intersects(pads)) result.push_back(c);
  }
  return result;
}

double PairSearch::rate_of(const ChangeSet& set) const {
  const std::vector<ElementaryChange> changes = spelled_out(all_, set);
  const auto changed = with_changes(only_, changes, limits_.changes);
  if (!changed) return 0.0;
  // Linkages leave the fingers where they are: the hand need not be worked out again.
  const bool same_hand = std::ranges::none_of(changes, moves_the_hand);
  const Played made = same_hand ? Played{.instrument = *changed,
                                         .works = works_of(*changed),
                                         .derivation = derive(*changed),
                                         .hand = stock_.hand,
                                         .player = stock_.player}
                                : played(*changed, stock_.hand.numbers(), stock_.player);
  const Trill trill = best_trill(made, pair_.low, pair_.high);
  return trill.best ? trill.best->rate.value() : 0.0;
}

void PairSearch::try_all(std::vector<ChangeSet> sets) {
  std::erase_if(sets, [&](const ChangeSet& set) { return tried_.contains(set); });
  const std::size_t left = limits_.trials > tried_.size() ? limits_.trials - tried_.size() : 0;
  if (sets.size() > left) sets.resize(left);
  std::vector<double> rates(sets.size());
  run_(sets.size(), [&](std::size_t i) { rates[i] = rate_of(sets[i]); });
  for (std::size_t i = 0; i < sets.size(); ++i) {
    TriedSet done{.changes = sets[i], .rate = rates[i], .price = 0};
    for (std::size_t change : sets[i]) done.price += price_steps(all_[change].price);
    tried_.emplace(sets[i], std::move(done));
  }
}

std::vector<TriedSet> PairSearch::ranked(std::size_t size) const {
  std::vector<TriedSet> list;
  for (const auto& [changes, set] : tried_) {
    if (changes.size() == size) list.push_back(set);
  }
  std::ranges::stable_sort(list, [&](const TriedSet& a, const TriedSet& b) {
    const double fast_a = useful_rate(stock_, a.rate);
    const double fast_b = useful_rate(stock_, b.rate);
    return fast_a != fast_b ? fast_a > fast_b : a.price < b.price;
  });
  return list;
}

std::vector<ChangeSet> PairSearch::grown(const std::vector<TriedSet>& from, const std::vector<std::size_t>& by) const {
  std::vector<ChangeSet> sets;
  std::set<ChangeSet> seen;
  for (const TriedSet& set : from) {
    for (std::size_t change : by) {
      const bool fits = std::ranges::all_of(set.changes, [&](std::size_t c) { return agree(all_[c], all_[change]); });
      if (!fits) continue;
      ChangeSet larger = set.changes;
      larger.insert(std::ranges::upper_bound(larger, change), change);
      if (seen.insert(larger).second) sets.push_back(std::move(larger));
    }
  }
  return sets;
}

bool PairSearch::earns_its_place(const TriedSet& set) const {
  const double rate = useful_rate(stock_, set.rate);
  if (rate < useful_rate(stock_, pair_.rate.value()) * least_use) return false;
  if (set.changes.size() == 1) return true;
  for (std::size_t left_out = 0; left_out < set.changes.size(); ++left_out) {
    ChangeSet fewer = set.changes;
    fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(left_out));
    const auto known = tried_.find(fewer);
    const double without = known != tried_.end() ? known->second.rate : rate_of(fewer);
    if (rate < useful_rate(stock_, without) * least_use) return false;
  }
  return true;
}

std::vector<TriedSet> PairSearch::best() {
  const std::vector<std::size_t> candidates = useful();
  std::vector<ChangeSet> singles;
  for (std::size_t change : candidates) singles.push_back({change});
  try_all(singles);
  if (limits_.most_changes >= 2) {
    // All pairs: a change may be of use only together with another, and spoil everything by itself.
    try_all(grown(ranked(1), candidates));
  }
  for (std::size_t size = 2; size < limits_.most_changes; ++size) {
    std::vector<TriedSet> from = ranked(size);
    if (from.size() > limits_.beam) from.resize(limits_.beam);
    try_all(grown(from, candidates));
  }
  std::vector<TriedSet> result;
  for (std::size_t size = 1; size <= limits_.most_changes; ++size) {
    std::vector<TriedSet> list = ranked(size);
    std::size_t taken = 0;
    for (TriedSet& set : list) {
      if (taken == limits_.beam) break;
      if (!earns_its_place(set)) continue;
      result.push_back(std::move(set));
      ++taken;
    }
  }
  std::ranges::stable_sort(result, [&](const TriedSet& a, const TriedSet& b) {
    const double fast_a = useful_rate(stock_, a.rate);
    const double fast_b = useful_rate(stock_, b.rate);
    return fast_a != fast_b ? fast_a > fast_b : a.price < b.price;
  });
  return result;
}

}  // namespace fingerway
