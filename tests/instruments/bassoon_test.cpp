// The bassoon's derived chart against published lessons and texts, and what each of its conversions must bring and
// take.
#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

#include "fingerway/base/errors.hpp"
#include "fingerway/mechanism/candidates.hpp"
#include "fingerway/plan/trills.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

using Names = std::vector<std::string>;

const Played& stock() { return own_played("bassoon"); }
const Played& with(const std::string& conversion) { return own_played("bassoon+" + conversion); }

bool sounds(const Played& played, const char* note, const Names& names) {
  const Fingering fingering{.pressed = touches_named(played.instrument, names), .half = {}, .flicked = {}};
  return as_candidate(played.instrument, played.derivation, pitch_named(note), fingering).has_value();
}

PadStates pads(const Played& played, const Names& names) {
  return press(played.works, touches_named(played.instrument, names), {});
}

bool is_shut(const Played& played, const char* pad, const Names& names) {
  return pads(played, names).closed.contains(*find_pad(played.instrument, pad));
}

Names plus(Names names, const Names& more) {
  names.insert(names.end(), more.begin(), more.end());
  return names;
}

const Names left = {"L1.hole", "L2.hole", "L3.hole"};
const Names down_to_g = {"L1.hole", "L2.hole", "L3.hole", "R1.hole", "R2.hole", "R3.g"};
Names down_to_e(const Names& more) { return plus(plus(down_to_g, {"R4.f", "RT.low-e"}), more); }

Difference change(const std::string& conversion) {
  return difference(stock().instrument, stock().derivation, with(conversion).instrument, with(conversion).derivation);
}

std::set<std::string> notes_of(const std::vector<SoundedFingering>& list) {
  std::set<std::string> notes;
  for (const SoundedFingering& f : list) notes.insert(name(chart_spelling(f.pitch)));
  return notes;
}

/// The touches that the best trill moves.
std::string moving(const Played& played, const char* from, const char* to) {
  const Trill trill = best_trill(played, pitch_named(from), pitch_named(to));
  return trill.best ? names_of(played.instrument, moving_touches(*trill.best)) : "none";
}

/// The first line of a note.
const TableFingering& first_line(const Instrument& instrument, const char* note) {
  const auto found =
      std::ranges::find_if(instrument.table, [&](const TableFingering& l) { return l.pitch == pitch_named(note); });
  REQUIRE(found != instrument.table.end());
  return *found;
}

}  // namespace

TEST_CASE("a vent is flicked from A3 to D4 and nowhere else") {
  // wfg.woodwind.org/bassoon/basn_fing.html: the flick keys improve the response of A3, B-flat3, B3, C4 and D4.
  std::set<std::string> flicked;
  for (const TableFingering& line : stock().instrument.table) {
    if (!line.fingering.flicked.empty()) flicked.insert(name(chart_spelling(line.pitch)));
  }
  CHECK(flicked == std::set<std::string>{"A3", "Bb3", "B3", "C4", "D4"});
}

TEST_CASE("G and A-flat are half-holed in both their upper octaves") {
  // mafiadoc.com, Bassoon Fingering Issues: the G and A-flat of the third octave take the same half hole as an octave
  // lower.
  for (const char* note : {"G3", "Ab3", "G4", "Ab4"}) {
    INFO(note);
    CHECK(first_line(stock().instrument, note).fingering.half == touches_named(stock().instrument, {"L1.hole"}));
  }
}

TEST_CASE("the thumb's F-sharp key takes the F key down, so pressing that as well changes nothing") {
  // lowecc.pressbooks.sunycreate.cloud/chapter/lesson-3-f-sharp-f: the F key goes down by itself.
  const Names fsharp = plus(down_to_g, {"LT.whisper", "RT.fsharp"});
  CHECK(pads(stock(), plus(fsharp, {"R4.f"})) == pads(stock(), fsharp));
  CHECK(sounds(stock(), "F#2", plus(fsharp, {"R4.f"})));
  CHECK(sounds(stock(), "F#3", plus(fsharp, {"R4.f"})) == false);  // without the half hole it stays in the low octave
}

