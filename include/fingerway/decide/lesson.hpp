// What this part answers: one pupil with one passage: the plan with what is there and known, what is new, what cannot
// be played before the lesson has begun. It reads no roster and writes no sheet.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// Why a note has no fingering for this pupil: nobody has one on this instrument; the hand cannot do any; none of those
/// there are has been learned.
enum class Missing : std::uint8_t { on_instrument, for_hand, not_learned };

struct MissingNote {
  std::size_t note = 0;
  Missing why = Missing::on_instrument;

  friend bool operator==(const MissingNote&, const MissingNote&) = default;
};

/// A fingering the pupil has not learned and the passage would use.
struct NewFingering {
  WrittenPitch pitch;
  Candidate candidate;
  std::vector<std::size_t> notes;  ///< where the plan of somebody who knows everything has it
  bool needed = false;             ///< some note cannot be played without learning one
  std::optional<Points> saves;     ///< points less with it and all needed ones; nothing: needed, or not tried
  std::optional<Qpm> ceiling;      ///< of the passage then
};

struct Lesson {
  Plan plan;                         ///< with what the pupil has and knows; notes without a fingering are empty
  Plan open;                         ///< the same hand, everything learned
  Plan fastest;                      ///< with everything learned, the hardest moment as easy as can be; often `open`
  std::vector<MissingNote> missing;  ///< notes of `plan` without a fingering
  std::vector<std::size_t> trills_out_of_reach;  ///< even with everything learned
  std::vector<std::size_t> too_fast;             ///< changes of `fastest` that do not fit
  std::vector<NewFingering> fresh;               ///< needed ones first, then those that save most

  /// Nothing on this instrument, in this hand, stands in the way at this tempo.
  [[nodiscard]] bool playable() const;
};

/// How many helpful fingerings are tried one by one; further ones are named without a figure.
inline constexpr std::size_t most_tried = 4;

/// Works out a lesson. `numbers` are those the pupil's hand was made with, before any span scaled them.
[[nodiscard]] Lesson lesson(const Played& pupil, const MotionNumbers& numbers, const Passage& passage);

}  // namespace fingerway
