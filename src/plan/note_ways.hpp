// What this part answers: all ways to play one note of a passage, packed small: fingerings, places of idle fingers,
// cost. Private to plan. A way names the postures of each hand by number; node() spells one out.
#pragma once

#include <array>
#include <vector>

#include "fingerway/plan/passage_graph.hpp"
#include "hand_changes.hpp"
#include "postures.hpp"

namespace fingerway {

/// Left and right.
template <class T>
using BothHands = std::array<T, 2>;
inline constexpr std::array<Hand, 2> both_hands = {Hand::left, Hand::right};

struct PackedNode {
  std::uint32_t candidate = 0;                ///< into NoteWays::note.candidates
  std::uint32_t second = 0;                   ///< into NoteWays::note.seconds, where there are any
  std::uint32_t cost = 0;                     ///< into NoteWays::costs
  BothHands<std::uint32_t> enter{}, leave{};  ///< into NoteWays::enter and leave
};

struct NoteWays {
  NoteLayer note;  ///< its nodes are left out
  NoteKind kind = NoteKind::plain;
  std::vector<PackedNode> ways;  ///< empty: the note has no fingering, and one node that costs nothing stands for it
  std::vector<NoteCost> costs;
  std::vector<NotesPerSecond> rates;  ///< as `costs`, of trills and tremolos
  BothHands<std::vector<HandNumber>> enter, leave;
  std::vector<Weight> weights;  ///< a node
  std::vector<Load> loads;      ///< a node

  [[nodiscard]] std::size_t size() const { return weights.size(); }
};

/// What a note is, for its ways.
struct NoteAsked {
  WrittenPitch pitch;
  std::optional<WrittenPitch> other;
  NoteKind kind = NoteKind::plain;
  NoteContext context;

  friend auto operator<=>(const NoteAsked&, const NoteAsked&) = default;
};

[[nodiscard]] NoteWays note_ways(const Played& played, BothHands<HandChanges>& changes, const NoteAsked& asked,
                                 const std::vector<Candidate>& candidates, const std::vector<Candidate>& seconds,
                                 const IdlePlaces& places);

/// One way spelled out.
[[nodiscard]] Node node(const NoteWays& ways, const BothHands<HandChanges>& changes, std::size_t number);

}  // namespace fingerway
