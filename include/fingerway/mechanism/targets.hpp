// What this part answers: which pad states sound the note of a line of the fingering table, and which pads matter.
// It does not search for touches that reach them (candidates).
#pragma once

#include <optional>
#include <vector>

#include "fingerway/mechanism/press.hpp"

namespace fingerway {

/// The states that the pads must have; a pad in none of the sets does not matter.
struct PadDemand {
  PadSet closed;
  PadSet half;
  PadSet open;

  [[nodiscard]] bool met_by(PadStates states) const {
    return states.closed.contains_all(closed) && states.half.contains_all(half) &&
           !(states.closed | states.half).intersects(open);
  }
  friend bool operator==(const PadDemand&, const PadDemand&) = default;
};

/// What sounds the note of one table line.
struct Target {
  int place = 0;                       ///< among the table lines of the same note and standing
  std::size_t line = 0;                ///< index into Instrument::table
  PadStates states;                    ///< all pads, as the line's own fingering sets them
  PadDemand demand;                    ///< while the note lasts
  std::optional<PadDemand> at_attack;  ///< while a vent is flicked, where the line flicks one
};

/// One target a table line, in table order.
///
/// Pads of the stock mechanism decide. In a register whose rule names a number n of open holes, every pad up to the
/// first open tone hole matters; below it, of the holes the line leaves open the first n (that one included) must stay
/// open, and what the line's own touches do there (a fork, a muting key) must be done; nothing else matters: a hole
/// opened below an open one hardly changes the note, a hole shut there flattens it (tone-hole lattice; common practice
/// of "leaving fingers down"). Elsewhere every pad matters but those the line's
/// optional touches move. A fork needs every pad down to the last it shuts. Pads that a conversion has added stand as
/// the line's touches leave them on the converted keywork: it is made so that the same touches give the same notes.
[[nodiscard]] std::vector<Target> targets(const Instrument& instrument);

}  // namespace fingerway
