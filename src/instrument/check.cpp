#include "fingerway/instrument/check.hpp"

#include <algorithm>
#include <set>
#include <tuple>

namespace fingerway {

namespace {

using Subject = Finding::Subject;

std::string names(const Instrument& instrument, TouchSet touches) {
  std::string text;
  for (TouchId id : touches) {
    if (!text.empty()) text += ", ";
    text += full_name(instrument.touches[id.index]);
  }
  return text;
}

/// True when one finger can hold these touches of its own at once: none, one, or a declared grip.
bool holdable(const Instrument& instrument, TouchSet touches) {
  if (touches.size() < 2) return true;
  return std::any_of(instrument.grips.begin(), instrument.grips.end(),
                     [&](const Grip& grip) { return grip.touches == touches; });
}

/// True when the hand can hold all of these at once, perhaps with more.
bool holdable_within(const Instrument& instrument, TouchSet touches) {
  return std::all_of(all_fingers.begin(), all_fingers.end(), [&](Finger finger) {
    const TouchSet held = held_by(instrument, touches, finger);
    return held.size() < 2 || std::any_of(instrument.grips.begin(), instrument.grips.end(),
                                          [&](const Grip& grip) { return grip.touches.contains_all(held); });
  });
}

TouchSet removed_touches(const Instrument& instrument) {
  TouchSet removed;
  for (std::size_t i = 0; i < instrument.touches.size(); ++i) {
    if (instrument.touches[i].removed) removed.insert(TouchId(i));
  }
  return removed;
}

/// Stock lines of a converted instrument are pressed on the stock keywork; they were checked with it.
bool pressed_here(const Instrument& instrument, const TableFingering& line) {
  return instrument.conversions.empty() || !line.from.empty();
}

class Checker {
 public:
  explicit Checker(const Instrument& instrument) : instrument_(instrument), removed_(removed_touches(instrument)) {}

  std::vector<Finding> run() {
    check_range();
    check_pads();
    check_touches();
    for (std::size_t i = 0; i < instrument_.rules.size(); ++i) check_rule(i);
    check_fights();
    for (std::size_t i = 0; i < instrument_.grips.size(); ++i) check_grip(i);
    for (std::size_t i = 0; i < instrument_.slides.size(); ++i) check_slide(i);
    for (std::size_t i = 0; i < instrument_.latches.size(); ++i) check_latch(i);
    for (std::size_t i = 0; i < instrument_.table.size(); ++i) check_line(i);
    check_repeated_lines();
    return std::move(findings_);
  }

 private:
  void found(Subject subject, std::size_t index, std::string what, std::string hint = {}) {
    findings_.push_back({subject, index, std::move(what), std::move(hint)});
  }

  void check_range() {
    if (instrument_.lowest > instrument_.highest) {
      found(Subject::instrument, 0, "the range runs downwards", "the lowest note comes first");
      return;
    }
    for (int key = instrument_.lowest.key; key <= instrument_.highest.key; ++key) {
      const WrittenPitch pitch(key);
      if (std::none_of(instrument_.table.begin(), instrument_.table.end(),
                       [&](const TableFingering& line) { return line.pitch == pitch; })) {
        found(Subject::instrument, 0, "no fingering for " + name(chart_spelling(pitch)),
              "every semitone of the range needs a line");
      }
    }
  }

  void check_pads() {
    for (std::size_t i = 0; i < instrument_.pads.size(); ++i) {
      const Pad& pad = instrument_.pads[i];
      const PadId id(i);
      // A conversion may take a touch away and leave its pad at rest for good.
      const bool stock_of_converted = !instrument_.conversions.empty() && instrument_.table_pads.contains(id);
      if (pad.kind == PadKind::open_end || stock_of_converted) continue;
      const bool moved = std::any_of(instrument_.rules.begin(), instrument_.rules.end(), [&](const Rule& rule) {
        return (pad.rest == PadRest::open ? rule.closes : rule.opens).contains(id);
      });
      if (moved) continue;
      const std::string verb = pad.rest == PadRest::open ? "closes" : "opens";
      found(Subject::pad, i, "no rule " + verb + " the pad '" + pad.id + "'",
            "it is " + std::string(pad.rest == PadRest::open ? "open" : "closed") + " at rest");
    }
  }

  void check_touches() {
    TouchSet used;
    for (const Rule& rule : instrument_.rules) used |= rule.when | rule.unless;
    for (std::size_t i = 0; i < instrument_.touches.size(); ++i) {
      if (used.contains(TouchId(i)) || instrument_.touches[i].removed) continue;
      found(Subject::touch, i, "the touch '" + full_name(instrument_.touches[i]) + "' moves nothing",
            "name it in a rule");
    }
  }

  void check_rule(std::size_t i) {
    const Rule& rule = instrument_.rules[i];
    if (rule.when.empty()) found(Subject::rule, i, "a rule without a touch that works it", "name a touch in 'when'");
    if (rule.opens.empty() && rule.closes.empty()) {
      found(Subject::rule, i, "a rule that neither opens nor closes a pad", "name a pad in 'opens' or 'closes'");
    }
    if (rule.when.intersects(rule.unless)) {
      found(Subject::rule, i, "a rule that needs and forbids " + names(instrument_, rule.when & rule.unless));
    }
    for (PadId pad : rule.opens& rule.closes) {
      found(Subject::rule, i, "a rule that opens and closes the pad '" + instrument_.pads[pad.index].id + "'");
    }
    if (!holdable_within(instrument_, rule.when)) {
      found(Subject::rule, i, "no hand can hold " + names(instrument_, rule.when) + " together",
            "declare a grip, or write one rule for each touch");
    }
    check_present(Subject::rule, i, "a rule", rule.when | rule.unless);
  }

