#include "fingerway/mechanism/press.hpp"

namespace fingerway {
namespace {

std::vector<Linkage> linkages_of(const std::vector<Rule>& rules) {
  std::vector<Linkage> linkages;
  linkages.reserve(rules.size());
  for (const Rule& rule : rules) {
    linkages.push_back({.when = rule.when, .unless = rule.unless, .opens = rule.opens, .closes = rule.closes});
  }
  return linkages;
}

}  // namespace

Works works_of(const Instrument& instrument) {
  Works works;
  for (std::size_t i = 0; i < instrument.pads.size(); ++i) {
    if (instrument.pads[i].rest == PadRest::closed) works.closed_at_rest.insert(PadId(i));
    if (instrument.pads[i].opening_wins) works.opening_wins.insert(PadId(i));
  }
  for (LatchId latch : instrument.engaged) {
    works.opened_by_latch |= instrument.latches[latch.index].opens;
    works.closed_by_latch |= instrument.latches[latch.index].closes;
  }
  works.linkages = linkages_of(instrument.rules);
  return works;
}

Works table_works_of(const Instrument& instrument) {
  Works works;
  works.closed_at_rest = instrument.table_rest_closed;
  for (PadId pad : instrument.table_pads) {
    if (instrument.pads[pad.index].opening_wins) works.opening_wins.insert(pad);
  }
  works.linkages = linkages_of(instrument.table_rules);
  return works;
}

Works only_for(const Works& works, PadSet pads) {
  Works part = works;
  std::erase_if(part.linkages, [&](const Linkage& link) { return !(link.opens | link.closes).intersects(pads); });
  return part;
}

PadStates press(const Works& works, TouchSet pressed, TouchSet half) {
  PadSet opens = works.opened_by_latch;
  PadSet closes = works.closed_by_latch;
  PadSet halves;
  const TouchSet full = pressed - half;
  // Without branches: this is asked very often, and what a linkage does is hard to foresee.
  for (const Linkage& link : works.linkages) {
    const bool stopped = link.unless.intersects(pressed);
    const bool fully = !stopped & full.contains_all(link.when);
    const bool partly = !stopped & !fully & pressed.contains_all(link.when);
    opens |= link.opens.only_if(fully);
    closes |= link.closes.only_if(fully);
    // A half-pressed touch lowers its pad, or covers its hole, in part; it does not work linkages that open pads.
    halves |= link.closes.only_if(partly);
  }
  const PadSet held_shut = closes - (opens & works.opening_wins);
  PadStates states;
  states.closed = (works.closed_at_rest - opens) | held_shut;
  states.half = halves - states.closed;
  return states;
}

PadSet pads_moved_by(const Works& works, TouchSet touches) {
  PadSet pads;
  for (const Linkage& link : works.linkages) {
    if (link.when.intersects(touches) || link.unless.intersects(touches)) pads |= link.opens | link.closes;
  }
  return pads;
}

}  // namespace fingerway