TEST_CASE("A with the A-flat key added is no A-flat") {
  // lowecc.pressbooks.sunycreate.cloud/chapter/lesson-6-low-a-flat-g-sharp-ab-g
  const Names a = plus(left, {"LT.whisper", "R1.hole", "R2.hole"});
  REQUIRE(sounds(stock(), "A2", a));
  for (const char* key : {"R4.aflat", "RT.aflat"}) CHECK_FALSE(sounds(stock(), "Ab2", plus(a, {key})));
  CHECK(sounds(stock(), "Ab2", plus(down_to_g, {"LT.whisper", "R4.aflat"})));
}

TEST_CASE("the left thumb cannot hold the whisper key with a low key; the low E key shuts the pad for it") {
  // lowecc.pressbooks.sunycreate.cloud/?p=1090, lesson on low C-sharp.
  const auto& holds = stock().derivation.holds[index(Finger::LT)];
  for (const char* low : {"LT.low-d", "LT.low-c", "LT.low-b", "LT.low-bflat"}) {
    const TouchSet both = touches_named(stock().instrument, {"LT.whisper", low});
    CHECK(std::ranges::none_of(holds, [&](const Hold& hold) { return hold.touches.contains_all(both); }));
  }
  CHECK(is_shut(stock(), "bocal-vent", down_to_e({"LT.low-d", "LT.low-c", "L4.low-dflat"})));
  CHECK_FALSE(is_shut(stock(), "bocal-vent", plus(down_to_g, {"R4.f"})));
}

TEST_CASE("a whisper lock left on takes the notes from A3 to D4 away") {
  // yumpu.com document 3690683, a maker's information sheet: the pad must not be shut for D4 and its neighbours.
  Instrument locked = stock().instrument;
  REQUIRE(locked.latches.size() == 1);
  locked.engaged.insert(LatchId(0));
  const Derivation derivation = derive(locked);
  for (const char* note : {"A3", "Bb3", "B3", "C4", "D4"}) {
    INFO(note);
    CHECK(derivation.of(pitch_named(note)).empty());
    CHECK_FALSE(stock().derivation.of(pitch_named(note)).empty());
  }
  // Below, the left thumb is free of the whisper key.
  const Fingering open_thumb{.pressed = touches_named(locked, plus(down_to_g, {"R4.f"})), .half = {}, .flicked = {}};
  const auto f = as_candidate(locked, derivation, pitch_named("F2"), open_thumb);
  REQUIRE(f);
  CHECK(locked.table[f->line].mark == "R4 F");
}

TEST_CASE("the forked E-flat may be steadied with a low key, or with a right finger and the thumb's B-flat key") {
  // double-reed players' association publications, TWBassoonist 5.3, on the E-flat: what most players add to the fork.
  const Names fork = {"LT.whisper", "L1.hole", "L3.hole"};
  for (const Names& added : {Names{}, Names{"L4.low-eflat"}, Names{"L4.low-dflat"}, Names{"R1.hole", "RT.bflat"},
                             Names{"R2.hole", "RT.bflat"}}) {
    INFO(names_of(stock().instrument, touches_named(stock().instrument, added)));
    CHECK(sounds(stock(), "Eb3", plus(fork, added)));
    CHECK_FALSE(sounds(stock(), "E3", plus(fork, added)));
  }
}

TEST_CASE("keys above the stock bassoon's D5 bring the notes they are named for and take none") {
  CHECK(stock().instrument.highest == pitch_named("D5"));
  CHECK(notes_of(change("high-e-flat-key").gained) == std::set<std::string>{"Eb5"});
  CHECK(notes_of(change("high-e-flat-and-e-keys").gained) == std::set<std::string>{"Eb5", "E5"});
  CHECK(notes_of(change("high-e-flat-e-and-f-keys").gained) == std::set<std::string>{"Eb5", "E5", "F5"});
  for (const char* id : {"high-e-flat-key", "high-e-flat-and-e-keys", "high-e-flat-e-and-f-keys"}) {
    CHECK(change(id).lost.empty());
  }
  // They are fitted instead of one another.
  CHECK_THROWS_AS(read_instrument("bassoon+high-e-flat-key+high-e-flat-and-e-keys", own_instruments()), InputError);
}

