// The clarinet's derived chart against published charts and texts, and what each of its conversions must bring and
// take.
#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

#include "fingerway/mechanism/candidates.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

using Names = std::vector<std::string>;

const Played& stock() { return own_played("clarinet"); }
const Played& with(const std::string& conversion) { return own_played("clarinet+" + conversion); }

std::optional<Candidate> way_to(const Played& played, const char* note, const Names& names) {
  const Fingering fingering{.pressed = touches_named(played.instrument, names), .half = {}, .flicked = {}};
  return as_candidate(played.instrument, played.derivation, pitch_named(note), fingering);
}

bool sounds(const Played& played, const char* note, const Names& names) {
  return way_to(played, note, names).has_value();
}

/// All seven holes shut, with the given touches besides.
Names full(Names more) {
  for (const char* hole : {"LT.hole", "L1.hole", "L2.hole", "L3.hole", "R1.hole", "R2.hole", "R3.hole"}) {
    more.emplace_back(hole);
  }
  return more;
}

Names clarion(Names names) {
  names.emplace_back("LT.register");
  return names;
}

Difference change(const std::string& conversion) {
  return difference(stock().instrument, stock().derivation, with(conversion).instrument, with(conversion).derivation);
}

bool listed(const Played& played, const std::vector<SoundedFingering>& list, const char* note, const Names& names) {
  const TouchSet touches = touches_named(played.instrument, names);
  return std::any_of(list.begin(), list.end(), [&](const SoundedFingering& f) {
    return f.pitch == pitch_named(note) && f.candidate.fingering.pressed == touches;
  });
}

PadStates pads(const Played& played, const Names& names) {
  return press(played.works, touches_named(played.instrument, names), {});
}

}  // namespace

TEST_CASE("the clarinet has 24 holes, seven for fingers, and 17 keys") {
  // vsl.co.at, clarinet in B-flat, two forms: 17 keyed and 7 open holes; 17 keys is common practice.
  const Instrument& clarinet = stock().instrument;
  const auto holes = std::count_if(clarinet.pads.begin(), clarinet.pads.end(),
                                   [](const Pad& pad) { return pad.kind != PadKind::open_end; });
  const auto bare = std::count_if(clarinet.touches.begin(), clarinet.touches.end(),
                                  [](const Touch& touch) { return touch.name == "hole"; });
  CHECK(holes == 24);
  CHECK(bare == 7);
  CHECK(clarinet.touches.size() - static_cast<std::size_t>(bare) == 17);
}

TEST_CASE("every chalumeau fingering gives its twelfth with the register key, derived ones too") {
  // Common practice: a clarinet overblows at the twelfth.
  std::size_t overblown = 0;
  const TouchId key = touch_named(stock().instrument, "LT.register");
  for (WrittenPitch low = pitch_named("E3"); low <= pitch_named("F4"); low = low + Semitones(1)) {
    for (const Candidate& c : stock().derivation.of(low)) {
      Fingering fingering = c.fingering;
      fingering.pressed.insert(key);
      INFO(name(chart_spelling(low)) << ": " << names_of(stock().instrument, fingering.pressed));
      CHECK(as_candidate(stock().instrument, stock().derivation, low + Semitones(19), fingering));
      ++overblown;
    }
  }
  CHECK(overblown >= 14);
}

TEST_CASE("either C key may be down with B4 of the other hand, and the pads stay as they are") {
  // bretpimentel.com, doubling up little fingers on the clarinet: four fingerings of B4; the C key moves no further
  // hole.
  for (const Names& pair : {Names{"L4.e", "R4.f"}, Names{"R4.e", "L4.f"}}) {
    CHECK(sounds(stock(), "B4", clarion(full({pair[0]}))));
    CHECK(sounds(stock(), "B4", clarion(full(pair))));
    CHECK(pads(stock(), full(pair)) == pads(stock(), full({pair[0]})));
  }
  // Not so the E-flat key: it opens a hole above.
  CHECK_FALSE(sounds(stock(), "B4", clarion(full({"L4.e", "R4.aflat"}))));
}

