#include <algorithm>
#include <map>

#include "fingerway/decide/conversion_search.hpp"

namespace fingerway {

std::vector<HardPair> hard_pairs(const Played& stock, const Repertoire& repertoire,
                                 const std::vector<PassageOutcome>& outcomes, std::size_t most) {
  std::map<std::pair<WrittenPitch, WrittenPitch>, HardPair> found;
  const auto add = [&](WrittenPitch a, WrittenPitch b, double share, NoteSite site) {
    if (a == b) return;
    const auto [entry, is_new] = found.try_emplace(std::minmax(a, b));
    HardPair& pair = entry->second;
    if (is_new) {
      pair.low = std::min(a, b);
      pair.high = std::max(a, b);
      pair.example = site;
    }
    pair.played += share;
  };
  for (std::size_t p = 0; p < repertoire.pieces.size(); ++p) {
    const Piece& piece = repertoire.pieces[p];
    const auto& notes = piece.passage.notes;
    for (std::size_t i = 0; i < notes.size(); ++i) {
      if (outcomes[p].verdicts[i] < Verdict::laborious) continue;
      const NoteSite site{.piece = p, .note = i};
      const OutcomeNote& outcome = outcomes[p].notes[i];
      const bool slow_trill =
          outcome.rate && verdict(stock.hand.numbers(), NotesPerSecond(*outcome.rate)) >= Verdict::laborious;
      if (notes[i].other && slow_trill) {
        add(notes[i].pitch, written(*notes[i].other), piece.share(), site);
      } else if (i > 0) {
        add(notes[i - 1].pitch, notes[i].pitch, piece.share(), site);
      }
    }
  }
  std::vector<HardPair> pairs;
  for (const auto& [notes, pair] : found) pairs.push_back(pair);
  std::ranges::stable_sort(pairs, [](const HardPair& a, const HardPair& b) { return a.played > b.played; });
  if (pairs.size() > most) pairs.resize(most);
  for (HardPair& pair : pairs) {
    const Trill trill = best_trill(stock, pair.low, pair.high);
    if (trill.best) pair.rate = trill.best->rate;
  }
  return pairs;
}

}  // namespace fingerway