  // A finger that holds a pad open against another key that shuts it bends keys; the lever has to let go of the pad,
  // which then opens by its own spring.
  void check_fights() {
    for (std::size_t i = 0; i < instrument_.rules.size(); ++i) {
      const Rule& closing = instrument_.rules[i];
      for (PadId pad_id : closing.closes) {
        const Pad& pad = instrument_.pads[pad_id.index];
        if (pad.rest == PadRest::open || pad.springs_open || pad.opening_wins) continue;
        for (const Rule& opening : instrument_.rules) {
          if (&opening == &closing || !opening.opens.contains(pad_id) || !both_possible(opening, closing)) continue;
          found(Subject::rule, i,
                names(instrument_, closing.when) + " shuts the pad '" + pad.id +
                    "' against the finger that opens it (" + names(instrument_, opening.when) + ")",
                "a pad that another key holds shut must spring open by itself: springs_open: true");
          break;
        }
      }
    }
  }

  [[nodiscard]] bool both_possible(const Rule& a, const Rule& b) const {
    const TouchSet held = a.when | b.when;
    return !held.intersects(a.unless | b.unless) && !held.intersects(removed_) && holdable_within(instrument_, held);
  }

  void check_grip(std::size_t i) {
    const TouchSet touches = instrument_.grips[i].touches;
    if (touches.size() < 2) {
      found(Subject::grip, i, "a grip of fewer than two touches", "a single touch needs no line");
      return;
    }
    check_present(Subject::grip, i, "a grip", touches);
    const Finger finger = instrument_.touches[touches.first().index].finger;
    if (held_by(instrument_, touches, finger) != touches) {
      found(Subject::grip, i, "a grip of two fingers: " + names(instrument_, touches),
            "a grip is what one finger holds");
    }
  }

  void check_slide(std::size_t i) {
    const Slide& slide = instrument_.slides[i];
    const TouchSet touches{slide.a, slide.b};
    if (touches.size() < 2) {
      found(Subject::slide, i, "a slide from a touch to itself: " + names(instrument_, touches));
      return;
    }
    check_present(Subject::slide, i, "a slide", touches);
    if (instrument_.touches[slide.a.index].finger != instrument_.touches[slide.b.index].finger) {
      found(Subject::slide, i, "a slide between two fingers: " + names(instrument_, touches),
            "one finger slides between its own touches");
    }
  }

  void check_latch(std::size_t i) {
    const Latch& latch = instrument_.latches[i];
    if (latch.opens.empty() && latch.closes.empty()) {
      found(Subject::latch, i, "the latch '" + latch.id + "' holds no pad", "name a pad in 'opens' or 'closes'");
    }
  }

  void check_present(Subject subject, std::size_t i, const std::string& who, TouchSet touches) {
    const TouchSet gone = touches & removed_;
    if (!gone.empty()) found(subject, i, who + " uses " + names(instrument_, gone) + ", which a conversion takes off");
  }

  void check_line(std::size_t i) {
    const TableFingering& line = instrument_.table[i];
    const std::string who = "the fingering of " + name(line.spelling);
    if (line.pitch < instrument_.lowest || line.pitch > instrument_.highest) {
      found(Subject::fingering, i, name(line.spelling) + " lies outside the range",
            name(chart_spelling(instrument_.lowest)) + " to " + name(chart_spelling(instrument_.highest)));
    }
    if (std::none_of(instrument_.registers.begin(), instrument_.registers.end(),
                     [&](const RegisterRule& rule) { return rule.reg == line.reg; })) {
      found(Subject::fingering, i, "no register " + std::to_string(line.reg),
            "the registers are listed in 'registers'");
    }
    if (!pressed_here(instrument_, line)) return;
    const Fingering& f = line.fingering;
    check_present(Subject::fingering, i, who, f.pressed | f.flicked);
    check_halves(i, who, f);
    if (f.pressed.intersects(f.flicked)) {
      found(Subject::fingering, i, who + " both holds and flicks " + names(instrument_, f.pressed & f.flicked),
            "a flick is pressed at the start only");
    }
    // A flick needs its finger free, or a grip that takes in what the finger holds.
    for (Finger finger : all_fingers) {
      const TouchSet held = held_by(instrument_, f.pressed | f.flicked, finger);
      if (holdable(instrument_, held)) continue;
      found(Subject::fingering, i, who + " needs the " + std::string(words(finger)) + " on " + names(instrument_, held),
            "no grip holds these together");
    }
  }

  void check_halves(std::size_t i, const std::string& who, const Fingering& f) {
    const TouchSet stray = f.half - f.pressed;
    if (!stray.empty()) {
      found(Subject::fingering, i, who + " half-presses " + names(instrument_, stray) + " without pressing it",
            "'half' is a part of 'press'");
    }
    for (TouchId id : f.half& f.pressed) {
      const Touch& touch = instrument_.touches[id.index];
      if (touch.can_be_half) continue;
      found(Subject::fingering, i, who + " half-presses " + full_name(touch), "this touch has no 'half: true'");
    }
  }

  void check_repeated_lines() {
    std::set<std::tuple<int, TouchSet, TouchSet, TouchSet, std::string>> seen;
    for (std::size_t i = 0; i < instrument_.table.size(); ++i) {
      const TableFingering& line = instrument_.table[i];
      const Fingering& f = line.fingering;
      if (seen.emplace(line.pitch.key, f.pressed, f.half, f.flicked, line.from).second) continue;
      found(Subject::fingering, i, "the same fingering of " + name(line.spelling) + " twice");
    }
  }

  const Instrument& instrument_;
  TouchSet removed_;
  std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> check(const Instrument& instrument) { return Checker(instrument).run(); }

}  // namespace fingerway
