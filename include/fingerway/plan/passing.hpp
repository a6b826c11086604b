// What this part answers: which other notes may be heard while the fingers of a slurred change arrive one by one.
// It does not price them (weigh).
#pragma once

#include <array>
#include <unordered_map>
#include <vector>

#include "fingerway/plan/played.hpp"

namespace fingerway {

/// A note that may be passed through.
struct PassingNote {
  WrittenPitch pitch;
  double chance = 0.0;  ///< share of the orders in which the fingers may arrive that pass through it
  int semitones = 0;    ///< distance to the nearer of the two notes, at most 12

  friend bool operator==(const PassingNote&, const PassingNote&) = default;
};

/// Passing notes of changes on one instrument.
class PassingNotes {
 public:
  explicit PassingNotes(const Played& played);

  /// Worst first. Every finger's change counts as one; orders are taken as equally likely. Beyond four moving fingers
  /// only the states with one finger early or one late are looked at.
  [[nodiscard]] std::vector<PassingNote> between(WrittenPitch from_pitch, const Fingering& from, WrittenPitch to_pitch,
                                                 const Fingering& to);
  /// Sum of chance times semitones over between().
  [[nodiscard]] double expected_semitones(WrittenPitch from_pitch, const Fingering& from, WrittenPitch to_pitch,
                                          const Fingering& to);

 private:
  /// Of each state on the way that sounds another note.
  template <class Visit>
  void each_between(WrittenPitch from_pitch, const Fingering& from, WrittenPitch to_pitch, const Fingering& to,
                    const Visit& visit);
  struct StatesHash {
    std::size_t operator()(const PadStates& states) const;
  };
  [[nodiscard]] const std::vector<WrittenPitch>& sounded(TouchSet pressed, TouchSet half);

  const Played& played_;
  std::array<TouchSet, finger_count> own_;  ///< touches of each finger
  std::unordered_map<PadStates, std::vector<WrittenPitch>, StatesHash> sounded_;
};

}  // namespace fingerway
