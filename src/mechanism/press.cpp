#include "fingerway/mechanism/press.hpp"

namespace fingerway {
namespace {

/// Takes in the linkages; pads at rest and latches must be known.
void add_linkages(Works& works, std::vector<Linkage> linkages) {
  works.linkages = std::move(linkages);
  works.opened_by = works.closed_by = {};
  works.combined.clear();
  for (const Linkage& link : works.linkages) {
    if (link.when.size() == 1 && link.unless.empty()) {
      works.opened_by[link.when.first().index] |= link.opens;
      works.closed_by[link.when.first().index] |= link.closes;
    } else {
      works.combined.push_back(link);
    }
  }
}

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
  add_linkages(works, linkages_of(instrument.rules));
  return works;
}

Works table_works_of(const Instrument& instrument) {
  Works works;
  works.closed_at_rest = instrument.table_rest_closed;
  for (PadId pad : instrument.table_pads) {
    if (instrument.pads[pad.index].opening_wins) works.opening_wins.insert(pad);
  }
  add_linkages(works, linkages_of(instrument.table_rules));
  return works;
}

Works only_for(const Works& works, PadSet pads) {
  Works part = works;
  std::vector<Linkage> linkages = works.linkages;
  std::erase_if(linkages, [&](const Linkage& link) { return !(link.opens | link.closes).intersects(pads); });
  add_linkages(part, std::move(linkages));
  return part;
}

PadStates press(const Works& works, TouchSet pressed, TouchSet half) {
  PadSet opens = works.opened_by_latch;
  PadSet closes = works.closed_by_latch;
  PadSet halves;
  const TouchSet full = pressed - half;
  for (TouchId touch : full) {
    opens |= works.opened_by[touch.index];
    closes |= works.closed_by[touch.index];
  }
  // A half-pressed touch lowers its pad, or covers its hole, in part; it does not work linkages that open pads.
  const TouchSet in_part = half & pressed;
  for (TouchId touch : in_part) halves |= works.closed_by[touch.index];
  for (const Linkage& link : works.combined) {
    if (link.unless.intersects(pressed)) continue;
    if (full.contains_all(link.when)) {
      opens |= link.opens;
      closes |= link.closes;
    } else if (pressed.contains_all(link.when)) {
      halves |= link.closes;
    }
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
