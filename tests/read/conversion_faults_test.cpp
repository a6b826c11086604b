// Conversions that are wrong, or that contradict each other, on the exact text a user reads.
#include <catch2/catch.hpp>

#include <algorithm>

#include "read/pipe_example.hpp"

using namespace fingerway;

namespace {

/// What reading the pipe with one conversion of these sections says. The sections start in line 8.
std::string one(const std::string& sections) {
  const PipeFolder folder;
  folder.short_conversion("a", sections);
  return folder.faults("pipe+a");
}

/// What stacking two conversions says, in both orders, which must agree but for the order of the names.
std::string both(const std::string& first, const std::string& second) {
  const PipeFolder folder;
  folder.short_conversion("a", first);
  folder.short_conversion("b", second);
  CHECK(folder.faults("pipe+a") == "read");
  CHECK(folder.faults("pipe+b") == "read");
  const std::string reversed = folder.faults("pipe+b+a");
  CHECK((reversed == "read" || reversed.find("'b' and 'a' contradict each other about") != std::string::npos));
  const std::string told = folder.faults("pipe+a+b");
  CHECK((told == "read") == (reversed == "read"));
  return told;
}

const std::string ev = ", source: s, confidence: low}\n";

}  // namespace

TEST_CASE("an empty conversion changes nothing but the name of the stack") {
  const PipeFolder folder;
  folder.short_conversion("a", "");
  Instrument converted = folder.read("pipe+a");
  const Instrument stock = folder.read("pipe");
  CHECK(converted.pads == stock.pads);
  CHECK(converted.bore == stock.bore);
  CHECK(converted.touches == stock.touches);
  CHECK(converted.rules == stock.rules);
  CHECK(converted.grips == stock.grips);
  CHECK(converted.slides == stock.slides);
  CHECK(converted.latches == stock.latches);
  CHECK(converted.table == stock.table);
}

TEST_CASE("a conversion for another instrument is refused") {
  const PipeFolder folder;
  folder.conversion("a", "fingerway: conversion\nversion: 1\nid: a\nbase: flute\nname: n\nwhat: w\n");
  CHECK(folder.faults("pipe+a") == "conversions/a.yaml:4:7: this conversion is for 'flute', not for 'pipe'");
  CHECK(folder.faults("pipe+b") == "no conversion of pipe 'b' (none is known)");
}

TEST_CASE("a conversion stacked twice is refused") {
  const PipeFolder folder;
  folder.short_conversion("a", "");
  CHECK(folder.faults("pipe+a+a") == "the conversion 'a' is stacked twice");
}

TEST_CASE("what a conversion takes out must be there") {
  CHECK(one("rules: {remove: [{when: [L1.one], unless: [L2.two]}]}\n") ==
        "conversions/a.yaml:8:18: no such rule to remove ('when' and 'unless' must be those of a rule of the base)");
  CHECK(one("grips: {remove: [{hold: [L1.one, L2.two]}]}\n") ==
        "conversions/a.yaml:8:18: no such grip to remove ('hold' must name the touches of a grip of the base)");
  CHECK(one("slides: {change: [{between: [L1.one, L2.two], roller: true}]}\n") ==
        "conversions/a.yaml:8:19: the instrument has no such slide ('between' must name a slide of the base)");
  CHECK(one("touches: {remove: [L1.two]}\n") ==
        "conversions/a.yaml:8:20: unknown touch 'L1.two' (did you mean 'L2.two'?)");
  CHECK(one("latches: {engage: [mut]}\n") == "conversions/a.yaml:8:20: unknown latch 'mut' (did you mean 'mute'?)");
}

TEST_CASE("what a conversion adds must be new") {
  CHECK(one("pads: {add: [{id: two, after: one, kind: vent, rest: open" + ev.substr(0, ev.size() - 1) + "]}\n") ==
        "conversions/a.yaml:8:14: the instrument already has a pad 'two' (another id, or 'change' it)");
  CHECK(one("slides:\n  add:\n    - {between: [LT.lock, LT.vent]" + ev) ==
        "conversions/a.yaml:10:7: the instrument already has a slide between LT.vent, LT.lock ('change' it)");
  CHECK(one("pads: {change: [{id: two}]}\n") ==
        "conversions/a.yaml:8:17: a changed pad that changes nothing (name 'rest', 'springs_open' or 'opening_wins')");
  CHECK(one("key: 1\n").find("conversions/a.yaml:8:1: unknown key 'key' in the conversion file") == 0);
  CHECK(one("cost: {from: 3, to: 2, currency: EUR, basis: invented}\n") ==
        "conversions/a.yaml:8:7: 'from' is more than 'to' (the lower figure first)");
}