TEST_CASE(
    "any right-hand ring shuts the pad of the second ring: one and one is E-flat, and E needs the right hand up") {
  // instrumentcare.info/bridgekey.htm and clarinet mailing list 2002/07 no. 587: what the bridge between the joints is
  // for.
  CHECK(sounds(stock(), "E4", {"LT.hole", "L1.hole"}));
  CHECK(sounds(stock(), "Eb4", {"LT.hole", "L1.hole", "R1.hole"}));
  CHECK(sounds(stock(), "Bb5", {"LT.hole", "LT.register", "L1.hole", "R1.hole"}));
  for (const char* ring : {"R1.hole", "R2.hole", "R3.hole"}) {
    INFO(ring);
    CHECK_FALSE(sounds(stock(), "E4", {"LT.hole", "L1.hole", ring}));
    CHECK_FALSE(sounds(stock(), "C4", {"LT.hole", "L1.hole", "L2.hole", "L3.hole", ring}));
  }
  // Without the seventh ring the third finger is no fork: E stays E.
  CHECK(sounds(stock(), "E4", {"LT.hole", "L1.hole", "L3.hole"}));
}

TEST_CASE("the A key takes the G-sharp key along, and with the register key alone it is throat B-flat") {
  // US patent 5477766 and nutramed.com on keywork: the arm of the A key lifts the G-sharp key.
  CHECK(pads(stock(), {"L1.a", "L1.gsharp"}) == pads(stock(), {"L1.a"}));
  CHECK(sounds(stock(), "A4", {"L1.a", "L1.gsharp"}));
  // National Music Museum newsletter, August 2010: the register vent is the tone hole of throat B-flat.
  CHECK(sounds(stock(), "Bb4", {"L1.a", "LT.register"}));
  CHECK_FALSE(sounds(stock(), "A4", {"L1.a", "LT.register"}));
  CHECK_FALSE(sounds(stock(), "Bb4", {"L1.a", "LT.register", "LT.hole"}));
  // The third side key over the open A hole is B-flat (break-lesson, thumb-key), over the open G-sharp hole A.
  CHECK(sounds(stock(), "Bb4", {"L1.a", "R1.side-3"}));
  CHECK_FALSE(sounds(stock(), "A4", {"L1.a", "R1.side-3"}));
  CHECK(sounds(stock(), "A4", {"L1.gsharp", "R1.side-3"}));
}

TEST_CASE("the right hand may stay down on every throat note and on none just below") {
  // Common practice for crossing the break.
  const Names right = {"R1.hole", "R2.hole", "R3.hole"};
  const auto and_right = [&](Names names) {
    names.insert(names.end(), right.begin(), right.end());
    return names;
  };
  CHECK(sounds(stock(), "G4", and_right({})));
  CHECK(sounds(stock(), "G#4", and_right({"L1.gsharp"})));
  CHECK(sounds(stock(), "A4", and_right({"L1.a", "L2.hole", "L3.hole"})));
  CHECK(sounds(stock(), "Bb4", and_right({"L1.a", "LT.register"})));
  CHECK_FALSE(sounds(stock(), "F4", and_right({"LT.hole"})));
  CHECK_FALSE(sounds(stock(), "E4", and_right({"LT.hole", "L1.hole"})));
}

