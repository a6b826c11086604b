// What this part answers: an instrument so small that every answer can be done in the head.
// Three keys in a row, 10 mm apart, each shutting its own hole; from the top down each further one lowers the note a
// semitone. It is no real instrument.
//
//   bore:     one ---- two ---- three        C4: all open      B3: one shut
//   along:    0 mm     10 mm    20 mm        Bb3: one and two  A3: all shut
//   finger:   L1       L1       L2
//
// L1 can hold one alone, two alone or both (a grip), and slides between them without a roller. Only the first open
// hole matters, so of the eight ways to press three keys four sound C4 (one open), two B3, one Bb3 and one A3.
#pragma once

#include "fingerway/instrument/instrument.hpp"

namespace fingerway {

inline constexpr TouchId toy_one(0);
inline constexpr TouchId toy_two(1);
inline constexpr TouchId toy_three(2);  // "L2.one": the third key is the only one of its finger

/// A fingering that presses these touches and no others.
[[nodiscard]] inline Fingering pressing(TouchSet touches) { return {.pressed = touches, .half = {}, .flicked = {}}; }

/// The toy instrument; ids of its touches stand above, pads are numbered alike.
[[nodiscard]] inline Instrument toy_instrument() {
  const Evidence made_up{.sources = {"made up for tests"}, .confidence = Confidence::high};
  const auto pad = [&](const char* id) {
    Pad result;
    result.id = id;
    result.label = std::string("pad ") + id;
    result.evidence = made_up;
    return result;
  };
  const auto touch = [&](Finger finger, const char* name, double along) {
    Touch result;
    result.finger = finger;
    result.name = name;
    result.label = std::string("key ") + name;
    result.spot = {.along = Mm(along), .across = Mm(0.0)};
    result.width = Mm(10.0);
    result.evidence = made_up;
    return result;
  };
  const auto shuts = [&](TouchId key, PadId hole) {
    Rule result;
    result.when = {key};
    result.closes = {hole};
    result.evidence = made_up;
    return result;
  };
  const auto line = [&](WrittenPitch pitch, Spelling spelling, TouchSet pressed, const char* mark) {
    TableFingering result;
    result.pitch = pitch;
    result.spelling = spelling;
    result.fingering.pressed = pressed;
    result.mark = mark;
    result.evidence = made_up;
    return result;
  };

  Instrument toy;
  toy.id = "toy";
  toy.name = "toy of three keys";
  toy.lowest = WrittenPitch(57);
  toy.highest = WrittenPitch(60);
  toy.pads = {pad("one"), pad("two"), pad("three")};
  toy.bore = {PadId(0), PadId(1), PadId(2)};
  toy.touches = {touch(Finger::L1, "one", 0.0), touch(Finger::L1, "two", 10.0), touch(Finger::L2, "one", 20.0)};
  toy.rules = {shuts(toy_one, PadId(0)), shuts(toy_two, PadId(1)), shuts(toy_three, PadId(2))};
  toy.grips = {{.touches = {toy_one, toy_two}, .evidence = made_up}};
  toy.slides = {{.a = toy_one, .b = toy_two, .roller = false, .from = {}, .evidence = made_up}};
  toy.registers = {{.reg = 1, .open_holes_that_matter = 1, .evidence = made_up}};
  toy.table = {
      line(WrittenPitch(60), {.step = 'C', .alter = 0, .octave = 4}, {}, "open"),
      line(WrittenPitch(59), {.step = 'B', .alter = 0, .octave = 3}, {toy_one}, "one"),
      line(WrittenPitch(58), {.step = 'B', .alter = -1, .octave = 3}, {toy_one, toy_two}, "two"),
      line(WrittenPitch(57), {.step = 'A', .alter = 0, .octave = 3}, {toy_one, toy_two, toy_three}, "three"),
  };
  toy.table_rules = toy.rules;
  toy.table_pads = {PadId(0), PadId(1), PadId(2)};
  return toy;
}

}  // namespace fingerway
