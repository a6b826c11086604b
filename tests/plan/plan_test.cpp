// The plan of a passage: what is best, what it weighs, and what must not change it. On the toy instrument and on short
// bassoon passages made in code.
#include <catch2/catch.hpp>

#include <set>

#include "fingerway/plan/explain.hpp"
#include "fingerway/plan/plan.hpp"
#include "plan/every_way.hpp"
#include "support/passages.hpp"
#include "support/toy_world.hpp"

using namespace fingerway;

namespace {

/// The toy with a second key for its first hole, under another finger, and a spare key two under L2: choices to make,
/// and places for idle fingers to be.
const Played& wide_toy() {
  static const Played played = [] {
    Instrument toy = toy_instrument();
    const auto add = [&](Finger finger, const char* name, double along, PadId shuts) {
      Touch touch = toy.touches[0];
      touch.finger = finger;
      touch.name = name;
      touch.spot.along = Mm(along);
      toy.touches.push_back(touch);
      Rule rule = toy.rules[0];
      rule.when = {TouchId(toy.touches.size() - 1)};
      rule.closes = {shuts};
      toy.rules.push_back(rule);
    };
    add(Finger::R1, "one", 5.0, PadId(0));
    add(Finger::L2, "two", 45.0, PadId(1));
    add(Finger::R1, "three", 60.0, PadId(2));
    return fingerway::played(toy, own_numbers(), Level::amateur);
  }();
  return played;
}

const std::vector<std::vector<std::string>>& toy_passages() {
  static const std::vector<std::vector<std::string>> all = {
      {"C4", "B3", "C4"}, {"B3", "Bb3", "A3"}, {"A3", "C4", "Bb3"}, {"C4", "C4", "A3", "B3"}, {"B3", "A3", "B3", "A3"}};
  return all;
}

const std::vector<std::vector<std::string>>& bassoon_passages() {
  static const std::vector<std::vector<std::string>> all = {
      {"B1", "C#2", "D#2", "E2"},  {"F2", "C2", "F2", "Eb2"},   {"Eb2", "Db2", "C2"},
      {"F2", "F#2", "G#2", "Bb2"}, {"Bb2", "F#2", "A2"},        {"E2", "F2", "F#2", "G#2"},
      {"C3", "C#3", "B2"},         {"Bb2", "G#2", "E2", "Db2"}, {"D2", "B2", "G2", "C2"},
  };
  return all;
}

std::set<std::vector<Fingering>> fingerings_of(const std::vector<Plan>& plans) {
  std::set<std::vector<Fingering>> all;
  for (const Plan& plan : plans) {
    std::vector<Fingering> fingerings;
    for (const PlannedNote& note : plan.notes) fingerings.push_back(note.candidate->fingering);
    all.insert(fingerings);
  }
  return all;
}

Plan best(const Played& played, const Passage& passage, const Choices& choices = {}) {
  PlanRequest request;
  request.choices = choices;
  return plan_passage(played, passage, request).front();
}

Plan smoothest(const Played& played, const Passage& passage) {
  PlanRequest request;
  request.objective = Objective::smoothest;
  return plan_passage(played, passage, request).front();
}

Passage moved_by(Passage passage, ScoreTime rest) {
  for (NoteEvent& note : passage.notes) note.onset += rest;
  passage.measures[0].length += rest;
  return passage;
}

std::string words_of(const std::vector<std::string>& notes) {
  std::string text;
  for (const std::string& note : notes) text += note + " ";
  return text;
}

}  // namespace

TEST_CASE("a plan weighs what its notes and changes weigh, each by itself") {
  for (const auto& notes : bassoon_passages()) {
    INFO(words_of(notes));
    const Plan plan = best(own_played("bassoon"), passage_of(notes));
    CHECK(plan.summary.weight == weight_by_parts(plan));
    CHECK(plan.summary.weight > 0);
  }
}

