// What this part answers: the same questions as mechanism/candidates.hpp, by trying every hold of every finger against
// every target, with the definitions of the headers and none of their short cuts. Small instruments only.
#pragma once

#include <algorithm>
#include <functional>
#include <map>
#include <random>
#include <set>

#include "fingerway/mechanism/candidates.hpp"

namespace fingerway {

/// One hold of each finger: indices into holds_of().
using OneHand = std::array<std::uint8_t, finger_count>;

/// One instrument with its targets, and every hand there is.
class BruteForce {
 public:
  explicit BruteForce(const Instrument& instrument)
      : instrument_(instrument), targets_(targets(instrument)), works_(works_of(instrument)) {
    for (Finger finger : all_fingers) holds_[index(finger)] = holds_of(instrument, finger);
  }

  [[nodiscard]] const std::vector<Target>& all_targets() const { return targets_; }

  void each_hand(const std::function<void(const OneHand&)>& visit) const {
    OneHand hand{};
    each_hand(hand, 0, visit);
  }

  [[nodiscard]] Fingering fingering_of(const OneHand& hand) const {
    Fingering fingering;
    for (std::size_t f = 0; f < finger_count; ++f) {
      fingering.pressed |= holds_[f][hand[f]].touches;
      fingering.half |= holds_[f][hand[f]].half;
    }
    return fingering;
  }

  /// A hand as it is, and with each touch that one of its free fingers could flick.
  [[nodiscard]] std::vector<Fingering> with_flicks(const OneHand& hand) const {
    const Fingering plain = fingering_of(hand);
    std::vector<Fingering> all = {plain};
    for (std::size_t t = 0; t < instrument_.touches.size(); ++t) {
      const Touch& touch = instrument_.touches[t];
      if (touch.removed || hand[index(touch.finger)] != 0) continue;
      all.push_back(plain);
      all.back().flicked = {TouchId(t)};
    }
    return all;
  }

  [[nodiscard]] bool meets(const Target& target, const Fingering& f) const {
    if (!target.demand.met_by(press(works_, f.pressed, f.half))) return false;
    if (!target.at_attack) return f.flicked.empty();
    return !f.flicked.empty() && target.at_attack->met_by(press(works_, f.pressed | f.flicked, f.half));
  }

  /// The line whose target a fingering meets: its own, else the one that differs least, else the earliest.
  [[nodiscard]] const Target* line_of(WrittenPitch pitch, const Fingering& f) const {
    const Target* best = nullptr;
    int least = 0;
    for (const Target& target : targets_) {
      const TableFingering& line = instrument_.table[target.line];
      if (line.pitch != pitch || !meets(target, f)) continue;
      const auto differ = [](TouchSet a, TouchSet b) { return ((a - b) | (b - a)).size(); };
      const int strange = 2 * differ(f.pressed, line.fingering.pressed) + differ(f.flicked, line.fingering.flicked);
      if (best == nullptr || strange < least) {
        best = &target;
        least = strange;
      }
    }
    return best;
  }

  /// Touches that can be let go one after the other, the highest index first, and the note still sounds.
  [[nodiscard]] TouchSet spare(const Target& target, const Fingering& f) const {
    Fingering rest = f;
    for (std::size_t t = instrument_.touches.size(); t-- > 0;) {
      if (!rest.pressed.contains(TouchId(t))) continue;
      Fingering fewer = rest;
      fewer.pressed.erase(TouchId(t));
      fewer.half.erase(TouchId(t));
      if (meets(target, fewer)) rest = fewer;
    }
    return f.pressed - rest.pressed;
  }

  /// Every fingering a hand can hold that sounds the note, with its spare touches.
  [[nodiscard]] std::map<Fingering, TouchSet> sounding(WrittenPitch pitch) const {
    std::map<Fingering, TouchSet> all;
    each_hand([&](const OneHand& hand) {
      for (const Fingering& f : with_flicks(hand)) {
        if (const Target* target = line_of(pitch, f)) all[f] = spare(*target, f);
      }
    });
    return all;
  }

  [[nodiscard]] bool in_table(WrittenPitch pitch, const Fingering& f) const {
    return std::any_of(instrument_.table.begin(), instrument_.table.end(),
                       [&](const TableFingering& line) { return line.pitch == pitch && line.fingering == f; });
  }

  [[nodiscard]] std::set<WrittenPitch> pitches() const {
    std::set<WrittenPitch> all;
    for (const TableFingering& line : instrument_.table) all.insert(line.pitch);
    return all;
  }

 private:
  void each_hand(OneHand& hand, std::size_t finger, const std::function<void(const OneHand&)>& visit) const {
    if (finger == finger_count) {
      visit(hand);
      return;
    }
    for (std::size_t h = 0; h < holds_[finger].size(); ++h) {
      hand[finger] = static_cast<std::uint8_t>(h);
      each_hand(hand, finger + 1, visit);
    }
    hand[finger] = 0;
  }