TEST_CASE("the plain bassoon vents D4 with the C key, until a D key is fitted") {
  // theinstrumentalist.com/march-2014/venting-bassoon-notes: high D, else high C.
  const Played& plain = own_played("plain-bassoon");
  const Played& fitted = own_played("plain-bassoon+high-d-key+thumb-a-flat-key");
  CHECK(first_line(plain.instrument, "D4").fingering.flicked == touches_named(plain.instrument, {"LT.flick-c"}));
  CHECK(plain.instrument.highest < pitch_named("D5"));
  const Difference d = difference(plain.instrument, plain.derivation, fitted.instrument, fitted.derivation);
  CHECK(notes_of(d.gained) == std::set<std::string>{"D4", "D5", "Ab2", "Ab3"});
  CHECK(d.lost.empty());
}

TEST_CASE("with the C-sharp to D-sharp mechanism lifting the third finger from C-sharp gives E-flat, and no longer D") {
  // yumpu.com document 11282904, a maker's service sheet, and bassoonoperator.blogspot.com/2011/01.
  const Names csharp = {"LT.whisper", "LT.csharp", "L1.hole", "L2.hole", "L3.hole"};
  const Names third_up = {"LT.whisper", "LT.csharp", "L1.hole", "L2.hole"};
  const Played& fitted = with("c-sharp-d-sharp-mechanism");
  CHECK(sounds(fitted, "C#3", csharp));
  CHECK(sounds(fitted, "Eb3", third_up));
  CHECK_FALSE(sounds(fitted, "D3", third_up));
  CHECK(sounds(stock(), "D3", third_up));
  CHECK_FALSE(sounds(stock(), "Eb3", third_up));
  CHECK(notes_of(change("c-sharp-d-sharp-mechanism").lost) == std::set<std::string>{"D3"});
  CHECK(moving(fitted, "D3", "Eb3") == "LT.csharp");
}

TEST_CASE("E-flat trill keys trill from D with one finger, the right-hand one from C and C-sharp as well") {
  // womblewilliams.com/information-helpful-to-all-bassoonists, extra keys.
  CHECK(moving(with("left-e-flat-trill-key"), "D3", "Eb3") == "L3.eflat-trill");
  CHECK(change("left-e-flat-trill-key").lost.empty());
  const Played& right = with("right-hand-e-flat-key");
  for (const char* from : {"C3", "C#3"})
    CHECK(sounds(right, from, plus(left, {"LT.whisper", "LT.csharp"})) == (from[1] == '#'));
  CHECK(moving(right, "D3", "Eb3") == "R1.eflat");
  CHECK(sounds(right, "D3", plus(left, {"LT.whisper", "R1.eflat"})));
  CHECK(sounds(right, "D3", plus(left, {"LT.whisper", "LT.csharp", "R1.eflat"})));
  CHECK(sounds(right, "D4", plus(left, {"R1.eflat"})));
  // The C-sharp trill key is no longer the index finger's.
  CHECK(notes_of(change("right-hand-e-flat-key").lost) == std::set<std::string>{"C#3", "Eb3"});
  // idrs.org bulletin board 14322: B to C-sharp with thumb and right middle finger, the right index staying on its
  // hole.
  CHECK(sounds(right, "C#3", plus(left, {"LT.whisper", "LT.csharp", "R1.hole", "R2.csharp-trill"})));
  CHECK_FALSE(sounds(stock(), "C#3", plus(left, {"LT.whisper", "LT.csharp", "R1.hole"})));
}

