// Candidates, families, held-through fingerings and differences: by hand on the toy instrument, and against trying
// every hold of every finger on instruments drawn at random.
#include <catch2/catch.hpp>

#include "mechanism/brute_force.hpp"
#include "support/toy_world.hpp"

using namespace fingerway;

namespace {

std::set<Fingering> fingerings_of(std::span<const Candidate> candidates) {
  std::set<Fingering> all;
  for (const Candidate& c : candidates) all.insert(c.fingering);
  return all;
}

/// Lean: a line of the table, or nothing held without need.
std::set<Fingering> lean_by_force(const BruteForce& force, WrittenPitch pitch) {
  std::set<Fingering> lean;
  for (const auto& [fingering, spare] : force.sounding(pitch)) {
    if (spare.empty() || force.in_table(pitch, fingering)) lean.insert(fingering);
  }
  return lean;
}

int fingers_of(const Instrument& instrument, TouchSet touches) {
  int fingers = 0;
  for (Finger finger : all_fingers) fingers += int(!held_by(instrument, touches, finger).empty());
  return fingers;
}

std::vector<Instrument> instruments_to_try() {
  std::vector<Instrument> all = {toy_instrument()};
  InstrumentDrawer drawer(7);
  for (int i = 0; i < 60; ++i) all.push_back(drawer.instrument());
  return all;
}

/// Fingerings `here` has and `there` has not, without those that add touches to another of them, table lines kept.
std::set<Fingering> news_by_force(const BruteForce& here, const BruteForce& there, WrittenPitch pitch) {
  const auto known = there.sounding(pitch);
  std::set<Fingering> fresh;
  for (const auto& [fingering, spare] : here.sounding(pitch)) {
    if (!known.contains(fingering)) fresh.insert(fingering);
  }
  std::set<Fingering> news;
  for (const Fingering& f : fresh) {
    const bool adds_only = std::any_of(fresh.begin(), fresh.end(), [&](const Fingering& g) {
      return g.flicked == f.flicked && g.pressed != f.pressed && f.pressed.contains_all(g.pressed) &&
             (f.half & g.pressed) == g.half;
    });
    if (!adds_only || here.in_table(pitch, f)) news.insert(f);
  }
  return news;
}

std::set<Fingering> of_pitch(const std::vector<SoundedFingering>& list, WrittenPitch pitch) {
  std::set<Fingering> all;
  for (const SoundedFingering& f : list) {
    if (f.pitch == pitch) all.insert(f.candidate.fingering);
  }
  return all;
}

}  // namespace

TEST_CASE("the toy's candidates are the table lines and what may lie below the first open hole") {
  const Instrument toy = toy_instrument();
  const Derivation derivation = derive(toy);
  const auto of = [&](int key) { return derivation.of(WrittenPitch(key)); };
  // C4: nothing down. Anything below the open first hole is held without need, so it is no lean candidate.
  REQUIRE(of(60).size() == 1);
  CHECK(of(60)[0].fingering == Fingering{});
  CHECK(of(60)[0].origin == Origin::table);
  REQUIRE(of(59).size() == 1);
  CHECK(of(59)[0].fingering.pressed == TouchSet{toy_one});
  REQUIRE(of(58).size() == 1);
  CHECK(of(58)[0].fingering.pressed == TouchSet{toy_one, toy_two});
  REQUIRE(of(57).size() == 1);
  CHECK(of(57)[0].fingering.pressed == TouchSet{toy_one, toy_two, toy_three});
  CHECK(of(61).empty());
}

TEST_CASE("a candidate knows its table line, its holds and what it could let go") {
  const Instrument toy = toy_instrument();
  const Derivation derivation = derive(toy);
  const auto c =
      as_candidate(toy, derivation, WrittenPitch(59), {.pressed = {toy_one, toy_three}, .half = {}, .flicked = {}});
  REQUIRE(c);
  CHECK(c->line == 1);
  CHECK(c->origin == Origin::derived);
  CHECK(c->spare == TouchSet{toy_three});
  CHECK(derivation.holds[index(Finger::L1)][c->hold[index(Finger::L1)]].touches == TouchSet{toy_one});
  CHECK(derivation.holds[index(Finger::L2)][c->hold[index(Finger::L2)]].touches == TouchSet{toy_three});
}