TEST_CASE("the best toy plan is the best of all sequences, tried one by one") {
  for (const auto& notes : toy_passages()) {
    for (Attack attack : {Attack::slurred, Attack::tongued}) {
      INFO(words_of(notes));
      const Passage passage = passage_of(notes, {.attack = attack});
      CHECK(best(wide_toy(), passage).summary.weight == least_of_every_sequence(wide_toy(), passage, 3'000'000));
    }
  }
}

TEST_CASE("the best bassoon plan is the best of all sequences, tried one by one") {
  for (const std::vector<std::string>& notes :
       std::vector<std::vector<std::string>>{{"Eb2", "Db2"}, {"F#2", "Bb2"}, {"B1", "Eb2"}, {"C3", "C#3"}}) {
    INFO(words_of(notes));
    const Passage passage = passage_of(notes);
    const Played& bassoon = own_played("bassoon");
    CHECK(best(bassoon, passage).summary.weight == least_of_every_sequence(bassoon, passage, 5'000'000));
  }
}

TEST_CASE("looking at useful idle places only gives no plan that all places could not give") {
  // What it costs to look at no more: an idle finger may have to leave a place that no other fingering nearby would
  // have asked it to leave. On these passages that is at most a sixth of the weight.
  for (const char* instrument : {"bassoon", "bassoon+interlinked-low-keys"}) {
    const Played& played = own_played(instrument);
    for (const auto& notes : bassoon_passages()) {
      for (Qpm tempo : {Qpm(60), Qpm(144)}) {
        INFO(instrument << ": " << words_of(notes));
        const Passage passage = passage_of(notes, {.tempo = tempo});
        const PassageGraph graph = passage_graph(played, passage, {});
        EveryWay every(played, passage, graph);
        const auto planned = static_cast<double>(best(played, passage).summary.weight);
        const auto least = static_cast<double>(every.least_over_all_places());
        CHECK(planned >= least);
        CHECK(planned <= 1.16 * least);
      }
    }
  }
}

TEST_CASE("where every finger has one touch or is used on every note, no place is left out") {
  for (const std::vector<std::string>& notes : std::vector<std::vector<std::string>>{
           {"Bb3", "A3", "B3", "A3"}, {"B3", "Bb3", "A3", "Bb3"}, {"C4", "B3", "A3"}, {"A3", "C4", "Bb3", "C4"}}) {
    INFO(words_of(notes));
    const Played toy = fingerway::played(toy_instrument(), own_numbers(), Level::amateur);
    const Passage passage = passage_of(notes);
    const PassageGraph graph = passage_graph(toy, passage, {});
    EveryWay every(toy, passage, graph);
    CHECK(best(toy, passage).summary.weight == every.least_over_all_places());
  }
}

TEST_CASE("the first of several alternatives is the best plan; they differ and grow heavier") {
  for (const auto& notes : bassoon_passages()) {
    INFO(words_of(notes));
    const Passage passage = passage_of(notes);
    const Plan one = best(own_played("bassoon"), passage);
    PlanRequest request;
    request.alternatives = 6;
    const auto many = plan_passage(own_played("bassoon"), passage, request);
    CHECK(many.size() > 1);
    CHECK(many.size() <= 6);
    CHECK(many[0].summary.weight == one.summary.weight);
    CHECK(fingerings_of({many[0]}) == fingerings_of({one}));
    CHECK(fingerings_of(many).size() == many.size());
    for (std::size_t i = 1; i < many.size(); ++i) CHECK(many[i - 1].summary.weight <= many[i].summary.weight);
  }
}

TEST_CASE("planning again gives the same plan to the last micro-point") {
  const Passage passage = passage_of({"F2", "C2", "Db2", "Eb2", "E2", "F2"});
  const Plan first = best(own_played("bassoon"), passage);
  for (int i = 0; i < 3; ++i) {
    const Plan again =
        best(fingerway::played(own_played("bassoon").instrument, own_numbers(), Level::amateur), passage);
    CHECK(again.summary.weight == first.summary.weight);
    CHECK(fingerings_of({again}) == fingerings_of({first}));
    for (std::size_t n = 0; n < first.notes.size(); ++n) CHECK(again.notes[n].posture == first.notes[n].posture);
  }
}

