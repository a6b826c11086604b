#include "fingerway/decide/compare.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <utility>

namespace fingerway {
namespace {

std::optional<Fingering> fingering(const Shared<Candidate>& candidate) {
  return candidate ? std::optional(candidate->fingering) : std::nullopt;
}

/// Touch sets of the two instruments agree by index: a conversion keeps the stock touches where they are.
bool same_moves(const Played& stock, const Shared<Arrival>& a, const Played& converted, const Shared<Arrival>& b) {
  if (a.has_value() != b.has_value()) return false;
  if (!a) return true;
  const auto same = [](const FingerMove& x, const FingerMove& y) {
    return x.finger == y.finger && x.move.kind == y.move.kind && x.from == y.from && x.to == y.to;
  };
  return std::ranges::equal(moves_into(stock, *a), moves_into(converted, *b), same);
}

/// Only what is told of this passage: its pitches, fingered as the player can and knows.
void keep_told(std::vector<SoundedFingering>& list, const std::set<WrittenPitch>& pitches, const Played& played) {
  std::erase_if(list, [&](const SoundedFingering& f) {
    return !pitches.contains(f.pitch) || !plays(played.player, played.instrument, f.pitch, f.candidate.fingering);
  });
}

}  // namespace

Comparison compare(const Played& stock, const Played& converted, const Passage& passage, const PlanRequest& request) {
  return compared(stock, converted, passage, plan_passage(stock, passage, request).front(),
                  plan_passage(converted, passage, request).front());
}

Comparison compared(const Played& stock, const Played& converted, const Passage& passage, Plan stock_plan,
                    Plan converted_plan) {
  Comparison result;
  result.stock = std::move(stock_plan);
  result.converted = std::move(converted_plan);
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    const PlannedNote& a = result.stock.notes[i];
    const PlannedNote& b = result.converted.notes[i];
    const bool other_fingering =
        fingering(a.candidate) != fingering(b.candidate) || fingering(a.other) != fingering(b.other);
    const bool other_way = !same_moves(stock, a.arrive, converted, b.arrive);
    if (other_fingering || other_way) {
      result.differing.push_back({.note = i, .fingering_differs = other_fingering, .arrival_differs = other_way});
    }
  }
  std::set<WrittenPitch> pitches;
  for (const NoteEvent& note : passage.notes) {
    pitches.insert(note.pitch);
    if (note.other) pitches.insert(written(*note.other));
  }
  result.here = difference(stock.instrument, stock.derivation, converted.instrument, converted.derivation);
  keep_told(result.here.gained, pitches, converted);
  keep_told(result.here.lost, pitches, stock);
  return result;
}

}  // namespace fingerway
