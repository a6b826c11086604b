// What this part answers: all ways to play one note of a passage, packed small: fingerings, places of idle fingers,
// cost. Private to plan. A way names the postures of each hand by their number within the note.
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "fingerway/plan/passage_graph.hpp"
#include "postures.hpp"

namespace fingerway {

/// Left and right.
template <class T>
using BothHands = std::array<T, 2>;
inline constexpr std::array<Hand, 2> both_hands = {Hand::left, Hand::right};

/// The candidates a note may be played with, and what they make the fingers press.
struct Admitted {
  WrittenPitch pitch;
  std::vector<Candidate> candidates;
  std::vector<std::uint32_t> numbers;  ///< of the candidates, over all notes
  FingerUse use;
  std::array<bool, finger_count> idles{};  ///< with some candidate: then it matters where it may be
};

/// A fingering and the posture of either hand, numbered within the note.
struct PackedWay {
  std::uint32_t candidate = 0;
  BothHands<std::uint32_t> enter{};
};

/// The rest of a way to play a trill or tremolo.
struct PairWay {
  std::uint32_t second = 0;  ///< candidate of the second pitch
  BothHands<std::uint32_t> leave{};
  NotesPerSecond rate;
  NoteCost cost;
  Weight weight = 0;
  Load load = 0;
};

/// What notes have in common that are played in the same ways, whatever each way costs by itself.
struct NoteShape {
  std::optional<WrittenPitch> other;  ///< of a trill or tremolo
  NoteKind kind = NoteKind::plain;
  std::shared_ptr<const Admitted> first, seconds;
  std::vector<PackedWay> ways;  ///< empty: the note has no fingering, and one node that costs nothing stands for it
  std::vector<PairWay> pairs;   ///< as `ways`, of trills and tremolos
  BothHands<std::vector<HandPosture>> enter, leave;  ///< a plain note leaves as it enters
  std::vector<std::uint32_t> runs;       ///< stretches of `ways` alike but for the right hand, and their end
  std::vector<std::uint32_t> right_set;  ///< of each run: which postures its right hand has
  std::vector<std::vector<std::uint32_t>> right_sets;

  [[nodiscard]] std::size_t size() const { return ways.empty() ? 1 : ways.size(); }
  [[nodiscard]] const std::vector<HandPosture>& leaving(Hand side) const {
    return (pairs.empty() ? enter : leave)[static_cast<std::size_t>(side)];
  }
  [[nodiscard]] const BothHands<std::uint32_t>& leave_of(std::size_t way) const {
    return pairs.empty() ? ways[way].enter : pairs[way].leave;
  }
  /// What sounds as the note ends.
  [[nodiscard]] const Admitted& last() const { return kind == NoteKind::tremolo ? *seconds : *first; }
  [[nodiscard]] std::uint32_t last_candidate(std::size_t way) const {
    return kind == NoteKind::tremolo ? pairs[way].second : ways[way].candidate;
  }
  [[nodiscard]] std::size_t bytes() const;
};

/// What a note is, for its shape: `context` counts for trills and tremolos only, whose second fingering it decides.
struct ShapeAsked {
  std::optional<WrittenPitch> other;
  NoteKind kind = NoteKind::plain;
  NoteContext context;
};

[[nodiscard]] NoteShape note_shape(const Played& played, const ShapeAsked& asked, std::shared_ptr<const Admitted> first,
                                   std::shared_ptr<const Admitted> seconds, const IdlePlaces& places);

}  // namespace fingerway