TEST_CASE("a pin never makes a passage lighter, and pinning the best fingering changes nothing") {
  const Played& played = own_played("bassoon");
  for (const auto& notes : bassoon_passages()) {
    const Passage passage = passage_of(notes);
    const Plan free = best(played, passage);
    for (std::size_t n = 0; n < notes.size(); ++n) {
      Choices own;
      own.pins = {{.note = n, .fingering = free.notes[n].candidate->fingering, .whole = true}};
      CHECK(best(played, passage, own).summary.weight == free.summary.weight);
      for (const Candidate& c : played.derivation.of(passage.notes[n].pitch)) {
        INFO(words_of(notes) << "pinned at " << n << ": " << names_of(played.instrument, c.fingering.pressed));
        Choices choices;
        choices.pins = {{.note = n, .fingering = c.fingering, .whole = true}};
        const Plan pinned = best(played, passage, choices);
        CHECK(pinned.notes[n].candidate->fingering == c.fingering);
        CHECK(pinned.summary.weight >= free.summary.weight);
      }
    }
  }
}

TEST_CASE("asking for a touch only presses it and whatever else is best") {
  const Played& played = own_played("bassoon");
  const Passage passage = passage_of({"Bb2", "F#2", "Bb2"});
  Choices choices;
  choices.pins = {{.note = 1,
                   .fingering = {.pressed = touches_named(played.instrument, {"RT.fsharp"}), .half = {}, .flicked = {}},
                   .whole = false}};
  const Plan plan = best(played, passage, choices);
  CHECK(plan.notes[1].candidate->fingering.pressed.contains(touch_named(played.instrument, "RT.fsharp")));
  CHECK(plan.summary.weight >= best(played, passage).summary.weight);
}

TEST_CASE("a pinned fingering that holds what nothing needs is played as asked") {
  const Played& played = own_played("bassoon");
  const Passage passage = passage_of({"A2", "B2", "A2"});
  Fingering odd = played.derivation.of(pitch_named("B2")).front().fingering;
  odd.pressed |= touches_named(played.instrument, {"R4.f", "L4.low-eflat"});
  Choices choices;
  choices.pins = {{.note = 1, .fingering = odd, .whole = true}};
  const Plan plan = best(played, passage, choices);
  REQUIRE(plan.notes[1].candidate);
  CHECK(plan.notes[1].candidate->fingering == odd);
  CHECK(plan.summary.weight >= best(played, passage).summary.weight);
}

TEST_CASE("a ban keeps its touches from being pressed together, on its notes only") {
  const Played& played = own_played("bassoon");
  const Passage passage = passage_of({"G2", "F#2", "G2", "F#2"});
  const TouchSet thumb = touches_named(played.instrument, {"RT.fsharp"});
  const Plan free = best(played, passage);
  REQUIRE(free.notes[1].candidate->fingering.pressed.contains_all(thumb));
  Choices choices;
  choices.bans = {{.first = 1, .last = 2, .touches = thumb}};
  const Plan banned = best(played, passage, choices);
  CHECK_FALSE(banned.notes[1].candidate->fingering.pressed.intersects(thumb));
  CHECK(banned.notes[3].candidate->fingering.pressed.contains_all(thumb));
  CHECK(banned.summary.weight >= free.summary.weight);
}

TEST_CASE("a hold keeps its touches down on every note of its stretch") {
  const Played& played = own_played("bassoon+interlinked-low-keys");
  const Passage passage = passage_of({"C2", "Eb2", "C2", "Eb2"});
  const TouchSet little = touches_named(played.instrument, {"L4.low-eflat"});
  Choices choices;
  choices.holds = {{.first = 0, .last = 3, .touches = little}};
  for (const PlannedNote& note : best(played, passage, choices).notes) {
    REQUIRE(note.candidate);
    CHECK(note.candidate->fingering.pressed.contains_all(little));
  }
}

