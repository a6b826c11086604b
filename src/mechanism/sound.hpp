// What this part answers: whether a fingering sounds a note of an instrument, by which table line, with what to spare.
// Private to mechanism.
#pragma once

#include <optional>

#include "fingerway/mechanism/candidates.hpp"

namespace fingerway {

/// An instrument's mechanism with its targets at hand.
class Sounding {
 public:
  Sounding(const Instrument& instrument, const Derivation& derivation)
      : instrument_(instrument), derivation_(derivation), works_(works_of(instrument)) {}

  [[nodiscard]] const Works& works() const { return works_; }
  [[nodiscard]] bool meets(const Target& target, const Fingering& fingering) const;
  /// The candidate that a hand is for a note; nothing when it does not sound it. `holds` must press the fingering.
  [[nodiscard]] std::optional<Candidate> candidate(WrittenPitch pitch, const Fingering& fingering,
                                                   const std::array<std::uint8_t, finger_count>& holds) const;
  /// The touches that a hand of holds presses.
  [[nodiscard]] Fingering fingering_of(const std::array<std::uint8_t, finger_count>& holds) const;
  /// The fingering with each touch that can be flicked to meet the target's attack; itself when it flicks nothing.
  [[nodiscard]] std::vector<Fingering> with_flicks(const Target& target, const Fingering& fingering) const;

 private:
  [[nodiscard]] TouchSet spare(const Target& target, const Fingering& fingering) const;

  const Instrument& instrument_;
  const Derivation& derivation_;
  Works works_;
};

}  // namespace fingerway