  const Instrument& instrument_;
  std::vector<Target> targets_;
  Works works_;
  std::array<std::vector<Hold>, finger_count> holds_;
};

/// Draws small instruments that make little musical sense: linkages of every kind, forks, half holes, flicks, grips.
/// The numbers come from the generator alone, so every platform draws the same ones.
class InstrumentDrawer {
 public:
  explicit InstrumentDrawer(unsigned start) : random_(start) {}

  [[nodiscard]] Instrument instrument() {
    Instrument made;
    made.id = "drawn";
    for (std::size_t p = 0; p < pad_count; ++p) {
      Pad pad;
      pad.id = "p" + std::to_string(p);
      pad.kind = chance(20) ? PadKind::vent : PadKind::tone_hole;
      pad.rest = chance(30) ? PadRest::closed : PadRest::open;
      pad.opening_wins = chance(10);
      if (pad.rest == PadRest::closed) made.table_rest_closed.insert(PadId(p));
      made.table_pads.insert(PadId(p));
      made.bore.emplace_back(p);
      made.pads.push_back(pad);
    }
    const std::array<Finger, 4> fingers = {Finger::LT, Finger::L1, Finger::R2, Finger::R4};
    for (std::size_t t = 0; t < touch_count; ++t) {
      Touch touch;
      touch.finger = fingers[t < fingers.size() ? t : below(fingers.size())];
      touch.name = "t" + std::to_string(t);
      touch.can_be_half = chance(25);
      made.touches.push_back(touch);
      made.rules.push_back(rule({TouchId(t)}, made));
    }
    for (int extra = 0; extra < 2; ++extra) made.rules.push_back(rule(some_touches(2), made));
    add_grips(made);
    made.registers = {{.reg = 1, .open_holes_that_matter = 1, .evidence = {}},
                      {.reg = 2, .open_holes_that_matter = 2, .evidence = {}}};
    made.table_rules = made.rules;
    for (int line = 0; line < 9; ++line) made.table.push_back(table_line(made));
    return made;
  }

  /// The same instrument with one rule taken away and one added.
  [[nodiscard]] Instrument converted(Instrument instrument) {
    instrument.rules.erase(instrument.rules.begin() + static_cast<std::ptrdiff_t>(below(instrument.rules.size())));
    instrument.rules.push_back(rule(some_touches(1), instrument));
    return instrument;
  }

  [[nodiscard]] HandMask some_holds(const Derivation& derivation) {
    HandMask mask{};
    for (std::size_t f = 0; f < finger_count; ++f) {
      mask[f] = 1;
      for (std::size_t h = 1; h < derivation.holds[f].size(); ++h) {
        if (chance(70)) mask[f] |= HoldMask{1} << h;
      }
    }
    return mask;
  }

 private:
  static constexpr std::size_t pad_count = 6;
  static constexpr std::size_t touch_count = 8;

  std::size_t below(std::size_t n) { return random_() % n; }
  bool chance(unsigned percent) { return random_() % 100 < percent; }

  TouchSet some_touches(std::size_t most) {
    TouchSet touches;
    for (std::size_t i = 0; i < most; ++i) touches.insert(TouchId(below(touch_count)));
    return touches;
  }

  Rule rule(TouchSet when, const Instrument& made) {
    Rule rule;
    rule.when = when;
    if (chance(20)) rule.unless = some_touches(1) - when;
    const PadId pad(below(pad_count));
    (made.pads[pad.index].rest == PadRest::closed ? rule.opens : rule.closes).insert(pad);
    if (chance(25)) rule.closes.insert(PadId(below(pad_count)));
    return rule;
  }

  void add_grips(Instrument& made) {
    for (Finger finger : all_fingers) {
      const TouchSet own = touches_of(made, finger);
      if (own.size() < 2) continue;
      std::vector<TouchId> list(own.begin(), own.end());
      for (std::size_t i = 0; i + 1 < list.size(); ++i) {
        if (chance(60)) made.grips.push_back({.touches = {list[i], list[i + 1]}, .evidence = {}});
      }
      if (list.size() > 2 && chance(50)) made.grips.push_back({.touches = own, .evidence = {}});
    }
  }

  TableFingering table_line(const Instrument& made) {
    TableFingering line;
    line.pitch = WrittenPitch(60 + static_cast<int>(below(5)));
    line.reg = 1 + static_cast<int>(below(3));
    for (Finger finger : all_fingers) {
      const auto holds = holds_of(made, finger);
      const Hold& hold = holds[below(holds.size())];
      line.fingering.pressed |= hold.touches;
      line.fingering.half |= hold.half;
    }
    if (chance(20)) {
      const TouchId touch(below(touch_count));
      if (held_by(made, line.fingering.pressed, made.touches[touch.index].finger).empty()) {
        line.fingering.flicked = {touch};
      }
    }
    if (chance(15)) line.optional_touches = some_touches(1) - line.fingering.pressed;
    return line;
  }

  std::mt19937 random_;
};

}  // namespace fingerway
