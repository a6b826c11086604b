// What this part answers: what a player must relearn for a conversion, what goes wrong on a stock instrument with the
// new habits, and which of the repertoire's fingerings are lost. It plans nothing: it reads outcomes.
#pragma once

#include <cstdint>
#include <vector>

#include "fingerway/decide/outcome.hpp"
#include "fingerway/decide/repertoire.hpp"

namespace fingerway {

/// A note of the repertoire: where something is seen best.
struct NoteSite {
  std::size_t piece = 0;
  std::size_t note = 0;

  friend bool operator==(const NoteSite&, const NoteSite&) = default;
};

/// Two notes in a row that are fingered otherwise with the conversion.
struct RelearnedPair {
  WrittenPitch from;
  WrittenPitch to;
  double played = 0.0;   ///< how often, each time with the share of its piece
  double changed = 0.0;  ///< of it, with another fingering of either note
  NoteSite example;      ///< the second note, where it is fingered otherwise

  friend bool operator==(const RelearnedPair&, const RelearnedPair&) = default;
};

struct Relearning {
  double played = 0.0;               ///< all pairs of the repertoire
  double changed = 0.0;              ///< of them
  std::size_t frequent = 0;          ///< kinds of pairs that, commonest first, make up half of all that is played
  std::size_t frequent_changed = 0;  ///< of them, those fingered otherwise more often than not
  std::vector<RelearnedPair> pairs;  ///< those that change, the most often played so first
};

/// `ruled_out`: it would sound the note, but the player's own file does not allow it.
enum class CarriedResult : std::uint8_t { same_note, other_note, no_note, key_missing, ruled_out };

/// A fingering learned on the converted instrument, pressed on the stock one.
struct CarriedFingering {
  WrittenPitch note;
  Fingering fingering;
  CarriedResult result = CarriedResult::same_note;
  std::vector<WrittenPitch> sounds;  ///< where another note answers
  double played = 0.0;
  NoteSite example;
};

/// A fingering that the stock plans use and the converted instrument no longer sounds.
struct LostFingering {
  WrittenPitch note;
  Fingering fingering;
  double played = 0.0;
  NoteSite example;
};

/// The outcomes of every piece on both instruments, with their notes, in the order of the repertoire.
struct BothOutcomes {
  const Repertoire& repertoire;
  const std::vector<PassageOutcome>& stock;
  const std::vector<PassageOutcome>& converted;
};

[[nodiscard]] Relearning relearning(const BothOutcomes& outcomes);
/// One entry for each note and new fingering, the most often played first; those that still sound their note too.
[[nodiscard]] std::vector<CarriedFingering> carried_to_stock(const BothOutcomes& outcomes, const Played& stock);
[[nodiscard]] std::vector<LostFingering> lost_in_use(const BothOutcomes& outcomes, const Played& stock,
                                                     const Played& converted);

/// What the stock instrument answers to a fingering of a converted one.
[[nodiscard]] CarriedFingering carried(const Played& stock, WrittenPitch note, const Fingering& fingering);

}  // namespace fingerway
