#include <algorithm>

#include "fingerway/mechanism/press.hpp"
#include "fingerway/report/text.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string touch_names(const Instrument& instrument, TouchSet touches) {
  std::vector<std::string> names;
  for (TouchId touch : touches) {
    const Touch& t = instrument.touches[touch.index];
    names.push_back(touch_words(instrument, touch) + " (" + std::string(words(t.finger)) + ")");
  }
  return listed(names);
}

/// What the pads of a rule do when its touches are pressed, as the whole mechanism has it.
std::string pad_words(const Instrument& instrument, PadSet pads, const PadStates& states) {
  std::vector<std::string> parts;
  for (PadId pad : pads) {
    const Pad& p = instrument.pads[pad.index];
    const std::string name = "the " + (p.label.empty() ? p.id : p.label);
    parts.push_back(name + (states.closed.contains(pad) ? " must shut" : " must stand open"));
  }
  return listed(parts);
}

/// The touches that must lie still before the last one is pressed: what the rule needs, and what alone would move its
/// pads the other way, so that the linkage is seen to win.
TouchSet held_before(const Instrument& instrument, const Rule& rule) {
  TouchSet held;
  if (rule.when.size() > 1) {
    held = rule.when;
    held.erase(rule.when.first());
  }
  for (const Rule& other : instrument.rules) {
    const bool against = other.opens.intersects(rule.closes) || other.closes.intersects(rule.opens);
    if (against && !other.when.intersects(rule.when | rule.unless) && other.when.size() == 1) held |= other.when;
  }
  return held;
}

std::string line_of(const Instrument& instrument, const Rule& rule) {
  const TouchSet held = held_before(instrument, rule);
  const TouchSet pressed = rule.when - held;
  std::string text;
  if (!held.empty()) text += "hold " + touch_names(instrument, held) + ", ";
  if (!pressed.empty()) {
    text += "press " + touch_names(instrument, pressed);
  } else {
    text += "press nothing more";
  }
  if (!rule.unless.empty()) text += ", leave " + touch_names(instrument, rule.unless) + " alone";
  const PadStates states = press(instrument, held | rule.when, {});
  return text + ": " + pad_words(instrument, rule.opens | rule.closes, states) + " (" + rule.from + ")";
}

}  // namespace

std::vector<std::string> regulation_check_list(const Instrument& instrument) {
  std::vector<std::string> lines;
  for (const Rule& rule : instrument.rules) {
    if (!rule.from.empty() && !(rule.opens | rule.closes).empty()) lines.push_back(line_of(instrument, rule));
  }
  for (const Pad& pad : instrument.pads) {
    const auto index = PadId(static_cast<std::size_t>(&pad - instrument.pads.data()));
    if (!pad.springs_open) continue;
    lines.push_back("let everything go: the " + (pad.label.empty() ? pad.id : pad.label) +
                    (press(instrument, {}, {}).closed.contains(index) ? " must be held shut by its lever's spring"
                                                                      : " must spring open by itself"));
  }
  return lines;
}

}  // namespace fingerway