TEST_CASE("a fingering is no candidate when it sounds another note, or no hand can hold it") {
  Instrument toy = toy_instrument();
  const Derivation derivation = derive(toy);
  CHECK_FALSE(as_candidate(toy, derivation, WrittenPitch(60), {.pressed = {toy_one}, .half = {}, .flicked = {}}));
  CHECK_FALSE(
      as_candidate(toy, derivation, WrittenPitch(59), {.pressed = {toy_one}, .half = {toy_one}, .flicked = {}}));
  CHECK_FALSE(
      as_candidate(toy, derivation, WrittenPitch(59), {.pressed = {toy_one, TouchId(9)}, .half = {}, .flicked = {}}));
  toy.grips.clear();
  const Derivation without_grip = derive(toy);
  CHECK_FALSE(
      as_candidate(toy, without_grip, WrittenPitch(58), {.pressed = {toy_one, toy_two}, .half = {}, .flicked = {}}));
  CHECK(without_grip.of(WrittenPitch(58)).empty());
}

TEST_CASE("held through on the toy: only the holds asked for, on so many fingers") {
  const Instrument toy = toy_instrument();
  const Derivation derivation = derive(toy);
  HandMask everything{};
  for (std::size_t f = 0; f < finger_count; ++f) everything[f] = (HoldMask{1} << derivation.holds[f].size()) - 1;
  const auto pressed = [&](const HandMask& wanted, int most) {
    std::set<TouchSet> sets;
    for (const Candidate& c : held_through(toy, derivation, WrittenPitch(60), wanted, most)) {
      sets.insert(c.fingering.pressed);
    }
    return sets;
  };
  CHECK(pressed(everything, 0).empty());
  CHECK(pressed(everything, 1) == std::set<TouchSet>{{toy_two}, {toy_three}});
  CHECK(pressed(everything, 2) == std::set<TouchSet>{{toy_two}, {toy_three}, {toy_two, toy_three}});
  HandMask no_third = everything;
  no_third[index(Finger::L2)] = 1;
  CHECK(pressed(no_third, 2) == std::set<TouchSet>{{toy_two}});
}

TEST_CASE("what may stay down on the toy is all that lies below the first open hole") {
  const Instrument toy = toy_instrument();
  const Derivation derivation = derive(toy);
  CHECK(may_stay_down(toy, derivation, WrittenPitch(60), derivation.of(WrittenPitch(60))[0]) ==
        TouchSet{toy_two, toy_three});
  CHECK(may_stay_down(toy, derivation, WrittenPitch(59), derivation.of(WrittenPitch(59))[0]) == TouchSet{toy_three});
  CHECK(may_stay_down(toy, derivation, WrittenPitch(58), derivation.of(WrittenPitch(58))[0]).empty());
}

TEST_CASE("a flick needs a finger that has nothing else to do") {
  Instrument toy = toy_instrument();
  toy.pads[2].kind = PadKind::vent;
  toy.pads[2].rest = PadRest::closed;
  toy.table_rest_closed = {PadId(2)};
  toy.rules[2].closes = {};
  toy.rules[2].opens = {PadId(2)};
  toy.table_rules = toy.rules;
  toy.registers[0].open_holes_that_matter = 0;
  toy.table.resize(1);
  toy.table[0].fingering = {.pressed = {toy_one}, .half = {}, .flicked = {toy_three}};
  const WrittenPitch pitch = toy.table[0].pitch;
  REQUIRE(derive(toy).of(pitch).size() == 1);
  CHECK(derive(toy).of(pitch)[0].fingering == toy.table[0].fingering);
  // The same key under the finger that holds key one: it cannot flick.
  toy.touches[2].finger = Finger::L1;
  CHECK(derive(toy).of(pitch).empty());
}

