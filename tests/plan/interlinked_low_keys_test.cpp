// What the interlinked low keys of the bassoon must bring, all of it computed from the three linkages; and that each of
// the three is needed. Facts of the trade name their source beside the check.
#include <catch2/catch.hpp>

#include <algorithm>

#include "fingerway/plan/plan.hpp"
#include "fingerway/plan/trills.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

const char* const converted = "bassoon+interlinked-low-keys";

Trill trill_between(const Played& played, const char* from, const char* to) {
  return best_trill(played, pitch_named(from), pitch_named(to));
}

/// True when nothing but the left thumb moves, and the pair goes fluently.
bool thumb_only_and_playable(const Played& played, const char* from, const char* to) {
  const Trill trill = trill_between(played, from, to);
  if (!trill.best || trill.verdict > Verdict::workable) return false;
  const TouchSet moving = moving_touches(*trill.best);
  return !moving.empty() && touches_of(played.instrument, Finger::LT).contains_all(moving);
}

/// What a player would count: how often a finger changes what it presses, in a plan.
struct FingerCount {
  int changes = 0;  ///< notes at which the finger presses something else than on the note before
  int downs = 0;    ///< notes at which it comes down
  bool always_down = true;
};

FingerCount count_finger(const Played& played, const Plan& plan, Finger finger) {
  FingerCount count;
  TouchSet before;
  for (std::size_t i = 0; i < plan.notes.size(); ++i) {
    const auto& candidate = plan.notes[i].candidate;
    const TouchSet now = candidate ? held_by(played.instrument, candidate->fingering.pressed, finger) : TouchSet();
    if (now.empty()) count.always_down = false;
    if (i > 0 && now != before) ++count.changes;
    if (i > 0 && before.empty() && !now.empty()) ++count.downs;
    before = now;
  }
  return count;
}

Plan best_plan(const Played& played, const std::vector<std::string>& notes) {
  return plan_passage(played, passage_of(notes), {}).front();
}

const std::vector<std::string> rising = {"B1", "C#2", "D#2", "E2"};
const std::vector<std::string> chord = {"Bb1", "C2", "Db2", "Eb2"};

bool little_finger_rests_through_rising(const Played& played) {
  const FingerCount count = count_finger(played, best_plan(played, rising), Finger::L4);
  return count.always_down && count.changes == 0;
}

/// The finger is up before D-flat, comes down for it, and nowhere else.
bool little_finger_down_once_for_dflat(const Played& played) {
  const Plan plan = best_plan(played, chord);
  const auto little = [&](std::size_t i) {
    const auto& candidate = plan.notes[i].candidate;
    return candidate ? held_by(played.instrument, candidate->fingering.pressed, Finger::L4) : TouchSet();
  };
  return count_finger(played, plan, Finger::L4).downs == 1 && little(0).empty() && little(1).empty() &&
         !little(2).empty();
}

/// Everything the linkages promise, by name, with what this instrument keeps.
std::vector<std::pair<std::string, bool>> promises(const Played& played) {
  return {
      {"trill C#2-Eb2", thumb_only_and_playable(played, "Db2", "Eb2")},
      {"tremolo C2-Eb2", thumb_only_and_playable(played, "C2", "Eb2")},
      {"tremolo B1-Eb2", thumb_only_and_playable(played, "B1", "Eb2")},
      {"tremolo Bb1-Eb2", thumb_only_and_playable(played, "Bb1", "Eb2")},
      {"trill B1-C#2", thumb_only_and_playable(played, "B1", "C#2")},
      {"B1 C#2 D#2 E2 over a resting little finger", little_finger_rests_through_rising(played)},
      {"Bb1 C2 Db2 Eb2 with the little finger down once", little_finger_down_once_for_dflat(played)},
  };
}

std::vector<std::size_t> rules_of_the_conversion(const Instrument& instrument) {
  std::vector<std::size_t> rules;
  for (std::size_t i = 0; i < instrument.rules.size(); ++i) {
    if (instrument.rules[i].from == "interlinked-low-keys") rules.push_back(i);
  }
  return rules;
}

}  // namespace

TEST_CASE("the stock bassoon has no Db2-Eb2 trill") {
  // bandestration.com/2013/10, bassoon technique, calls this trill impossible; common practice.
  for (Level level : {Level::amateur, Level::professional}) {
    INFO(words(level));
    const Trill trill = trill_between(own_played("bassoon", level), "Db2", "Eb2");
    CHECK(trill.verdict == Verdict::out_of_reach);
    REQUIRE(trill.best);
    // The little finger must change touch while the thumb goes the other way: that is why.
    const Instrument& instrument = own_played("bassoon", level).instrument;
    const TouchSet moving = moving_touches(*trill.best);
    INFO(names_of(instrument, moving));
    CHECK(moving.intersects(touches_of(instrument, Finger::L4)));
    CHECK(moving.intersects(touches_of(instrument, Finger::LT)));
  }
}

