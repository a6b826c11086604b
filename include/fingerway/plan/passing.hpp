// What this part answers: which other notes may be heard while the fingers of a slurred change arrive one by one.
// It does not price them (weigh).
#pragma once

#include <map>
#include <tuple>
#include <utility>
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

/// Passing notes of changes on one instrument; remembers what it has worked out.
class PassingNotes {
 public:
  explicit PassingNotes(const Played& played) : played_(played) {}

  /// Worst first; valid until the next call. Every finger's change counts as one; orders are taken as equally likely.
  /// Beyond four moving fingers only the states with one finger early or one late are looked at.
  [[nodiscard]] const std::vector<PassingNote>& between(WrittenPitch from_pitch, const Fingering& from,
                                                        WrittenPitch to_pitch, const Fingering& to);
  /// Sum of chance times semitones over between().
  [[nodiscard]] double expected_semitones(WrittenPitch from_pitch, const Fingering& from, WrittenPitch to_pitch,
                                          const Fingering& to);

 private:
  [[nodiscard]] std::vector<PassingNote> worked_out(WrittenPitch from_pitch, const Fingering& from,
                                                    WrittenPitch to_pitch, const Fingering& to);
  [[nodiscard]] const std::vector<WrittenPitch>& sounded(TouchSet pressed, TouchSet half);

  const Played& played_;
  std::map<PadStates, std::vector<WrittenPitch>> sounded_;
  std::map<std::tuple<WrittenPitch, Fingering, WrittenPitch, Fingering>, std::vector<PassingNote>> known_;
};

}  // namespace fingerway
