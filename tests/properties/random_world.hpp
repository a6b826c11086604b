// What this part answers: random instruments, hands and passages for properties, drawn and shrunk by rapidcheck.
// RC_PARAMS in the environment sets the seed and the number of tries; without it every run tries the same ones.
#pragma once

#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include <cstdlib>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "fingerway/plan/plan.hpp"
#include "mechanism/brute_force.hpp"
#include "support/passages.hpp"

namespace fingerway {

/// Runs a property as a check of the test that is running.
template <class Property>
void holds_for_all(const char* what, int tries, const Property& property) {
  const std::string usual = "seed=20261125 max_success=" + std::to_string(tries) + " max_discard_ratio=100";
  rc::detail::Configuration configuration = rc::detail::configFromString(usual);
  if (const char* asked = std::getenv("RC_PARAMS")) configuration = rc::detail::configFromString(asked, configuration);
  rc::detail::TestMetadata metadata;
  metadata.description = what;
  const rc::detail::TestResult result = rc::detail::checkTestable(property, metadata, configuration.testParams);
  std::ostringstream text;
  rc::detail::printResultMessage(result, text);
  INFO(text.str());
  CHECK(result.is<rc::detail::SuccessResult>());
}

/// A number of the full range from the first try on, which rapidcheck would otherwise raise slowly.
[[nodiscard]] inline unsigned drawn_seed() { return *rc::gen::resize(100, rc::gen::inRange(1U, 1'000'000U)); }

/// A small instrument that makes little musical sense, with its touches somewhere within reach, and a second one like
/// it from the same numbers.
class DrawnInstrument {
 public:
  explicit DrawnInstrument(unsigned seed) : drawer_(seed), random_(seed ^ 0x5bd1e995U) {
    made_ = placed(drawer_.instrument());
  }

  [[nodiscard]] const Instrument& instrument() const { return made_; }
  [[nodiscard]] std::vector<WrittenPitch> pitches() const {
    std::vector<WrittenPitch> all;
    for (const TableFingering& line : made_.table) all.push_back(line.pitch);
    std::ranges::sort(all);
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
  }
  /// The same with one more touch, at the end of the list, under a finger that has one already; it shuts or opens
  /// something by itself and touches no other linkage.
  [[nodiscard]] Instrument with_another_touch() {
    Instrument more = made_;
    Touch touch = more.touches[random_() % more.touches.size()];
    touch.name = "more";
    touch.can_be_half = false;
    touch.spot.along += Mm(12.0);
    more.touches.push_back(touch);
    Rule rule;
    rule.when = {TouchId(more.touches.size() - 1)};
    const PadId pad(random_() % more.pads.size());
    (more.pads[pad.index].rest == PadRest::closed ? rule.opens : rule.closes).insert(pad);
    more.rules.push_back(rule);
    return more;
  }

 private:
  Instrument placed(Instrument instrument) {
    instrument.name = "drawn instrument";
    instrument.lowest = WrittenPitch(60);
    instrument.highest = WrittenPitch(64);
    for (Touch& touch : instrument.touches) {
      touch.label = touch.name;
      touch.spot = {.along = Mm(static_cast<double>(random_() % 60)),
                    .across = Mm(static_cast<double>(random_() % 20))};
      touch.width = Mm(6.0 + static_cast<double>(random_() % 8));
    }
    std::size_t number = 0;
    for (TableFingering& line : instrument.table) {
      line.spelling = chart_spelling(line.pitch);
      line.mark = "m" + std::to_string(++number);
    }
    return instrument;
  }

  InstrumentDrawer drawer_;
  std::mt19937 random_;
  Instrument made_;
};

/// One of the levels, or measured rates and a span.
[[nodiscard]] inline Player drawn_player() {
  Player player;
  player.level = *rc::gen::element(Level::professional, Level::amateur, Level::beginner);
  if (*rc::gen::inRange(0, 2) == 1) {
    for (auto& rate : player.hand.rates) {
      if (*rc::gen::inRange(0, 3) != 0) rate = NotesPerSecond(*rc::gen::inRange(60, 140) / 10.0);
    }
    player.hand.span = Mm(*rc::gen::inRange(150, 250));
  }
  return player;
}

/// A passage over some pitches: lengths, slurs, rests, dynamics and tempo at random.
[[nodiscard]] inline Passage drawn_passage(const std::vector<WrittenPitch>& pitches, int least, int most) {
  const int count = *rc::gen::inRange(least, most + 1);
  std::vector<std::string> names;
  for (int i = 0; i < count; ++i) names.push_back(name(chart_spelling(*rc::gen::elementOf(pitches))));
  NoteRow row;
  row.tempo = Qpm(*rc::gen::inRange(40, 260));
  Passage passage = passage_of(names, row);
  ScoreTime now;
  for (NoteEvent& note : passage.notes) {
    note.length = ScoreTime(*rc::gen::inRange(1, 9), 8);
    note.onset = now;
    note.attack = *rc::gen::element(Attack::slurred, Attack::slurred, Attack::tongued);
    note.dynamic = *rc::gen::element(Dynamic::unmarked, Dynamic::pp, Dynamic::mf, Dynamic::ff);
    now += note.length;
    if (*rc::gen::inRange(0, 8) == 0) now += ScoreTime(1, 4);  // a rest
  }
  passage.notes.front().attack = Attack::tongued;
  passage.measures[0].length = now;
  return passage;
}

[[nodiscard]] inline Plan best_plan(const Played& played, const Passage& passage, const Choices& choices = {}) {
  PlanRequest request;
  request.choices = choices;
  return plan_passage(played, passage, request).front();
}

/// "C4 B3 ... on touches": for messages of failing properties.
[[nodiscard]] inline std::string shown(const Instrument& instrument, const Passage& passage, const Plan& plan) {
  std::string text;
  for (std::size_t i = 0; i < plan.notes.size(); ++i) {
    text += name(passage.notes[i].spelling) + " [";
    if (plan.notes[i].candidate) text += names_of(instrument, plan.notes[i].candidate->fingering.pressed);
    text += "] ";
  }
  return text + "weight " + std::to_string(plan.summary.weight);
}

}  // namespace fingerway