TEST_CASE("with interlinked low keys the thumb alone trills what the little finger could not") {
  for (Level level : {Level::amateur, Level::professional}) {
    const Played& played = own_played(converted, level);
    for (const auto& [from, to] : {std::pair("Db2", "Eb2"), std::pair("C2", "Eb2"), std::pair("B1", "Eb2"),
                                   std::pair("Bb1", "Eb2"), std::pair("B1", "C#2")}) {
      const Trill trill = trill_between(played, from, to);
      REQUIRE(trill.best);
      INFO(words(level) << ": " << from << " " << to << ", moving "
                        << names_of(played.instrument, moving_touches(*trill.best)));
      CHECK(thumb_only_and_playable(played, from, to));
    }
  }
}

TEST_CASE("with interlinked low keys the trill that was called impossible is fluent") {
  for (Level level : {Level::amateur, Level::professional}) {
    INFO(words(level));
    CHECK(trill_between(own_played(converted, level), "Db2", "Eb2").verdict == Verdict::fluent);
  }
}

TEST_CASE("every interlinked trill or tremolo goes faster than on the stock bassoon") {
  for (Level level : {Level::amateur, Level::professional}) {
    for (const auto& [from, to] : {std::pair("Db2", "Eb2"), std::pair("C2", "Eb2"), std::pair("B1", "Eb2"),
                                   std::pair("Bb1", "Eb2"), std::pair("B1", "C#2")}) {
      INFO(words(level) << ": " << from << " " << to);
      CHECK(trill_between(own_played(converted, level), from, to).best->rate >
            trill_between(own_played("bassoon", level), from, to).best->rate);
      CHECK_FALSE(thumb_only_and_playable(own_played("bassoon", level), from, to));
    }
  }
}

TEST_CASE("B1 C#2 D#2 E2 goes over a resting left little finger only with interlinked low keys") {
  for (Level level : {Level::amateur, Level::professional}) {
    INFO(words(level));
    const Played& played = own_played(converted, level);
    const Plan plan = best_plan(played, rising);
    const FingerCount count = count_finger(played, plan, Finger::L4);
    CHECK(count.always_down);
    CHECK(count.changes == 0);
    // Not one move of it, idle travel included.
    for (const PlannedNote& note : plan.notes) {
      if (!note.arrive) continue;
      const std::vector<FingerMove> moves = moves_into(played, *note.arrive);
      CHECK(std::none_of(moves.begin(), moves.end(), [](const FingerMove& move) { return move.finger == Finger::L4; }));
    }
    CHECK_FALSE(little_finger_rests_through_rising(own_played("bassoon", level)));
  }
}

TEST_CASE("Bb1 C2 Db2 Eb2 with interlinked low keys puts the little finger down once, for Db2") {
  for (Level level : {Level::amateur, Level::professional}) {
    INFO(words(level));
    const Played& played = own_played(converted, level);
    const Plan plan = best_plan(played, chord);
    for (const PlannedNote& note : plan.notes) {
      UNSCOPED_INFO(names_of(played.instrument, note.candidate->fingering.pressed));
    }
    CHECK(count_finger(played, plan, Finger::L4).downs == 1);
    CHECK(little_finger_down_once_for_dflat(played));
    CHECK(plan.summary.fits);
  }
}

TEST_CASE("each linkage of the interlinked low keys is needed for something it promises") {
  const Instrument whole = own_played(converted).instrument;
  const std::vector<std::size_t> rules = rules_of_the_conversion(whole);
  REQUIRE(rules.size() == 3);
  for (const auto& [name, kept] : promises(own_played(converted))) {
    INFO(name);
    CHECK(kept);
  }
  for (std::size_t rule : rules) {
    Instrument less = whole;
    less.rules.erase(less.rules.begin() + static_cast<std::ptrdiff_t>(rule));
    const Played played = fingerway::played(less, own_numbers(), Level::amateur);
    const auto kept = promises(played);
    INFO("without " << names_of(whole, whole.rules[rule].when));
    CHECK(std::any_of(kept.begin(), kept.end(), [](const auto& promise) { return !promise.second; }));
  }
}

TEST_CASE("rollers between the little-finger keys make the trill quicker but do not free the thumb") {
  const Played& rollers = own_played("bassoon+low-key-rollers");
  const Trill with = trill_between(rollers, "Db2", "Eb2");
  REQUIRE(with.best);
  CHECK(with.best->rate > trill_between(own_played("bassoon"), "Db2", "Eb2").best->rate);
  CHECK_FALSE(thumb_only_and_playable(rollers, "Db2", "Eb2"));
}