TEST_CASE(
    "with an articulated C-sharp key the left little finger stays and one right finger trills F-sharp5 to G-sharp5") {
  // tcnj.edu, the modern clarinet: hard on the standard model, easy with the articulated key.
  const Names left = clarion({"LT.hole", "L1.hole", "L2.hole", "L3.hole", "L4.csharp"});
  Names and_middle = left;
  and_middle.emplace_back("R2.hole");
  CHECK(sounds(stock(), "G#5", left));
  CHECK_FALSE(sounds(stock(), "F#5", and_middle));
  CHECK_FALSE(sounds(stock(), "G#5", and_middle));
  const Played& articulated = with("articulated-csharp-clarinet");
  CHECK(sounds(articulated, "G#5", left));
  CHECK(sounds(articulated, "F#5", and_middle));
  CHECK(listed(articulated, change("articulated-csharp-clarinet").gained, "F#5", and_middle));
  // Every note that has a right-hand ring down keeps sounding with the key held.
  for (const char* note : {"E3", "F3", "F#3", "G3", "G#3", "A3", "Bb3", "B3"}) {
    INFO(note);
    const auto& gained = change("articulated-csharp-clarinet").gained;
    CHECK(std::any_of(gained.begin(), gained.end(), [&](const SoundedFingering& f) {
      return f.pitch == pitch_named(note) &&
             f.candidate.fingering.pressed.contains(touch_named(articulated.instrument, "L4.csharp"));
    }));
  }
}

TEST_CASE("a left E-flat lever adds the left hand to every note of the right key and takes nothing away") {
  // Clarinet mailing list 2000/12 no. 1212.
  const Played& lever = with("left-eflat-lever-clarinet");
  const Difference d = change("left-eflat-lever-clarinet");
  CHECK(listed(lever, d.gained, "G#3", full({"L4.aflat"})));
  CHECK(listed(lever, d.gained, "Eb5", clarion(full({"L4.aflat"}))));
  CHECK(listed(lever, d.gained, "D6", {"LT.hole", "LT.register", "L2.hole", "L3.hole", "R1.hole", "L4.aflat"}));
  CHECK(d.lost.empty());
}

TEST_CASE("a seventh ring makes first and third finger E-flat, and E can no longer keep the third finger down") {
  // Clarinet mailing list 2002/07 no. 587; tcnj.edu, the modern clarinet.
  const Played& forked = with("forked-eflat-clarinet");
  const Names fork = {"LT.hole", "L1.hole", "L3.hole"};
  CHECK(sounds(forked, "Eb4", fork));
  CHECK(sounds(forked, "Bb5", clarion(fork)));
  CHECK(listed(stock(), change("forked-eflat-clarinet").lost, "E4", fork));
  CHECK_FALSE(sounds(forked, "E4", fork));
  // Both other E-flats and the notes around are as before.
  CHECK(sounds(forked, "Eb4", {"LT.hole", "L1.hole", "R1.hole"}));
  CHECK(sounds(forked, "Eb4", {"LT.hole", "L1.hole", "L2.hole", "R1.side-1"}));
  CHECK(sounds(forked, "C4", {"LT.hole", "L1.hole", "L2.hole", "L3.hole"}));
}

TEST_CASE("the low E-flat extension has its note and a full-length B-flat4, and loses nothing") {
  // tcnj.edu, the modern clarinet: written E-flat3 and its twelfth.
  const Played& longer = with("low-eflat-clarinet");
  CHECK(longer.instrument.lowest == pitch_named("Eb3"));
  CHECK(sounds(longer, "Eb3", full({"R4.low-eflat"})));
  CHECK(sounds(longer, "Bb4", clarion(full({"R4.low-eflat"}))));
  CHECK_FALSE(sounds(longer, "E3", full({"R4.low-eflat"})));
  CHECK(sounds(longer, "E3", full({"L4.e"})));
  CHECK(change("low-eflat-clarinet").lost.empty());
}

TEST_CASE("an E-flat key that the low keys release may stay down through B4, C5 and C-sharp5") {
  // US patent 2633048: the slurs it is for; the vent can't be had together with those keys any more.
  const Played& released = with("released-eflat-clarinet");
  const Difference d = change("released-eflat-clarinet");
  for (const auto& [note, key] : {std::pair{"B4", "L4.e"}, std::pair{"C5", "L4.f"}, std::pair{"C#5", "L4.fsharp"}}) {
    INFO(note);
    CHECK_FALSE(sounds(stock(), note, clarion(full({key, "R4.aflat"}))));
    CHECK(listed(released, d.gained, note, clarion(full({key, "R4.aflat"}))));
  }
  CHECK(listed(stock(), d.lost, "Eb5", clarion(full({"L4.fsharp", "R4.aflat"}))));
}

