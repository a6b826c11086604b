// What this part answers: which of a note's many candidates a passage can make use of.
// Private to plan. What it leaves out: touches held through that no note nearby needs.
#pragma once

#include <vector>

#include "fingerway/plan/choices.hpp"
#include "fingerway/plan/played.hpp"

namespace fingerway {

/// A touch may be held through a note when a neighbouring note needs it, or when one at most this many notes before and
/// one as many after do; and on how many fingers at once. Assumed (playing habit), and part of the model.
inline constexpr std::size_t hold_reach = 2;
inline constexpr int most_held_fingers = 2;

/// A pitch to be played at one moment. Trills and tremolos have two entries of the same note.
struct AdmitNote {
  std::size_t note = 0;
  WrittenPitch pitch;
  bool bound = true;  ///< the player's choices speak of this pitch (not of a trill's second one)
};

/// For each entry the admitted candidates: lean ones first, then those that hold something through. Entries of one note
/// count as neighbours of each other.
[[nodiscard]] std::vector<std::vector<Candidate>> admit(const Played& played, const std::vector<AdmitNote>& notes,
                                                        const Choices& choices);

}  // namespace fingerway