TEST_CASE("a touch that two keys share is found under both without being listed") {
  Instrument toy = toy_instrument();
  Touch twin = toy.touches[0];
  twin.finger = Finger::R1;
  toy.touches.push_back(twin);
  Rule rule = toy.rules[0];
  rule.when = {TouchId(3)};
  toy.rules.push_back(rule);
  const Derivation derivation = derive(toy);
  CHECK(fingerings_of(derivation.of(WrittenPitch(59))) ==
        std::set<Fingering>{{.pressed = {toy_one}, .half = {}, .flicked = {}},
                            {.pressed = {TouchId(3)}, .half = {}, .flicked = {}}});
  CHECK(derivation.of(WrittenPitch(59))[0].origin == Origin::table);
  CHECK(derivation.of(WrittenPitch(59))[1].origin == Origin::derived);
}

TEST_CASE("the families of a target are all hands that meet it, each hand once") {
  std::size_t members = 0;
  for (const Instrument& instrument : instruments_to_try()) {
    const Derivation derivation = derive(instrument);
    const BruteForce force(instrument);
    std::map<std::size_t, std::set<OneHand>> expected;
    const Works works = works_of(instrument);
    force.each_hand([&](const OneHand& hand) {
      const Fingering f = force.fingering_of(hand);
      for (std::size_t t = 0; t < force.all_targets().size(); ++t) {
        if (force.all_targets()[t].demand.met_by(press(works, f.pressed, f.half))) expected[t].insert(hand);
      }
    });
    std::map<std::size_t, std::set<OneHand>> found;
    force.each_hand([&](const OneHand& hand) {
      for (const auto& [pitch, families] : derivation.families) {
        for (const Family& family : families) {
          bool member = true;
          for (std::size_t f = 0; f < finger_count; ++f) member = member && (family.holds[f] >> hand[f] & 1U) != 0;
          if (!member) continue;
          CHECK(instrument.table[family.target].pitch == pitch);
          CHECK(found[family.target].insert(hand).second);
          ++members;
        }
      }
    });
    CHECK(found == expected);
  }
  CHECK(members > 1000);
}

TEST_CASE("the lean candidates are those that trying everything finds") {
  std::size_t derived = 0;
  for (const Instrument& instrument : instruments_to_try()) {
    const Derivation derivation = derive(instrument);
    const BruteForce force(instrument);
    for (WrittenPitch pitch : force.pitches()) {
      CHECK(fingerings_of(derivation.of(pitch)) == lean_by_force(force, pitch));
      for (const Candidate& c : derivation.of(pitch)) {
        CHECK(c.spare == force.spare(*force.line_of(pitch, c.fingering), c.fingering));
        CHECK(c.line == force.line_of(pitch, c.fingering)->line);
        if (c.origin == Origin::derived) ++derived;
      }
    }
  }
  CHECK(derived > 100);
}

TEST_CASE("the table lines come first among the candidates, in table order") {
  for (const Instrument& instrument : instruments_to_try()) {
    const Derivation derivation = derive(instrument);
    for (const auto& [pitch, candidates] : derivation.by_pitch) {
      bool derived_seen = false;
      std::size_t last_line = 0;
      for (const Candidate& c : candidates) {
        if (c.origin == Origin::derived) {
          derived_seen = true;
          continue;
        }
        CHECK_FALSE(derived_seen);
        CHECK(c.line >= last_line);
        last_line = c.line;
      }
    }
  }
}

