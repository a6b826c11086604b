#include "fingerway/decide/conversion_search.hpp"

#include <algorithm>
#include <set>

#include "pair_search.hpp"

namespace fingerway {
namespace {

/// A set of changes that a pair of notes asks for, and how well it serves.
struct Pooled {
  ChangeSet changes;
  int price = 0;
  double promise = 0.0;  ///< points saved around the hard places, less what is lost elsewhere
};

bool all_agree(const std::vector<ElementaryChange>& all, const ChangeSet& set) {
  for (std::size_t i = 0; i < set.size(); ++i) {
    for (std::size_t j = i + 1; j < set.size(); ++j) {
      if (!agree(all[set[i]], all[set[j]])) return false;
    }
  }
  return true;
}

ChangeSet united(const ChangeSet& a, const ChangeSet& b) {
  std::set<std::size_t> both(a.begin(), a.end());
  both.insert(b.begin(), b.end());
  return {both.begin(), both.end()};
}

int price_of(const std::vector<ElementaryChange>& all, const ChangeSet& set) {
  int price = 0;
  for (std::size_t change : set) price += price_steps(all[change].price);
  return price;
}

/// The sets of each pair, and unions of sets of two pairs that are small enough and agree.
std::vector<Pooled> pooled(const std::vector<ElementaryChange>& all, const std::vector<std::vector<TriedSet>>& by_pair,
                           const SearchLimits& limits) {
  constexpr std::size_t united_from_each = 4;
  std::set<ChangeSet> sets;
  for (const auto& list : by_pair) {
    for (const TriedSet& set : list) sets.insert(set.changes);
  }
  for (std::size_t a = 0; a < by_pair.size(); ++a) {
    for (std::size_t b = a + 1; b < by_pair.size(); ++b) {
      for (std::size_t i = 0; i < std::min(united_from_each, by_pair[a].size()); ++i) {
        for (std::size_t j = 0; j < std::min(united_from_each, by_pair[b].size()); ++j) {
          const ChangeSet both = united(by_pair[a][i].changes, by_pair[b][j].changes);
          if (both.size() <= limits.most_changes && all_agree(all, both)) sets.insert(both);
        }
      }
    }
  }
  std::vector<Pooled> pool;
  for (const ChangeSet& set : sets) pool.push_back({.changes = set, .price = price_of(all, set), .promise = 0.0});
  return pool;
}

/// How fast the hard pairs go with some changes.
std::vector<NotesPerSecond> rates_with(const Played& made, const std::vector<HardPair>& pairs) {
  std::vector<NotesPerSecond> rates;
  for (const HardPair& pair : pairs) {
    const Trill trill = best_trill(made, pair.low, pair.high);
    rates.push_back(trill.best ? trill.best->rate : NotesPerSecond(0));
  }
  return rates;
}

Played made_with(const Played& stock, const std::vector<ElementaryChange>& changes, const SearchLimits& limits) {
  // Every set of the pool has been made before, so there is room for it.
  return played(with_changes(stock.instrument, changes, limits.changes).value(), stock.hand.numbers(), stock.player);
}

/// Some notes around hard places, planned in place of their passage.
struct Excerpt {
  Passage passage;
  double share = 1.0;
  double stock_points = 0.0;
};

/// The hard places of the repertoire with two notes on either side, the weightiest pieces first, up to a bound.
std::vector<Excerpt> excerpts_of(const Played& stock, const Repertoire& repertoire,
                                 const std::vector<PassageOutcome>& outcomes) {
  constexpr std::size_t most_notes = 64;
  constexpr std::size_t around = 2;
  std::vector<std::size_t> order;
  for (std::size_t p = 0; p < repertoire.pieces.size(); ++p) order.push_back(p);
  std::ranges::stable_sort(
      order, [&](std::size_t a, std::size_t b) { return repertoire.pieces[a].share() > repertoire.pieces[b].share(); });
  std::vector<Excerpt> excerpts;
  std::size_t taken = 0;
  for (std::size_t p : order) {
    const Passage& whole = repertoire.pieces[p].passage;
    for (std::size_t i = 0; i < whole.notes.size() && taken < most_notes; ++i) {
      if (outcomes[p].verdicts[i] < Verdict::laborious) continue;
      const std::size_t first = i > around ? i - around : 0;
      std::size_t last = std::min(i + around, whole.notes.size() - 1);
      // Hard places that follow each other closely are one.
      for (std::size_t j = i + 1; j <= last; ++j) {
        if (outcomes[p].verdicts[j] >= Verdict::laborious) last = std::min(j + around, whole.notes.size() - 1);
      }
      Excerpt excerpt{.passage = whole, .share = repertoire.pieces[p].share(), .stock_points = 0.0};
      excerpt.passage.notes.assign(whole.notes.begin() + static_cast<std::ptrdiff_t>(first),
                                   whole.notes.begin() + static_cast<std::ptrdiff_t>(last + 1));
      excerpt.stock_points = outcome_of(stock, excerpt.passage, OutcomeDetail::figures).points();
      taken += excerpt.passage.notes.size();
      excerpts.push_back(std::move(excerpt));
      i = last;
    }
  }
  return excerpts;
}

/// What the sets are looked at for before some of them are planned in full.
struct Outlook {
  const Played& stock;
  const Repertoire& repertoire;
  const std::vector<PassageOutcome>& outcomes;
  std::vector<Excerpt> excerpts;
};

double promise_of(const Outlook& outlook, const Played& made) {
  double points = 0.0;
  for (const Excerpt& excerpt : outlook.excerpts) {
    const double after = outcome_of(made, excerpt.passage, OutcomeDetail::figures).points();
    points += excerpt.share * (excerpt.stock_points - after);
  }
  // A fingering in use that is lost makes its notes dearer: by what a note costs on average, for want of a plan.
  double all_points = 0.0;
  double all_notes = 0.0;
  for (std::size_t p = 0; p < outlook.outcomes.size(); ++p) {
    const double share = outlook.repertoire.pieces[p].share();
    all_points += share * outlook.outcomes[p].points();
    all_notes += share * static_cast<double>(outlook.outcomes[p].notes.size());
  }
  const BothOutcomes both{.repertoire = outlook.repertoire, .stock = outlook.outcomes, .converted = outlook.outcomes};
  for (const LostFingering& lost : lost_in_use(both, outlook.stock, made)) {
    points -= lost.played * all_points / all_notes;
  }
  return points;
}

/// Keeps the sets that promise most: those are planned in full.
void keep_best(std::vector<Pooled>& pool, const std::vector<ElementaryChange>& all, const Outlook& outlook,
               const SearchLimits& limits, const RunJobs& run) {
  run(pool.size(), [&](std::size_t i) {
    pool[i].promise = promise_of(outlook, made_with(outlook.stock, spelled_out(all, pool[i].changes), limits));
  });
  std::ranges::stable_sort(pool, [](const Pooled& a, const Pooled& b) {
    return a.promise != b.promise ? a.promise > b.promise : a.price < b.price;
  });
  if (pool.size() > limits.full) pool.resize(limits.full);
}

ProposedSet proposed(const Played& stock, const Repertoire& repertoire, const std::vector<PassageOutcome>& outcomes,
                     const std::vector<HardPair>& pairs, const std::vector<ElementaryChange>& changes,
                     const SearchLimits& limits) {
  const Played made = made_with(stock, changes, limits);
  ProposedSet result;
  result.changes = changes;
  for (const ElementaryChange& change : changes) result.price += price_steps(change.price);
  result.rates = rates_with(made, pairs);
  std::vector<PassageOutcome> converted;
  for (std::size_t p = 0; p < repertoire.pieces.size(); ++p) {
    const Piece& piece = repertoire.pieces[p];
    converted.push_back(outcome_of(made, piece.passage, OutcomeDetail::notes));
    result.pieces.push_back(balance(outcomes[p], converted.back(), piece.share()));
    result.balance += result.pieces.back();
  }
  result.lost = lost_in_use({.repertoire = repertoire, .stock = outcomes, .converted = converted}, stock, made);
  return result;
}

}  // namespace

SearchResult search_conversions(const Played& stock, const Repertoire& repertoire, const SearchLimits& limits,
                                const RunJobs& run) {
  std::vector<PassageOutcome> outcomes(repertoire.pieces.size());
  run(outcomes.size(),
      [&](std::size_t p) { outcomes[p] = outcome_of(stock, repertoire.pieces[p].passage, OutcomeDetail::notes); });
  SearchResult result;
  result.pairs = hard_pairs(stock, repertoire, outcomes, limits.pairs);
  const std::vector<ElementaryChange> all = elementary_changes(stock.instrument, limits.changes);
  result.changes = all.size();
  std::vector<std::vector<TriedSet>> by_pair;
  for (const HardPair& pair : result.pairs) {
    PairSearch search(stock, all, pair, limits, run);
    by_pair.push_back(search.best());
    result.tried += search.tried();
  }
  std::vector<Pooled> pool = pooled(all, by_pair, limits);
  const Outlook outlook{.stock = stock,
                        .repertoire = repertoire,
                        .outcomes = outcomes,
                        .excerpts = excerpts_of(stock, repertoire, outcomes)};
  keep_best(pool, all, outlook, limits, run);
  std::vector<ProposedSet> sets(pool.size());
  run(pool.size(), [&](std::size_t i) {
    sets[i] = proposed(stock, repertoire, outcomes, result.pairs, spelled_out(all, pool[i].changes), limits);
  });
  std::erase_if(sets, [](const ProposedSet& set) { return set.balance.gain <= 0.0; });
  std::ranges::stable_sort(sets, [](const ProposedSet& a, const ProposedSet& b) {
    return a.balance.gain != b.balance.gain ? a.balance.gain > b.balance.gain : a.price < b.price;
  });
  result.proposed = std::move(sets);
  return result;
}

}  // namespace fingerway
