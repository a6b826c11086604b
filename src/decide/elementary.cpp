#include "fingerway/decide/elementary.hpp"

#include <algorithm>
#include <cmath>

namespace fingerway {
namespace {

TouchId id_of(std::size_t touch) { return TouchId(touch); }

bool is_key(const Touch& touch) { return !touch.removed && touch.name != "hole"; }

PadSet opened_by(const Instrument& instrument, TouchId touch) {
  PadSet pads;
  for (const Rule& rule : instrument.rules) {
    if (rule.when.contains(touch)) pads |= rule.opens;
  }
  return pads;
}

PadSet closed_by(const Instrument& instrument, TouchId touch) {
  PadSet pads;
  for (const Rule& rule : instrument.rules) {
    if (rule.when.contains(touch)) pads |= rule.closes;
  }
  return pads;
}

/// Pads covered by a bare finger.
PadSet bare_holes(const Instrument& instrument) {
  PadSet pads;
  for (std::size_t t = 0; t < instrument.touches.size(); ++t) {
    if (instrument.touches[t].name == "hole") pads |= moved_by(instrument, id_of(t));
  }
  return pads;
}

/// True where a rod from the touch to keys that move the pad now would not be too long.
bool reaches(const Instrument& instrument, const Touch& touch, PadId pad, const ChangeLimits& limits) {
  for (std::size_t t = 0; t < instrument.touches.size(); ++t) {
    const Touch& other = instrument.touches[t];
    if (other.removed || !moved_by(instrument, id_of(t)).contains(pad)) continue;
    if (std::abs(other.spot.along.value() - touch.spot.along.value()) <= limits.reach.value()) return true;
  }
  return false;
}

/// All changes of an instrument, collected.
class Workshop {
 public:
  Workshop(const Instrument& instrument, const ChangeLimits& limits)
      : instrument_(instrument), limits_(limits), bare_(bare_holes(instrument)) {}

  std::vector<ElementaryChange> all() {
    for (std::size_t t = 0; t < instrument_.touches.size(); ++t) {
      if (is_key(instrument_.touches[t])) add_linkages(id_of(t));
    }
    for (std::size_t t = 0; t < instrument_.touches.size(); ++t) {
      if (is_key(instrument_.touches[t])) add_duplicates(id_of(t));
    }
    for (const Slide& slide : instrument_.slides) {
      if (slide.roller) continue;
      changes_.push_back({.kind = ChangeKind::roller,
                          .touch = slide.a,
                          .pad = {},
                          .beside = slide.b,
                          .finger = instrument_.touches[slide.a.index].finger,
                          .price = PriceClass::small});
    }
    return changes_;
  }

 private:
  void add_linkages(TouchId touch) {
    const Touch& key = instrument_.touches[touch.index];
    const PadSet moved = moved_by(instrument_, touch);
    for (std::size_t p = 0; p < instrument_.pads.size(); ++p) {
      const PadId pad(p);
      const Pad& there = instrument_.pads[p];
      if (there.kind == PadKind::open_end || bare_.contains(pad) || moved.contains(pad)) continue;
      if (!reaches(instrument_, key, pad, limits_)) continue;
      const bool rests_closed = there.rest == PadRest::closed;
      ElementaryChange change{.kind = ChangeKind::opens,
                              .touch = touch,
                              .pad = pad,
                              .beside = {},
                              .finger = key.finger,
                              .price = PriceClass::middle};
      if (rests_closed) changes_.push_back(change);
      change.kind = ChangeKind::closes;
      if (rests_closed && !there.springs_open) change.price = PriceClass::large;
      changes_.push_back(change);
    }
  }

