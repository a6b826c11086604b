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

/// How far down the bore a fork reaches: to the last pad it shuts. Opening any hole above that would undo it.
std::size_t end_of_fork(const Instrument& instrument, PadStates states, PadSet on_purpose) {
  std::size_t end = 0;
  for (std::size_t i = 0; i < instrument.bore.size(); ++i) {
    if ((on_purpose & states.closed).contains(instrument.bore[i])) end = i + 1;
  }
  return end;
}

/// What decides a note in its register.
struct Decisive {
  int open_holes = 0;     ///< so many open tone holes from the top; 0: every pad
  std::size_t whole = 0;  ///< and every pad of the first so many along the bore
};

PadDemand demand_for(const Instrument& instrument, PadStates states, PadSet on_purpose, Decisive decisive,
                     PadSet free) {
  PadDemand demand;
  const int open_holes = decisive.open_holes;
  int open_so_far = 0;
  for (std::size_t i = 0; i < instrument.bore.size(); ++i) {
    const PadId pad = instrument.bore[i];
    if (free.contains(pad)) continue;
    const bool stands_open = !states.closed.contains(pad) && !states.half.contains(pad);
    const bool counts = stands_open && instrument.pads[pad.index].kind == PadKind::tone_hole;
    if (open_holes == 0 || open_so_far == 0 || i < decisive.whole || on_purpose.contains(pad)) {
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
  // Pads that a conversion adds are made so that the same touches go on giving the same notes: they stand as these
  // touches leave them on the converted keywork.
  PadStates states = press(works.table, pressed, half);
  const PadStates converted = press(works.now, pressed, half);
  states.closed |= converted.closed - instrument.table_pads;
  states.half |= converted.half - instrument.table_pads;
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
    target.place = static_cast<int>(std::count_if(
        instrument.table.begin(), instrument.table.begin() + static_cast<std::ptrdiff_t>(i),
        [&](const TableFingering& other) { return other.pitch == line.pitch && other.standing == line.standing; }));
    const PadStates at_rest = states_of(instrument, works, line, {});
    target.states = states_of(instrument, works, line, line.fingering.pressed);
    const PadSet on_purpose = changed(target.states, at_rest);
    Decisive decisive{.open_holes = open_holes};
    if (line.way == Way::forked) decisive.whole = end_of_fork(instrument, target.states, on_purpose);
    target.demand = demand_for(instrument, target.states, on_purpose, decisive, free);
    if (!line.fingering.flicked.empty()) {
      const PadStates attack = states_of(instrument, works, line, line.fingering.pressed | line.fingering.flicked);
      target.at_attack = demand_for(instrument, attack, changed(attack, at_rest), decisive, free);
    }
    result.push_back(target);
  }
  return result;
}

}  // namespace fingerway
