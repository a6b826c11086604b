#include "fingerway/mechanism/targets.hpp"

#include <algorithm>

namespace fingerway {
namespace {

void require(PadDemand& demand, PadId pad, PadStates states) {
  if (states.closed.contains(pad)) {
    demand.closed.insert(pad);
  } else if (states.half.contains(pad)) {
    demand.half.insert(pad);
  } else {
    demand.open.insert(pad);
  }
}

/// Pads that stand otherwise than at rest: what the touches did on purpose.
PadSet changed(PadStates states, PadStates at_rest) {
  const PadSet closed = (states.closed - at_rest.closed) | (at_rest.closed - states.closed);
  return closed | (states.half - at_rest.half) | (at_rest.half - states.half);
}

PadDemand demand_for(const Instrument& instrument, PadStates states, PadSet on_purpose, int open_holes, PadSet free) {
  PadDemand demand;
  int open_so_far = 0;
  for (PadId pad : instrument.bore) {
    if (free.contains(pad)) continue;
    const bool stands_open = !states.closed.contains(pad) && !states.half.contains(pad);
    const bool counts = stands_open && instrument.pads[pad.index].kind == PadKind::tone_hole;
    if (open_holes == 0 || open_so_far == 0 || on_purpose.contains(pad)) {
      require(demand, pad, states);
    } else if (counts && open_so_far < open_holes) {
      demand.open.insert(pad);
    }
    if (counts) ++open_so_far;
  }
  return demand;
}

/// The mechanism as the table knew it and as it is.
struct BothWorks {
  Works table;
  Works now;
};

PadStates states_of(const Instrument& instrument, const BothWorks& works, const TableFingering& line,
                    TouchSet pressed) {
  const TouchSet half = line.fingering.half & pressed;
  // A line that a conversion brings along was found on the converted instrument.
  if (!line.from.empty()) return press(works.now, pressed, half);
  PadStates states = press(works.table, pressed, half);
  for (std::size_t i = 0; i < instrument.pads.size(); ++i) {
    const PadId pad(i);
    if (!instrument.table_pads.contains(pad) && instrument.pads[i].rest == PadRest::closed) states.closed.insert(pad);
  }
  return states;
}

}  // namespace

std::vector<Target> targets(const Instrument& instrument) {
  const BothWorks works{.table = table_works_of(instrument), .now = works_of(instrument)};
  std::vector<Target> result;
  for (std::size_t i = 0; i < instrument.table.size(); ++i) {
    const TableFingering& line = instrument.table[i];
    const auto rule = std::ranges::find(instrument.registers, line.reg, &RegisterRule::reg);
    const int open_holes = rule == instrument.registers.end() ? 0 : rule->open_holes_that_matter;
    const PadSet free = pads_moved_by(works.now, line.optional_touches);
    Target target;
    target.line = i;
    const PadStates at_rest = states_of(instrument, works, line, {});
    target.states = states_of(instrument, works, line, line.fingering.pressed);
    target.demand = demand_for(instrument, target.states, changed(target.states, at_rest), open_holes, free);
    if (!line.fingering.flicked.empty()) {
      const PadStates attack = states_of(instrument, works, line, line.fingering.pressed | line.fingering.flicked);
      target.at_attack = demand_for(instrument, attack, changed(attack, at_rest), open_holes, free);
    }
    result.push_back(target);
  }
  return result;
}

}  // namespace fingerway