TEST_CASE("choices that leave nothing leave a note without a fingering, and the plan says so") {
  const Played& played = own_played("bassoon");
  Choices choices;
  choices.bans = {{.first = 1, .last = 1, .touches = touches_named(played.instrument, {"L1.hole"})}};
  const Plan plan = best(played, passage_of({"C2", "D2", "C2"}), choices);
  CHECK_FALSE(plan.notes[1].candidate);
  CHECK_FALSE(plan.summary.complete);
}

TEST_CASE("a passage that starts after a rest costs the same") {
  for (const auto& notes : bassoon_passages()) {
    const Passage passage = passage_of(notes);
    const Plan here = best(own_played("bassoon"), passage);
    const Plan later = best(own_played("bassoon"), moved_by(passage, ScoreTime(3)));
    CHECK(here.summary.weight == later.summary.weight);
    CHECK(fingerings_of({here}) == fingerings_of({later}));
  }
}

TEST_CASE("a conversion that changes nothing changes no plan") {
  Instrument same = own_played("bassoon").instrument;
  ConversionSheet sheet;
  sheet.id = "nothing";
  same.conversions.push_back(sheet);
  const Played played = fingerway::played(same, own_numbers(), Level::amateur);
  for (const auto& notes : bassoon_passages()) {
    const Passage passage = passage_of(notes);
    CHECK(best(played, passage).summary.weight == best(own_played("bassoon"), passage).summary.weight);
  }
}

TEST_CASE("touches and pads that no fingering uses change no plan") {
  Instrument more = own_played("bassoon").instrument;
  for (const char* beside : {"L4.low-eflat", "RT.low-e", "R4.f"}) {
    const Touch copied = more.touches[touch_named(more, beside).index];
    Touch touch = copied;
    touch.name = "extra";
    touch.spot.across = touch.spot.across + Mm(9.0);
    touch.from = "extra";
    more.touches.push_back(touch);
    Pad pad;
    pad.id = "extra-" + std::to_string(more.pads.size());
    pad.kind = PadKind::vent;
    pad.rest = PadRest::closed;
    more.pads.push_back(pad);
    more.bore.push_back(PadId(more.pads.size() - 1));
    Rule rule;
    rule.when = {TouchId(more.touches.size() - 1)};
    rule.opens = {PadId(more.pads.size() - 1)};
    rule.from = "extra";
    more.rules.push_back(rule);
  }
  const Played played = fingerway::played(more, own_numbers(), Level::amateur);
  for (const auto& notes : bassoon_passages()) {
    INFO(words_of(notes));
    const Passage passage = passage_of(notes);
    const Plan with = best(played, passage);
    const Plan without = best(own_played("bassoon"), passage);
    CHECK(with.summary.weight == without.summary.weight);
    CHECK(fingerings_of({with}) == fingerings_of({without}));
  }
}

TEST_CASE("a note without a fingering splits the passage in two that cost what they cost alone") {
  const Played& played = own_played("bassoon");
  const Plan whole = best(played, passage_of({"C2", "Eb2", "C6", "F2", "G#2"}));
  CHECK_FALSE(whole.summary.complete);
  CHECK_FALSE(whole.notes[2].candidate);
  CHECK_FALSE(whole.notes[2].arrive);
  CHECK_FALSE(whole.notes[3].arrive);
  CHECK(whole.notes[4].arrive);
  const Weight apart =
      best(played, passage_of({"C2", "Eb2"})).summary.weight + best(played, passage_of({"F2", "G#2"})).summary.weight;
  CHECK(whole.summary.weight == apart);
}