TEST_CASE("what check finds in a converted instrument is told at the conversion's line") {
  CHECK(one("rules:\n  add:\n    - {when: [L3.three], closes: [vent]" + ev) ==
        "conversions/a.yaml:10:7: L3.three shuts the pad 'vent' against the finger that opens it (LT.vent) (a pad that "
        "another key holds shut must spring open by itself: springs_open: true)");
  CHECK(one("pads: {change: [{id: vent, springs_open: true}]}\nrules:\n  add:\n    - {when: [L3.three], closes: "
            "[vent]" +
            ev) == "read");
  CHECK(one("touches: {remove: [LT.lock]}\ngrips:\n  add:\n    - {hold: [LT.lock, LT.vent]" + ev) ==
        "conversions/a.yaml:11:7: 'a' contradicts itself about the touch LT.lock: taken off against used");
}

TEST_CASE("a touch one conversion takes off and another needs is a contradiction") {
  CHECK(both("touches: {remove: [LT.lock]}\n", "touches: {move: [{id: LT.lock, at: [1, 1]}]}\n") ==
        "conversions/b.yaml:8:18: 'a' and 'b' contradict each other about the touch LT.lock: taken off against used "
        "(they cannot be fitted together)");
  CHECK(both("touches: {remove: [LT.lock]}\n", "slides: {change: [{between: [LT.vent, LT.lock], roller: true}]}\n") !=
        "read");
}

TEST_CASE("conversions that set the same part differently contradict each other") {
  CHECK(both("touches: {move: [{id: LT.lock, at: [1, 1]}]}\n", "touches: {move: [{id: LT.lock, at: [1, 2]}]}\n") !=
        "read");
  CHECK(both("pads: {change: [{id: vent, springs_open: true}]}\n",
             "pads: {change: [{id: vent, springs_open: false}]}\n") ==
        "conversions/b.yaml:8:17: 'a' and 'b' contradict each other about the pad vent, 'springs_open': true against "
        "false (they cannot be fitted together)");
  CHECK(both("rules:\n  add:\n    - {when: [L1.one, L2.two], opens: [vent]" + ev,
             "rules:\n  add:\n    - {when: [L2.two, L1.one], closes: [three]" + ev) == "read");
  CHECK(both("slides: {change: [{between: [LT.vent, LT.lock], roller: true}]}\n",
             "slides: {remove: [{between: [LT.vent, LT.lock]}]}\n") ==
        "conversions/b.yaml:8:19: 'a' and 'b' contradict each other about sliding between LT.vent, LT.lock: with a "
        "roller against not possible (they cannot be fitted together)");
}

TEST_CASE("two conversions may say the same") {
  const std::string roller = "slides: {change: [{between: [LT.vent, LT.lock], roller: true}]}\n";
  CHECK(both(roller, roller) == "read");
  CHECK(both("touches: {remove: [LT.lock]}\n", "touches: {remove: [LT.lock]}\n") == "read");
}

TEST_CASE("two conversions that add the same part contradict each other") {
  const std::string pad = "pads:\n  add:\n    - {id: extra, after: two, kind: vent, rest: closed" + ev +
                          "rules:\n  add:\n    - {when: [LT.vent, L1.one], opens: [extra]" + ev;
  CHECK(both(pad, pad) ==
        "conversions/b.yaml:10:7: 'a' and 'b' contradict each other about the pad extra: added by a against added by b "
        "(they cannot be fitted together)");
}

TEST_CASE("conversions of different parts give the same mechanism in either order") {
  const auto pad = [](const std::string& id, const std::string& touch) {
    return "pads:\n  add:\n    - {id: " + id + ", after: two, kind: vent, rest: closed" + ev +
           "touches:\n  add:\n    - {id: " + touch + ", at: [5, 5]" + ev + "rules:\n  add:\n    - {when: [" + touch +
           "], opens: [" + id + "]" + ev;
  };
  const PipeFolder folder;
  folder.short_conversion("a", pad("upper", "R1.upper"));
  folder.short_conversion("b", pad("lower", "R2.lower"));
  const auto described = [&](const std::string& stacked) {
    const Instrument pipe = folder.read(stacked);
    std::vector<std::string> bore;
    for (PadId id : pipe.bore) bore.push_back(pipe.pads[id.index].id);
    std::vector<std::string> linkages;
    for (const Rule& rule : pipe.rules) {
      for (TouchId touch : rule.when) {
        for (PadId id : rule.opens | rule.closes) {
          linkages.push_back(full_name(pipe.touches[touch.index]) + " " + pipe.pads[id.index].id);
        }
      }
    }
    std::sort(linkages.begin(), linkages.end());
    return std::pair(bore, linkages);
  };
  CHECK(described("pipe+a+b") == described("pipe+b+a"));
  CHECK(described("pipe+a+b").first ==
        std::vector<std::string>{"vent", "one", "two", "lower", "upper", "three", "foot"});
}
