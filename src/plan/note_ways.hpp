// What this part answers: all ways to play one note of a passage: fingerings, places of idle fingers, cost. Private to
// plan. Ways with the same fingering stand together in a band; only those of trills and tremolos are spelled out.
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "fingerway/plan/passage_graph.hpp"
#include "least_parts.hpp"
#include "postures.hpp"

namespace fingerway {

/// The candidates a note may be played with, and what they make the fingers press.
struct Admitted {
  WrittenPitch pitch;
  std::vector<Candidate> candidates;
  std::vector<std::uint32_t> numbers;  ///< of the candidates, over all notes
  FingerUse use;
  std::array<bool, finger_count> idles{};  ///< with some candidate: then it matters where it may be
};

/// A posture of either hand, numbered within the note; or any of several, numbered behind those.
using HandNumbers = BothHands<std::uint32_t>;

/// All ways with one candidate.
struct Band {
  std::uint32_t first = 0;    ///< way
  HandNumbers first_posture;  ///< of a plain note, which has a way for each posture of the left and of the right hand
  HandNumbers postures;       ///< so many
  HandNumbers enter, leave;   ///< any of its postures
};

/// A way to play a trill or tremolo.
struct PairWay {
  std::uint32_t second = 0;  ///< candidate of the second pitch
  HandNumbers enter{}, leave{};
  NotesPerSecond rate;
  NoteCost cost;
  Weight weight = 0;
  Load load = 0;
};

/// Any of several postures.
struct AnyPosture {
  HandPosture first;                        ///< one of them
  std::array<const Several*, 5> several{};  ///< of fingers that are not in the same state in all of them
  bool alike = true;                        ///< Several::alike of all of them
};

/// The postures of a hand on a note.
struct HandPostures {
  std::vector<HandPosture> each;
  std::vector<AnyPosture> any;
};

/// What notes have in common that are played in the same ways, whatever each way costs by itself.
struct NoteShape {
  std::optional<WrittenPitch> other;  ///< of a trill or tremolo
  NoteKind kind = NoteKind::plain;
  std::shared_ptr<const Admitted> first, seconds;
  std::vector<Band> bands;  ///< of each candidate of `first`; none: the note has no fingering, and one node that costs
                            ///< nothing stands for it
  std::vector<PairWay> pairs;  ///< every way of trills and tremolos
  std::uint32_t ways = 1;
  BothHands<HandPostures> enter, leave;  ///< a plain note leaves as it enters

  [[nodiscard]] bool playable() const { return !bands.empty(); }
  [[nodiscard]] std::uint32_t end_of(std::size_t band) const {
    return band + 1 < bands.size() ? bands[band + 1].first : ways;
  }
  /// The band of a way.
  [[nodiscard]] std::uint32_t band_of(std::uint32_t way) const;
  [[nodiscard]] HandNumbers enter_of(std::uint32_t band, std::uint32_t way) const {
    if (!pairs.empty()) return pairs[way].enter;
    const Band& b = bands[band];
    const std::uint32_t place = way - b.first;
    return {b.first_posture[0] + place / b.postures[1], b.first_posture[1] + place % b.postures[1]};
  }
  [[nodiscard]] HandNumbers leave_of(std::uint32_t band, std::uint32_t way) const {
    return pairs.empty() ? enter_of(band, way) : pairs[way].leave;
  }
  [[nodiscard]] const HandPostures& leaving(Hand side) const {
    return (pairs.empty() ? enter : leave)[static_cast<std::size_t>(side)];
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
                                   std::shared_ptr<const Admitted> seconds, const IdlePlaces& places,
                                   LeastParts& least);

}  // namespace fingerway