TEST_CASE("the articulated B-flat lets the third finger alone trill from A-flat to B-flat") {
  // womblewilliams.com: hold thumb B-flat and A-flat, trill the third finger; the G key shuts the B-flat pad.
  const Played& fitted = with("articulated-a-flat-b-flat");
  const Names aflat = plus(down_to_g, {"LT.whisper", "RT.bflat", "R4.aflat"});
  const Names bflat = plus(left, {"LT.whisper", "R1.hole", "R2.hole", "RT.bflat", "R4.aflat"});
  CHECK(sounds(fitted, "Ab2", aflat));
  CHECK(sounds(fitted, "Bb2", bflat));
  CHECK_FALSE(sounds(stock(), "Ab2", aflat));
  CHECK(moving(fitted, "Ab2", "Bb2") == "R3.g");
  CHECK(moving(stock(), "Ab2", "Bb2") != "R3.g");
  // What is lost is a fork that had the third finger down with the B-flat pad open.
  CHECK(notes_of(change("articulated-a-flat-b-flat").lost) == std::set<std::string>{"Eb3"});
}

TEST_CASE("another whisper key frees the left thumb on every note that the whisper key is held for") {
  // kingkristopher.com and womblewilliams.com: F to low C and back, and the thumb free to go to the vents.
  for (const auto& [conversion, key] :
       {std::pair{"little-finger-whisper", "L4.whisper"}, std::pair{"right-thumb-whisper", "RT.whisper"}}) {
    INFO(conversion);
    const Played& fitted = with(conversion);
    CHECK(sounds(fitted, "F2", plus(down_to_g, {"R4.f", key})));
    CHECK(sounds(fitted, "C3", plus(left, {key})));
    CHECK_FALSE(sounds(fitted, "D4", {"L1.hole", "L2.hole", key}));
    CHECK(change(conversion).lost.empty());
  }
  // The little finger has one key at a time, so E-flat and C-sharp need the thumb or the low E key for the whisper pad.
  const auto gained = notes_of(change("little-finger-whisper").gained);
  CHECK_FALSE(gained.contains("Eb2"));
  CHECK_FALSE(gained.contains("C#2"));
  CHECK(gained.contains("C2"));
}

TEST_CASE("the keywork for small hands brings the right hand's keys nearer and loses three trill keys") {
  // scribd.com/document/200922322: keys moved up about 16 mm; B-flat trill key, thumb A-flat and C-sharp trill left
  // out.
  const Played& small = with("small-hand-keywork");
  const Difference d = change("small-hand-keywork");
  CHECK(d.gained.empty());
  const TouchSet gone = touches_named(stock().instrument, {"R3.bflat-trill", "RT.aflat", "R1.csharp-trill"});
  CHECK(d.lost.size() > 6);
  for (const SoundedFingering& f : d.lost) CHECK(f.candidate.fingering.pressed.intersects(gone));
  for (const char* key : {"R3.g", "R4.f", "R4.fsharp", "R4.aflat"}) {
    const Spot before = stock().instrument.touches[touch_named(stock().instrument, key).index].spot;
    const Spot after = small.instrument.touches[touch_named(small.instrument, key).index].spot;
    CHECK((before.along - after.along).value() == Approx(16.0));
  }
}

TEST_CASE("a low A key adds a note below and keeps low B-flat") {
  const Played& longer = with("low-a-key-bassoon");
  const Names bflat = down_to_e({"LT.low-d", "LT.low-c", "LT.low-b", "LT.low-bflat"});
  CHECK(sounds(longer, "Bb1", bflat));
  CHECK(sounds(longer, "A1", plus(bflat, {"LT.low-a"})));
  CHECK(notes_of(change("low-a-key-bassoon").gained) == std::set<std::string>{"A1"});
  CHECK(change("low-a-key-bassoon").lost.empty());
}

TEST_CASE("a plate and thumb rollers change no fingering") {
  for (const char* id : {"third-finger-plate", "thumb-key-rollers"}) {
    INFO(id);
    CHECK(change(id).gained.empty());
    CHECK(change(id).lost.empty());
  }
}

TEST_CASE("low F without the whisper key is for trills only") {
  const Fingering bare{
      .pressed = touches_named(stock().instrument, plus(down_to_g, {"R4.f"})), .half = {}, .flicked = {}};
  const auto f = as_candidate(stock().instrument, stock().derivation, pitch_named("F2"), bare);
  REQUIRE(f);
  CHECK(stock().instrument.table[f->line].standing == Standing::trill_only);
}