TEST_CASE("the smoothest plan has no worse a worst moment than the best plan") {
  bool smoother_somewhere = false;
  for (const char* instrument : {"bassoon", "bassoon+interlinked-low-keys"}) {
    for (const auto& notes : bassoon_passages()) {
      INFO(words_of(notes));
      const Passage passage = passage_of(notes, {.tempo = Qpm(120)});
      const Plan least = best(own_played(instrument), passage);
      const Plan smooth = smoothest(own_played(instrument), passage);
      CHECK(smooth.summary.worst_load <= least.summary.worst_load + 1e-6);
      CHECK(smooth.summary.weight >= least.summary.weight);
      smoother_somewhere |= smooth.summary.worst_load < least.summary.worst_load - 0.01;
    }
  }
  CHECK(smoother_somewhere);
}

TEST_CASE("just below its ceiling a passage can be played, just above it can't") {
  for (const char* instrument : {"bassoon", "bassoon+interlinked-low-keys"}) {
    for (const auto& notes : bassoon_passages()) {
      for (Attack attack : {Attack::slurred, Attack::tongued}) {
        INFO(words_of(notes));
        Passage passage = passage_of(notes, {.attack = attack});
        const auto ceiling = best(own_played(instrument), passage).summary.best_ceiling;
        REQUIRE(ceiling);
        const auto smoothest_at = [&](double share) {
          passage.tempo = passage.tempo.starting_at(*ceiling * share);
          return smoothest(own_played(instrument), passage).summary;
        };
        CHECK(smoothest_at(1.0).worst_load == Approx(1.0).margin(1e-5));
        CHECK(smoothest_at(0.999).fits);
        CHECK_FALSE(smoothest_at(1.001).fits);
      }
    }
  }
}

TEST_CASE("a plan's own ceiling is the tempo at which its worst change takes all its time") {
  Passage passage = passage_of({"F2", "C2", "Db2", "Eb2", "E2"});
  const Plan plan = best(own_played("bassoon"), passage);
  REQUIRE(plan.summary.ceiling);
  CHECK(plan.summary.ceiling->value() == Approx(92.0 / plan.summary.worst_load));
  CHECK(plan.summary.ceiling->value() <= plan.summary.best_ceiling->value() + 1e-3);
  REQUIRE(plan.summary.worst_note);
  CHECK(plan.notes[*plan.summary.worst_note].arrive->load() == plan.summary.worst_load);
}

TEST_CASE("with rests between the notes the ceiling holds too") {
  Passage passage =
      passage_of({"Eb2", "Db2", "Eb2", "Db2"}, {.each = ScoreTime(1), .tempo = Qpm(92), .attack = Attack::tongued});
  for (NoteEvent& note : passage.notes) note.length = ScoreTime(3, 4);
  const auto ceiling = best(own_played("bassoon"), passage).summary.best_ceiling;
  REQUIRE(ceiling);
  const auto smoothest_at = [&](double share) {
    passage.tempo = passage.tempo.starting_at(*ceiling * share);
    return smoothest(own_played("bassoon"), passage).summary;
  };
  CHECK(smoothest_at(0.995).fits);
  CHECK_FALSE(smoothest_at(1.005).fits);
}

TEST_CASE("every option of a note costs what a plan pinned to it weighs more than the best") {
  const Played& played = own_played("bassoon");
  const Passage passage = passage_of({"Bb2", "F#2", "Bb2"});
  const Plan free = best(played, passage);
  const Explanation explained = explain_note(played, passage, {}, 1, 5);
  REQUIRE(explained.options.size() == 5);
  CHECK(explained.options[0].dearer == Points(0));
  CHECK(explained.options[0].here.candidate->fingering == free.notes[1].candidate->fingering);
  for (const Option& option : explained.options) {
    Choices choices;
    choices.pins = {{.note = 1, .fingering = option.here.candidate->fingering, .whole = true}};
    const Weight pinned = best(played, passage, choices).summary.weight;
    // A pin may let neighbours hold what the pinned fingering holds, so it can't be dearer than the option.
    CHECK(static_cast<double>(pinned - free.summary.weight) / 1e6 <= option.dearer.value() + 1e-9);
    CHECK(pinned >= free.summary.weight);
  }
}