TEST_CASE("touches added for one pad give the pads of the touch they double") {
  // stempfle.ch on the two-part thumb key; US patent 5477766; clarinet forum 2022 on a right-hand C-sharp touch.
  const Played& thumb = with("thumb-bflat-clarinet");
  CHECK(pads(thumb, {"L1.a", "LT.bflat"}) == pads(thumb, {"L1.a", "R1.side-3"}));
  CHECK(listed(thumb, change("thumb-bflat-clarinet").gained, "Bb4", {"L1.a", "LT.bflat"}));
  const Played& right_a = with("right-hand-a-key-clarinet");
  CHECK(listed(right_a, change("right-hand-a-key-clarinet").gained, "A4", {"R1.a"}));
  CHECK(sounds(right_a, "Bb4", {"R1.a", "LT.register"}));
  const Played& index = with("right-index-csharp-clarinet");
  CHECK(listed(index, change("right-index-csharp-clarinet").gained, "C#4",
               {"LT.hole", "L1.hole", "L2.hole", "L3.hole", "R1.csharp"}));
  for (const char* conversion : {"thumb-bflat-clarinet", "right-hand-a-key-clarinet", "right-index-csharp-clarinet"}) {
    INFO(conversion);
    CHECK(change(conversion).lost.empty());
  }
}

TEST_CASE("the low-F correction helps F3 and must stay up on C5") {
  // Clarinet mailing list 2005/04 no. 389; shop text on clarinet systems.
  const Played& corrected = with("low-f-correction-clarinet");
  CHECK(sounds(corrected, "F3", full({"L4.f", "R4.low-f-correction"})));
  CHECK_FALSE(sounds(corrected, "C5", clarion(full({"L4.f", "R4.low-f-correction"}))));
  CHECK_FALSE(sounds(corrected, "E3", full({"L4.e", "R4.low-f-correction"})));
  CHECK(sounds(corrected, "C5", clarion(full({"L4.f"}))));
}

TEST_CASE("a vent of its own makes the usual throat B-flat clear") {
  // National Music Museum newsletter, August 2010.
  const Played& vented = with("throat-bflat-vent-clarinet");
  const auto stuffy = [](const Played& played, const Candidate& c) {
    const auto& traits = played.instrument.table[c.line].traits;
    return std::find(traits.begin(), traits.end(), Trait::stuffy) != traits.end();
  };
  const auto before = way_to(stock(), "Bb4", {"L1.a", "LT.register"});
  const auto after = way_to(vented, "Bb4", {"L1.a", "LT.register"});
  REQUIRE(before);
  REQUIRE(after);
  CHECK(stuffy(stock(), *before));
  CHECK_FALSE(stuffy(vented, *after));
  // Neither key alone moves it.
  const PadId vent = *find_pad(vented.instrument, "bflat-vent");
  CHECK(pads(vented, {"L1.a"}).closed.contains(vent));
  CHECK(pads(vented, {"LT.register"}).closed.contains(vent));
}

TEST_CASE("the A clarinet has the B-flat clarinet's fingerings a semitone lower") {
  const Instrument& in_a = own_played("clarinet-in-a").instrument;
  CHECK(in_a.transposition.interval == Semitones(-3));
  CHECK(stock().instrument.transposition.interval == Semitones(-2));
  REQUIRE(in_a.table.size() == stock().instrument.table.size());
  for (std::size_t i = 0; i < in_a.table.size(); ++i) {
    CHECK(in_a.table[i].pitch == stock().instrument.table[i].pitch);
    CHECK(in_a.table[i].fingering == stock().instrument.table[i].fingering);
  }
  CHECK(sounds(own_played("clarinet-in-a+forked-eflat-clarinet"), "Eb4", {"LT.hole", "L1.hole", "L3.hole"}));
}
