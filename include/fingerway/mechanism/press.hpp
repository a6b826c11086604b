// What this part answers: which pads stand open, half or closed when given touches are pressed.
// It does not know which note that sounds (candidates) or which hand could press them (instrument/grips).
#pragma once

#include <array>
#include <vector>

#include "fingerway/instrument/instrument.hpp"

namespace fingerway {

/// The state of every pad; a pad in neither set stands open.
struct PadStates {
  PadSet closed;
  PadSet half;

  friend auto operator<=>(const PadStates&, const PadStates&) = default;
};

/// What one rule does, without where it comes from.
struct Linkage {
  TouchSet when;
  TouchSet unless;
  PadSet opens;
  PadSet closes;
};

/// The part of an instrument that turns touches into pad states, made once and asked often.
struct Works {
  PadSet closed_at_rest;
  PadSet opened_by_latch;
  PadSet closed_by_latch;
  PadSet opening_wins;
  std::vector<Linkage> linkages;
  /// The same again, for press(): what each touch does by itself, by index, and the linkages that ask for more.
  std::array<PadSet, TouchSet::capacity> opened_by{}, closed_by{};
  std::vector<Linkage> combined;
};

/// The instrument as it is, conversions and engaged latches included.
[[nodiscard]] Works works_of(const Instrument& instrument);
/// The mechanism the fingering table was written for; touches and pads it has not got do nothing there.
[[nodiscard]] Works table_works_of(const Instrument& instrument);
/// Only what moves one of these pads; the states of other pads are then meaningless.
[[nodiscard]] Works only_for(const Works& works, PadSet pads);

/// Pads with these touches down. `half` is a part of `pressed`.
[[nodiscard]] PadStates press(const Works& works, TouchSet pressed, TouchSet half);

/// Pads that a rule with any of these touches in it can move.
[[nodiscard]] PadSet pads_moved_by(const Works& works, TouchSet touches);

}  // namespace fingerway
