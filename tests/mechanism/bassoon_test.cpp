// What the bassoon's table and mechanism say together: every line is playable, every note has a way, and the tone holes
// behave as on any woodwind. What a conversion gains and loses is derived, never written down.
#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

#include "fingerway/mechanism/candidates.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

const Instrument& bassoon() { return own_played("bassoon").instrument; }

/// The stock bassoon, and with each of its conversions.
const std::vector<std::string>& all_bassoons() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> ids = {"bassoon"};
    for (const std::string& conversion : conversion_ids("bassoon", own_instruments()))
      ids.push_back("bassoon+" + conversion);
    return ids;
  }();
  return all;
}

std::set<TouchSet> pressed_sets(const std::vector<SoundedFingering>& list, const char* note) {
  std::set<TouchSet> sets;
  for (const SoundedFingering& f : list) {
    if (f.pitch == pitch_named(note)) sets.insert(f.candidate.fingering.pressed);
  }
  return sets;
}

/// What every low note holds, with the given touches besides.
TouchSet low_note(std::vector<std::string> names) {
  for (const char* name : {"L1.hole", "L2.hole", "L3.hole", "R1.hole", "R2.hole", "R3.g", "R4.f", "RT.low-e"}) {
    names.emplace_back(name);
  }
  return touches_named(bassoon(), names);
}

}  // namespace

TEST_CASE("every line of the bassoon's table is a candidate of its note") {
  const Derivation& derivation = own_played("bassoon").derivation;
  for (std::size_t i = 0; i < bassoon().table.size(); ++i) {
    const TableFingering& line = bassoon().table[i];
    INFO(name(line.spelling) << ": " << names_of(bassoon(), line.fingering.pressed));
    const auto candidates = derivation.of(line.pitch);
    const auto found = std::find_if(candidates.begin(), candidates.end(),
                                    [&](const Candidate& c) { return c.fingering == line.fingering; });
    REQUIRE(found != candidates.end());
    CHECK(found->origin == Origin::table);
  }
}

TEST_CASE("every note from Bb1 to D5 has a fingering, whatever is done to the bassoon") {
  for (const std::string& id : all_bassoons()) {
    for (WrittenPitch pitch = pitch_named("Bb1"); pitch <= pitch_named("D5"); pitch = pitch + Semitones(1)) {
      INFO(id << " " << name(chart_spelling(pitch)));
      CHECK_FALSE(own_played(id).derivation.of(pitch).empty());
    }
  }
}

TEST_CASE("in the lowest register no line of one note sounds another") {
  const auto all = targets(bassoon());
  for (const Target& own : all) {
    for (const Target& other : all) {
      const TableFingering& a = bassoon().table[own.line];
      const TableFingering& b = bassoon().table[other.line];
      if (a.reg != 1 || b.reg != 1 || a.pitch == b.pitch) continue;
      INFO(name(a.spelling) << " " << names_of(bassoon(), a.fingering.pressed) << " as " << name(b.spelling) << " "
                            << names_of(bassoon(), b.fingering.pressed));
      CHECK_FALSE(other.demand.met_by(own.states));
    }
  }
}

TEST_CASE("every candidate, pressed again, sounds its note and can be held") {
  std::size_t pressed = 0;
  for (const std::string& id : all_bassoons()) {
    const Played& played = own_played(id);
    for (const auto& [pitch, candidates] : played.derivation.by_pitch) {
      for (const Candidate& c : candidates) {
        INFO(id << " " << name(chart_spelling(pitch)) << ": " << names_of(played.instrument, c.fingering.pressed));
        const Target& target = played.derivation.targets[c.line];
        CHECK(played.instrument.table[c.line].pitch == pitch);
        CHECK(target.demand.met_by(press(played.works, c.fingering.pressed, c.fingering.half)));
        CHECK(target.at_attack.has_value() == !c.fingering.flicked.empty());
        if (target.at_attack) {
          CHECK(target.at_attack->met_by(
              press(played.works, c.fingering.pressed | c.fingering.flicked, c.fingering.half)));
        }
        for (Finger finger : all_fingers) {
          const Hold hold{.touches = held_by(played.instrument, c.fingering.pressed, finger),
                          .half = held_by(played.instrument, c.fingering.half, finger)};
          CHECK(holds_of(played.instrument, finger).at(c.hold[index(finger)]) == hold);
        }
        ++pressed;
      }
    }
  }
  CHECK(pressed > 400);
}

