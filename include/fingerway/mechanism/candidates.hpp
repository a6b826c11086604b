// What this part answers: every touch set of the hand that sounds a note on an instrument, stock or converted, and
// what a conversion gains and loses. It does not price anything.
#pragma once

#include <array>
#include <map>
#include <span>
#include <vector>

#include "fingerway/instrument/grips.hpp"
#include "fingerway/mechanism/targets.hpp"

namespace fingerway {

enum class Origin : std::uint8_t { table, derived };

/// A fingering that sounds a note.
struct Candidate {
  Fingering fingering;
  std::uint16_t line = 0;  ///< the table line whose target it meets; of several the one it is nearest to
  Origin origin = Origin::derived;
  TouchSet spare;  ///< touches that could be let go, all at once, and still give the note
  std::array<std::uint8_t, finger_count> hold{};  ///< index into Derivation::holds of each finger, flicks left out

  friend bool operator==(const Candidate&, const Candidate&) = default;
};

/// Holds of one finger: bit h stands for Derivation::holds[finger][h].
using HoldMask = std::uint64_t;
using HandMask = std::array<HoldMask, finger_count>;

/// Fingerings that one target cannot tell apart: any hold of the mask, finger by finger.
struct Family {
  std::size_t target = 0;
  HandMask holds{};

  friend bool operator==(const Family&, const Family&) = default;
};

/// All fingerings of all notes of one instrument, as families; the lean ones spelled out.
struct Derivation {
  std::array<std::vector<Hold>, finger_count> holds;  ///< holds_of each finger
  std::vector<Target> targets;                        ///< index = table line
  std::map<WrittenPitch, std::vector<Family>> families;
  std::map<WrittenPitch, std::vector<Candidate>> by_pitch;

  /// The lean candidates of a note: table fingerings first, in table order, then derived ones that hold no touch
  /// without need. None where the note has no fingering.
  [[nodiscard]] std::span<const Candidate> of(WrittenPitch pitch) const;
};

/// Walks every finger's holds, finger by finger and target by target. Milliseconds for an instrument.
[[nodiscard]] Derivation derive(const Instrument& instrument);

/// Candidates that use only the holds of `wanted`, with at most `most_held` fingers holding touches without need, lean
/// ones left out. In a fixed order.
[[nodiscard]] std::vector<Candidate> held_through(const Instrument& instrument, const Derivation& derivation,
                                                  WrittenPitch pitch, const HandMask& wanted, int most_held);

/// Touches that may be held as well, each for itself, without changing the note.
[[nodiscard]] TouchSet may_stay_down(const Instrument& instrument, const Derivation& derivation, WrittenPitch pitch,
                                     const Candidate& candidate);

/// Reads a fingering as a candidate of a note; nothing when it does not sound the note or no hand can hold it.
[[nodiscard]] std::optional<Candidate> as_candidate(const Instrument& instrument, const Derivation& derivation,
                                                    WrittenPitch pitch, const Fingering& fingering);

/// A fingering with the note it sounds.
struct SoundedFingering {
  WrittenPitch pitch;
  Candidate candidate;
};

/// What differs between two instruments with the same base: fingerings only `with` has (gained) and only `without` has
/// (lost), each without those that merely hold more touches than another in the same list; table lines always told.
struct Difference {
  std::vector<SoundedFingering> gained;
  std::vector<SoundedFingering> lost;
  std::vector<SoundedFingering> altered;  ///< on both, but a line of the conversion says that it sounds otherwise now
};
[[nodiscard]] Difference difference(const Instrument& without, const Derivation& without_derivation,
                                    const Instrument& with, const Derivation& with_derivation);

/// The notes whose target the pads meet, in table order; for telling what a passing pad state sounds.
[[nodiscard]] std::vector<WrittenPitch> sounded_by(const Instrument& instrument, std::span<const Target> targets,
                                                   PadStates states);

}  // namespace fingerway