  void add_duplicates(TouchId touch) {
    const Touch& key = instrument_.touches[touch.index];
    for (Finger finger : all_fingers) {
      if (finger == key.finger) continue;
      // Beside the finger's nearest touch, where it can get at it.
      std::optional<TouchId> nearest;
      for (TouchId other : touches_of(instrument_, finger)) {
        if (!nearest || distance_along(other, touch) < distance_along(*nearest, touch)) nearest = other;
      }
      if (!nearest || distance_along(*nearest, touch) > limits_.reach.value()) continue;
      const PadSet already = [&] {
        PadSet pads;
        for (TouchId other : touches_of(instrument_, finger)) pads |= moved_by(instrument_, other);
        return pads;
      }();
      // A finger that moves those pads by a key of its own needs no second one.
      if (already.contains_all(moved_by(instrument_, touch))) continue;
      changes_.push_back({.kind = ChangeKind::duplicate,
                          .touch = touch,
                          .pad = {},
                          .beside = *nearest,
                          .finger = finger,
                          .price = PriceClass::large});
    }
  }

  [[nodiscard]] double distance_along(TouchId a, TouchId b) const {
    return std::abs(instrument_.touches[a.index].spot.along.value() - instrument_.touches[b.index].spot.along.value());
  }

  const Instrument& instrument_;
  const ChangeLimits& limits_;
  PadSet bare_;
  std::vector<ElementaryChange> changes_;
};

Rule made_rule(TouchId touch) {
  Rule rule;
  rule.when = {touch};
  rule.from = "new";
  return rule;
}

/// A touch further down, or further to the side where a key is there already.
void add_duplicate(Instrument& instrument, const ElementaryChange& change, const ChangeLimits& limits) {
  const TouchId made(instrument.touches.size());
  const Touch& beside = instrument.touches[change.beside.index];
  Touch touch = instrument.touches[change.touch.index];
  touch.finger = change.finger;
  touch.name = "new-" + touch.name;
  touch.label = "second " + (touch.label.empty() ? touch.name : touch.label);
  touch.spot = {.along = beside.spot.along + limits.beside, .across = beside.spot.across};
  touch.spot_measured = false;
  touch.can_be_half = false;
  touch.from = "new";
  instrument.touches.push_back(touch);
  const std::size_t count = instrument.rules.size();
  for (std::size_t r = 0; r < count; ++r) {
    if (instrument.rules[r].when != TouchSet{change.touch}) continue;
    Rule rule = instrument.rules[r];
    rule.when = {made};
    rule.from = "new";
    instrument.rules.push_back(rule);
  }
  Slide slide;
  slide.a = change.beside;
  slide.b = made;
  slide.from = "new";
  instrument.slides.push_back(slide);
}

}  // namespace

PadSet moved_by(const Instrument& instrument, TouchId touch) {
  return opened_by(instrument, touch) | closed_by(instrument, touch);
}

std::vector<ElementaryChange> elementary_changes(const Instrument& instrument, const ChangeLimits& limits) {
  return Workshop(instrument, limits).all();
}

bool agree(const ElementaryChange& a, const ElementaryChange& b) {
  const auto linkage = [](const ElementaryChange& c) {
    return c.kind == ChangeKind::opens || c.kind == ChangeKind::closes;
  };
  if (a == b) return false;
  return !linkage(a) || !linkage(b) || a.touch != b.touch || a.pad != b.pad;
}

std::optional<Instrument> with_changes(const Instrument& instrument, std::span<const ElementaryChange> changes,
                                       const ChangeLimits& limits) {
  Instrument changed = instrument;
  for (const ElementaryChange& change : changes) {
    switch (change.kind) {
      case ChangeKind::opens: {
        Rule rule = made_rule(change.touch);
        rule.opens = {change.pad};
        changed.rules.push_back(rule);
        break;
      }
      case ChangeKind::closes: {
        Rule rule = made_rule(change.touch);
        rule.closes = {change.pad};
        changed.rules.push_back(rule);
        Pad& pad = changed.pads[change.pad.index];
        if (pad.rest == PadRest::closed) pad.springs_open = true;
        break;
      }
      case ChangeKind::duplicate:
        if (changed.touches.size() >= TouchSet::capacity) return std::nullopt;
        add_duplicate(changed, change, limits);
        break;
      case ChangeKind::roller:
        for (Slide& slide : changed.slides) {
          if (slide.a == change.touch && slide.b == change.beside) {
            slide.roller = true;
            slide.from = "new";
          }
        }
        break;
    }
  }
  return changed;
}

}  // namespace fingerway