TEST_CASE("rollers change no fingering") {
  const Played& stock = own_played("bassoon");
  const Played& rollers = own_played("bassoon+low-key-rollers");
  const Difference d = difference(stock.instrument, stock.derivation, rollers.instrument, rollers.derivation);
  CHECK(d.gained.empty());
  CHECK(d.lost.empty());
}

TEST_CASE("interlinked low keys lose the muted low C-sharp that the stock table has") {
  const Played& stock = own_played("bassoon");
  const Played& linked = own_played("bassoon+interlinked-low-keys");
  const TouchSet muted = low_note({"LT.low-d", "LT.low-c", "LT.low-b", "L4.low-dflat"});
  // It stands in the stock table (common practice: the low B touch added to soften the note).
  const auto& table = bassoon().table;
  const auto line =
      std::find_if(table.begin(), table.end(), [&](const TableFingering& l) { return l.fingering.pressed == muted; });
  REQUIRE(line != table.end());
  CHECK(line->pitch == pitch_named("C#2"));
  const Fingering fingering{.pressed = muted, .half = {}, .flicked = {}};
  CHECK(as_candidate(stock.instrument, stock.derivation, pitch_named("C#2"), fingering));
  CHECK_FALSE(as_candidate(linked.instrument, linked.derivation, pitch_named("C#2"), fingering));
  const Difference d = difference(stock.instrument, stock.derivation, linked.instrument, linked.derivation);
  CHECK(pressed_sets(d.lost, "C#2").contains(muted));
  // Pressed on the converted bassoon it sounds low B: the D-flat pad is held shut.
  CHECK(as_candidate(linked.instrument, linked.derivation, pitch_named("B1"), fingering));
}

TEST_CASE("interlinked low keys gain E-flat with the D-flat key, and low notes with the little finger resting") {
  const Played& stock = own_played("bassoon");
  const Played& linked = own_played("bassoon+interlinked-low-keys");
  const Difference d = difference(stock.instrument, stock.derivation, linked.instrument, linked.derivation);
  CHECK(pressed_sets(d.gained, "Eb2").contains(low_note({"LT.low-d", "L4.low-dflat"})));
  CHECK(pressed_sets(d.gained, "C2").contains(low_note({"LT.low-d", "LT.low-c", "L4.low-eflat"})));
  CHECK(pressed_sets(d.gained, "B1").contains(low_note({"LT.low-d", "LT.low-c", "LT.low-b", "L4.low-dflat"})));
  // On the stock bassoon these are other notes or none.
  const Fingering eflat{.pressed = low_note({"LT.low-d", "L4.low-dflat"}), .half = {}, .flicked = {}};
  CHECK_FALSE(as_candidate(stock.instrument, stock.derivation, pitch_named("Eb2"), eflat));
  // Standard low C-sharp is still there: the C key holds the E-flat pad shut that the D-flat key frees.
  const Fingering csharp{.pressed = low_note({"LT.low-d", "LT.low-c", "L4.low-dflat"}), .half = {}, .flicked = {}};
  CHECK(as_candidate(linked.instrument, linked.derivation, pitch_named("C#2"), csharp));
}

TEST_CASE("the right thumb's low C and D free the left thumb, and take no table fingering away") {
  const Played& stock = own_played("bassoon");
  const Played& with = own_played("bassoon+right-thumb-low-c-and-d");
  const Difference d = difference(stock.instrument, stock.derivation, with.instrument, with.derivation);
  CHECK(d.lost.empty());
  const TouchSet left_thumb = touches_of(with.instrument, Finger::LT);
  for (const char* note : {"D2", "C2"}) {
    INFO(note);
    const auto sets = pressed_sets(d.gained, note);
    // The left thumb may stay on the whisper key, or do nothing.
    CHECK(std::any_of(sets.begin(), sets.end(), [&](TouchSet set) {
      return touches_named(with.instrument, {"LT.whisper"}).contains_all(set & left_thumb);
    }));
  }
}
