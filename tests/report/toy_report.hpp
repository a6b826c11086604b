// What this part answers: the toy instrument in a hand of round numbers, a conversion of it, and a passage for it, so
// that reports do not change when the real instruments or the fitted weights do.
#pragma once

#include <utility>

#include "fingerway/decide/compare.hpp"
#include "fingerway/plan/plan.hpp"
#include "support/toy_world.hpp"

namespace fingerway {

/// Ten cycles a second for every finger, so a press takes 50 ms; no scatter; 100 ms a bit of travel, 50 ms of sliding.
[[nodiscard]] inline MotionNumbers toy_numbers() {
  MotionNumbers n;
  for (const NamedNumber& named : named_numbers(n)) {
    *named.number = {
        .value = 0.0, .prior = 0.0, .low = 0.0, .high = 0.0, .unit = {}, .basis = Basis::assumed, .source = {}};
  }
  for (LevelNumbers& level : n.levels) {
    level.index_rate.value = 10.0;
    for (Number& ratio : level.rate_ratio) ratio.value = 1.0;
  }
  n.travel_per_bit = {100.0, 100.0, 100.0, 100.0, "ms a bit", Basis::published, "made up"};
  n.slide_per_bit = {50.0, 50.0, 50.0, 50.0, "ms a bit", Basis::published, "made up"};
  n.slide_friction = {30.0, 30.0, 30.0, 30.0, "ms", Basis::assumed, "made up"};
  n.sideways_ratio.value = 1.0;
  n.roll_share = {0.5, 0.5, 0.5, 0.5, "ratio", Basis::assumed, "made up"};
  n.roll_per_touch.value = 5.0;
  n.roll_per_touch.unit = "ms";
  n.pad_pressed.value = 10.0;
  n.pad_sprung.value = 16.0;
  n.shortest_sounding.value = 20.0;
  n.contrary_one_hand.value = 1.0;
  n.contrary_two_hands.value = 1.0;
  n.per_finger.value = 10.0;
  n.same_way_share.value = 1.0;
  n.per_difference.value = 5.0;
  n.jump_points.value = 20.0;
  n.slide_points.value = 10.0;
  n.effort_floor.value = 1.0;
  n.overload_points.value = 1000.0;
  n.alternate_points.value = 5.0;
  n.spare_points.value = 1.0;
  n.trill_enough.value = 100.0;
  n.trill_tone.value = 0.02;
  n.fluent_from.value = 8.0;
  n.workable_from.value = 6.0;
  n.laborious_from.value = 4.0;
  n.trill_after_half_minute.value = 0.8;
  return n;
}

/// The toy with a right-hand link that shuts all three holes at once: A3 with one finger.
[[nodiscard]] inline Instrument linked_toy() {
  Instrument toy = toy_instrument();
  ConversionSheet sheet;
  sheet.id = "link";
  sheet.name = "right-hand link";
  sheet.work = {"fit the link"};
  toy.conversions = {sheet};
  Touch link;
  link.finger = Finger::R1;
  link.name = "link";
  link.label = "link key";
  link.spot = {.along = Mm(30.0), .across = Mm(0.0)};
  link.from = "link";
  toy.touches.push_back(link);
  Rule rule;
  rule.when = {TouchId(3)};
  rule.closes = {PadId(0), PadId(1), PadId(2)};
  rule.from = "link";
  toy.rules.push_back(rule);
  return toy;
}

[[nodiscard]] inline Played toy_played(Instrument instrument) {
  return played(std::move(instrument), toy_numbers(), Level::professional);
}

/// C4 B3 Bb3 A3 | Bb3 C4 at the tempo given, in quarters, two bars; `attack` on every note but the first.
[[nodiscard]] inline Passage toy_passage(Qpm tempo, Attack attack) {
  Passage passage;
  passage.file = "toy.musicxml";
  passage.title = "Toy walk";
  passage.part_id = "P1";
  passage.part_name = "Toy";
  passage.voice = "1";
  passage.tempo = TempoMap({{.at = ScoreTime(), .tempo = tempo, .source = TempoSource::metronome_mark}});
  passage.measures = {{.name = "1", .start = ScoreTime(0), .length = ScoreTime(4)},
                      {.name = "2", .start = ScoreTime(4), .length = ScoreTime(4)}};
  const Spelling names[] = {{'C', 0, 4}, {'B', 0, 3}, {'B', -1, 3}, {'A', 0, 3}, {'B', -1, 3}, {'C', 0, 4}};
  for (const Spelling& name : names) {
    const std::size_t i = passage.notes.size();
    NoteEvent note;
    note.spelling = name;
    note.pitch = written(name);
    note.onset = ScoreTime(static_cast<std::int64_t>(i));
    note.length = ScoreTime(1);
    note.attack = i == 0 ? Attack::tongued : attack;
    note.place = {.measure = i < 4 ? 0U : 1U, .element = static_cast<std::uint32_t>(i), .tied = {}};
    passage.notes.push_back(note);
  }
  return passage;
}

/// C4 A3 C4 A3 C4 A3, where the link saves a finger.
[[nodiscard]] inline Passage toy_leaps(Qpm tempo) {
  Passage passage = toy_passage(tempo, Attack::slurred);
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    passage.notes[i].spelling = i % 2 == 0 ? Spelling{'C', 0, 4} : Spelling{'A', 0, 3};
    passage.notes[i].pitch = written(passage.notes[i].spelling);
  }
  return passage;
}

}  // namespace fingerway
