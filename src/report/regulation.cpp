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

/// What these pads must do, those that shut first.
std::string pad_words(const Instrument& instrument, PadSet pads, const PadStates& states) {
  std::vector<std::string> shut;
  std::vector<std::string> open;
  for (PadId pad : pads) {
    const Pad& p = instrument.pads[pad.index];
    (states.closed.contains(pad) ? shut : open).push_back("the " + (p.label.empty() ? p.id : p.label));
  }
  std::string text;
  if (!shut.empty()) text = listed(shut) + " must shut";
  if (!open.empty()) text += (text.empty() ? "" : ", ") + listed(open) + " must stand open";
  return text;
}

/// One thing to try at the bench: hold these, press those, look at these pads.
struct Trial {
  TouchSet held;
  TouchSet pressed;
  PadSet pads;
  std::string from;
};

bool opposes(const Rule& a, const Rule& b) { return a.opens.intersects(b.closes) || a.closes.intersects(b.opens); }

/// The rule by itself, and once against each key that alone would move its pads the other way: the linkage must win or
/// give way as the mechanism says.
std::vector<Trial> trials_of(const Instrument& instrument, const Rule& rule) {
  TouchSet held = rule.when;
  held.erase(rule.when.first());
  const PadSet pads = rule.opens | rule.closes;
  std::vector<Trial> trials = {{.held = held, .pressed = rule.when - held, .pads = pads, .from = rule.from}};
  for (const Rule& other : instrument.rules) {
    if (!opposes(rule, other) || other.when.size() != 1 || other.when.intersects(rule.when | rule.unless)) continue;
    const PadSet shared = (rule.opens & other.closes) | (rule.closes & other.opens);
    trials.push_back({.held = other.when | held, .pressed = rule.when - held, .pads = shared, .from = rule.from});
  }
  return trials;
}

std::string line_of(const Instrument& instrument, const Works& works, const Trial& trial) {
  std::string text;
  if (!trial.held.empty()) text += "hold " + touch_names(instrument, trial.held) + ", ";
  text += "press " + touch_names(instrument, trial.pressed);
  const PadStates states = press(works, trial.held | trial.pressed, {});
  return text + ": " + pad_words(instrument, trial.pads, states) + " (" + trial.from + ")";
}

}  // namespace

std::vector<std::string> regulation_check_list(const Instrument& instrument) {
  const Works works = works_of(instrument);
  std::vector<std::string> lines;
  std::vector<TouchSet> tried;
  for (const Rule& rule : instrument.rules) {
    if (rule.from.empty() || rule.when.empty() || (rule.opens | rule.closes).empty()) continue;
    for (const Trial& trial : trials_of(instrument, rule)) {
      // Two linkages that meet ask for the same keys; which of them is held does not matter to the pads.
      const TouchSet down = trial.held | trial.pressed;
      if (std::ranges::find(tried, down) != tried.end()) continue;
      tried.push_back(down);
      lines.push_back(line_of(instrument, works, trial));
    }
  }
  for (const Pad& pad : instrument.pads) {
    const auto index = PadId(static_cast<std::size_t>(&pad - instrument.pads.data()));
    if (!pad.springs_open) continue;
    lines.push_back("let everything go: the " + (pad.label.empty() ? pad.id : pad.label) +
                    (press(works, {}, {}).closed.contains(index) ? " must be held shut by its lever's spring"
                                                                 : " must spring open by itself"));
  }
  return lines;
}

}  // namespace fingerway