TEST_CASE("held-through fingerings are those that trying everything finds") {
  InstrumentDrawer drawer(11);
  std::size_t found = 0;
  for (int n = 0; n < 40; ++n) {
    const Instrument instrument = drawer.instrument();
    const Derivation derivation = derive(instrument);
    const BruteForce force(instrument);
    const HandMask wanted = drawer.some_holds(derivation);
    for (WrittenPitch pitch : force.pitches()) {
      for (int most = 0; most <= 2; ++most) {
        std::set<Fingering> expected;
        const auto lean = fingerings_of(derivation.of(pitch));
        force.each_hand([&](const OneHand& hand) {
          for (std::size_t f = 0; f < finger_count; ++f) {
            if ((wanted[f] >> hand[f] & 1U) == 0) return;
          }
          for (const Fingering& fingering : force.with_flicks(hand)) {
            const Target* target = force.line_of(pitch, fingering);
            if (target == nullptr || lean.contains(fingering)) continue;
            if (fingers_of(instrument, force.spare(*target, fingering)) <= most) expected.insert(fingering);
          }
        });
        const auto held = held_through(instrument, derivation, pitch, wanted, most);
        CHECK(fingerings_of(held) == expected);
        CHECK(held.size() == expected.size());
        found += held.size();
      }
    }
  }
  CHECK(found > 200);
}

TEST_CASE("a conversion that changes nothing gains and loses nothing") {
  for (const Instrument& instrument : instruments_to_try()) {
    const Derivation derivation = derive(instrument);
    const Difference same = difference(instrument, derivation, instrument, derivation);
    CHECK(same.gained.empty());
    CHECK(same.lost.empty());
  }
}

TEST_CASE("gained and lost on the toy: a linkage from key three to the first hole") {
  const Instrument stock = toy_instrument();
  Instrument converted = stock;
  Rule link = stock.rules[0];
  link.when = {toy_three};
  link.from = "link";
  converted.rules.push_back(link);
  const Difference d = difference(stock, derive(stock), converted, derive(converted));
  // Key three alone now sounds B3 (and C4 no more); with key two down as well it sounds Bb3.
  const auto pressed_of = [](const std::vector<SoundedFingering>& list, int key) {
    std::set<TouchSet> sets;
    for (const SoundedFingering& f : list) {
      if (f.pitch == WrittenPitch(key)) sets.insert(f.candidate.fingering.pressed);
    }
    return sets;
  };
  CHECK(pressed_of(d.gained, 59) == std::set<TouchSet>{{toy_three}});
  CHECK(pressed_of(d.lost, 60) == std::set<TouchSet>{{toy_three}});
  CHECK(pressed_of(d.gained, 57) == std::set<TouchSet>{{toy_two, toy_three}});
  CHECK(pressed_of(d.lost, 59).empty());
  CHECK(pressed_of(d.gained, 60).empty());
}

TEST_CASE("gained and lost are those that trying everything finds") {
  InstrumentDrawer drawer(13);
  std::size_t gained = 0;
  std::size_t lost = 0;
  for (int n = 0; n < 40; ++n) {
    const Instrument stock = drawer.instrument();
    const Instrument converted = drawer.converted(stock);
    const BruteForce without(stock);
    const BruteForce with(converted);
    const Difference d = difference(stock, derive(stock), converted, derive(converted));
    for (WrittenPitch pitch : without.pitches()) {
      CHECK(of_pitch(d.gained, pitch) == news_by_force(with, without, pitch));
      CHECK(of_pitch(d.lost, pitch) == news_by_force(without, with, pitch));
    }
    gained += d.gained.size();
    lost += d.lost.size();
  }
  CHECK(gained > 100);
  CHECK(lost > 100);
}

TEST_CASE("the notes a pad state sounds are those whose target it meets, each once") {
  const Instrument toy = toy_instrument();
  const std::vector<Target> all = targets(toy);
  CHECK(sounded_by(toy, all, {}) == std::vector<WrittenPitch>{WrittenPitch(60)});
  CHECK(sounded_by(toy, all, {.closed = {PadId(0)}, .half = {}}) == std::vector<WrittenPitch>{WrittenPitch(59)});
  CHECK(sounded_by(toy, all, {.closed = {}, .half = {PadId(0)}}).empty());
}
