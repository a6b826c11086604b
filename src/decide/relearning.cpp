#include "fingerway/decide/relearning.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace fingerway {
namespace {

/// The notes and fingerings that sound at one note of a passage: one, or both of a trill.
std::vector<std::pair<WrittenPitch, Fingering>> sounded_at(const NoteEvent& event, const OutcomeNote& note) {
  std::vector<std::pair<WrittenPitch, Fingering>> result;
  if (note.fingering) result.emplace_back(event.pitch, *note.fingering);
  if (event.other && note.other) result.emplace_back(written(*event.other), *note.other);
  return result;
}

template <class T>
void most_played_first(std::vector<T>& list, auto played) {
  std::ranges::stable_sort(list, [&](const T& a, const T& b) { return played(a) > played(b); });
}

/// Half of all that is played, in as few kinds of pairs as can be.
void count_frequent(Relearning& result, std::vector<RelearnedPair> pairs) {
  most_played_first(pairs, [](const RelearnedPair& p) { return p.played; });
  double so_far = 0.0;
  for (const RelearnedPair& pair : pairs) {
    if (so_far >= result.played / 2) break;
    so_far += pair.played;
    ++result.frequent;
    if (pair.changed > pair.played / 2) ++result.frequent_changed;
  }
}

}  // namespace

Relearning relearning(const BothOutcomes& outcomes) {
  std::map<std::pair<WrittenPitch, WrittenPitch>, RelearnedPair> pairs;
  Relearning result;
  for (std::size_t p = 0; p < outcomes.repertoire.pieces.size(); ++p) {
    const Piece& piece = outcomes.repertoire.pieces[p];
    const auto& notes = piece.passage.notes;
    const auto changed = [&](std::size_t i) {
      return !same_fingering(outcomes.stock[p].notes[i], outcomes.converted[p].notes[i]);
    };
    for (std::size_t i = 1; i < notes.size(); ++i) {
      RelearnedPair& pair = pairs[{notes[i - 1].pitch, notes[i].pitch}];
      pair.from = notes[i - 1].pitch;
      pair.to = notes[i].pitch;
      pair.played += piece.share();
      result.played += piece.share();
      if (!changed(i - 1) && !changed(i)) continue;
      if (pair.changed <= 0.0) pair.example = {.piece = p, .note = i};
      pair.changed += piece.share();
      result.changed += piece.share();
    }
  }
  std::vector<RelearnedPair> all;
  for (const auto& [notes, pair] : pairs) all.push_back(pair);
  count_frequent(result, all);
  std::erase_if(all, [](const RelearnedPair& pair) { return pair.changed <= 0.0; });
  most_played_first(all, [](const RelearnedPair& p) { return p.changed; });
  result.pairs = std::move(all);
  return result;
}

CarriedFingering carried(const Played& stock, WrittenPitch note, const Fingering& fingering) {
  CarriedFingering result;
  result.note = note;
  result.fingering = fingering;
  for (TouchId touch : fingering.pressed | fingering.flicked) {
    if (touch.index < stock.instrument.touches.size() && !stock.instrument.touches[touch.index].removed) continue;
    result.result = CarriedResult::key_missing;
    return result;
  }
  if (as_candidate(stock.instrument, stock.derivation, note, fingering)) return result;
  const PadStates states = press(stock.works, fingering.pressed, fingering.half);
  result.sounds = sounded_by(stock.instrument, stock.derivation.targets, states);
  std::ranges::sort(result.sounds);
  // The pads of the note itself without the vent it wants: it may speak, but not as it should.
  std::erase(result.sounds, note);
  result.result = result.sounds.empty() ? CarriedResult::no_note : CarriedResult::other_note;
  return result;
}

std::vector<CarriedFingering> carried_to_stock(const BothOutcomes& outcomes, const Played& stock) {
  std::map<std::pair<WrittenPitch, Fingering>, CarriedFingering> found;
  for (std::size_t p = 0; p < outcomes.repertoire.pieces.size(); ++p) {
    const Piece& piece = outcomes.repertoire.pieces[p];
    for (std::size_t i = 0; i < piece.passage.notes.size(); ++i) {
      const OutcomeNote& own = outcomes.converted[p].notes[i];
      if (same_fingering(outcomes.stock[p].notes[i], own)) continue;
      for (const auto& sounded : sounded_at(piece.passage.notes[i], own)) {
        const auto [entry, is_new] = found.try_emplace(sounded);
        if (is_new) {
          entry->second = carried(stock, sounded.first, sounded.second);
          entry->second.example = {.piece = p, .note = i};
        }
        entry->second.played += piece.share();
      }
    }
  }
  std::vector<CarriedFingering> all;
  for (auto& [key, one] : found) all.push_back(std::move(one));
  most_played_first(all, [](const CarriedFingering& h) { return h.played; });
  return all;
}

std::vector<LostFingering> lost_in_use(const BothOutcomes& outcomes, const Played& stock, const Played& converted) {
  std::map<std::pair<WrittenPitch, Fingering>, LostFingering> found;
  std::map<std::pair<WrittenPitch, Fingering>, bool> kept;
  for (std::size_t p = 0; p < outcomes.repertoire.pieces.size(); ++p) {
    const Piece& piece = outcomes.repertoire.pieces[p];
    for (std::size_t i = 0; i < piece.passage.notes.size(); ++i) {
      for (const auto& sounded : sounded_at(piece.passage.notes[i], outcomes.stock[p].notes[i])) {
        const auto [known, is_new] = kept.try_emplace(sounded, false);
        if (is_new) {
          known->second =
              as_candidate(converted.instrument, converted.derivation, sounded.first, sounded.second).has_value() ||
              !as_candidate(stock.instrument, stock.derivation, sounded.first, sounded.second);
        }
        if (known->second) continue;
        LostFingering& lost = found[sounded];
        if (lost.played <= 0.0) {
          lost.note = sounded.first;
          lost.fingering = sounded.second;
          lost.example = {.piece = p, .note = i};
        }
        lost.played += piece.share();
      }
    }
  }
  std::vector<LostFingering> all;
  for (auto& [key, one] : found) all.push_back(one);
  most_played_first(all, [](const LostFingering& l) { return l.played; });
  return all;
}

}  // namespace fingerway
