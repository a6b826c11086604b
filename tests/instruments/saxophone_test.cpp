// The saxophone against what is published of it: its linkages (automatic octave, articulated G-sharp and low C-sharp,
// the bridge that makes one-and-one B-flats), texts on fingerings, and what each conversion must gain and lose.
#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

#include "fingerway/mechanism/candidates.hpp"
#include "fingerway/plan/trills.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

const Instrument& saxophone() { return own_played("saxophone").instrument; }

using Names = std::vector<std::string>;

Names with(Names touches, const Names& more) {
  touches.insert(touches.end(), more.begin(), more.end());
  return touches;
}

const Names left_three = {"L1.b", "L2.a", "L3.g"};
const Names six = {"L1.b", "L2.a", "L3.g", "R1.f", "R2.e", "R3.d"};
const Names low = with(six, {"R4.low-c"});
const Names palms = {"LT.octave", "L1.palm-d", "L1.palm-eflat"};

/// Whether a hand that presses exactly these touches sounds the note.
bool sounds(const std::string& stacked, const char* note, const Names& touches) {
  const Played& played = own_played(stacked);
  const Fingering fingering{.pressed = touches_named(played.instrument, touches), .half = {}, .flicked = {}};
  return as_candidate(played.instrument, played.derivation, pitch_named(note), fingering).has_value();
}

bool sounds(const char* note, const Names& touches) { return sounds("saxophone", note, touches); }

bool stands_open(const Names& touches, const char* pad) {
  const PadStates states = press(works_of(saxophone()), touches_named(saxophone(), touches), {});
  for (std::size_t i = 0; i < saxophone().pads.size(); ++i) {
    if (saxophone().pads[i].id == pad) return !states.closed.contains(PadId(i)) && !states.half.contains(PadId(i));
  }
  throw std::runtime_error("no pad: " + std::string(pad));
}

Difference between(const std::string& one, const std::string& other) {
  const Played& a = own_played(one);
  const Played& b = own_played(other);
  return difference(a.instrument, a.derivation, b.instrument, b.derivation);
}

std::set<std::string> notes_of(const std::vector<SoundedFingering>& list) {
  std::set<std::string> notes;
  for (const SoundedFingering& f : list) notes.insert(name(chart_spelling(f.pitch)));
  return notes;
}

double rate(const std::string& stacked, const char* from, const char* to) {
  const Trill trill = best_trill(own_played(stacked), pitch_named(from), pitch_named(to));
  return trill.best ? trill.best->rate.value() : 0.0;
}

/// Milliseconds that the left little finger needs from one of its keys to another, in the low notes.
double little_finger(const std::string& stacked, const char* from, const char* from_key, const char* to,
                     const char* to_key) {
  const Played& played = own_played(stacked);
  const auto state = [&](const char* note, const char* key) {
    const Fingering fingering{.pressed = touches_named(played.instrument, with(low, {key})), .half = {}, .flicked = {}};
    const auto candidate = as_candidate(played.instrument, played.derivation, pitch_named(note), fingering);
    if (!candidate) throw std::runtime_error(std::string(note) + " does not sound by " + key);
    return played.hand.states(Finger::L4).holding(candidate->hold[index(Finger::L4)]);
  };
  return played.hand.move(Finger::L4, state(from, from_key), state(to, to_key)).busy.count();
}

}  // namespace

TEST_CASE("the saxophone's octave key opens the body vent while the G key is down, else the neck vent") {
  // A published acoustic study of the tenor saxophone (New South Wales, page on A5): A5 is the lowest note on the upper
  // vent.
  std::size_t body = 0;
  std::size_t neck = 0;
  const PadStates at_rest = press(works_of(saxophone()), {}, {});
  for (const TableFingering& line : saxophone().table) {
    if (line.reg == 1 || line.standing != Standing::standard) continue;
    const bool below_a5 = line.pitch < pitch_named("A5");
    INFO(name(line.spelling));
    const PadStates states = press(works_of(saxophone()), line.fingering.pressed, {});
    for (std::size_t i = 0; i < saxophone().pads.size(); ++i) {
      const std::string& id = saxophone().pads[i].id;
      const bool opened = at_rest.closed.contains(PadId(i)) && !states.closed.contains(PadId(i));
      if (id == "body-vent") CHECK(opened == below_a5);
      if (id == "neck-vent") CHECK(opened == !below_a5);
    }
    ++(below_a5 ? body : neck);
  }
  CHECK(body == 7);   // D5 to G-sharp 5
  CHECK(neck == 10);  // A5 to F-sharp 6
}

TEST_CASE("a low key of the saxophone's left table gives G-sharp, and the right hand holds its cup shut") {
  // teenjazz.com on the G-sharp spring, and an instrument given the tabs at home (guitareth.blogspot.com, 2021).
  for (const char* key : {"L4.gsharp", "L4.low-csharp", "L4.low-b", "L4.low-bflat"}) {
    INFO(key);
    CHECK(sounds("G#4", with(left_three, {key})));
    CHECK(sounds("G#5", with(left_three, {key, "LT.octave"})));
    // Common practice: it may stay down on F, and G-sharp comes by lifting the right hand.
    CHECK(sounds("F4", with(left_three, {key, "R1.f"})));
    CHECK_FALSE(sounds("G#4", with(left_three, {key, "R1.f"})));
    CHECK_FALSE(stands_open(with(left_three, {key, "R2.e"}), "gsharp"));
  }
  CHECK_FALSE(sounds("G4", with(left_three, {"L4.gsharp"})));
}

TEST_CASE("any key of the saxophone's lower stack turns B into B-flat") {
  // suite101.com 40653 and palmkeys.blogspot.com (2015): the B-flats fingered one and one, one and two.
  for (const char* key : {"R1.f", "R2.e", "R3.d"}) {
    INFO(key);
    CHECK(sounds("Bb4", {"L1.b", key}));
    CHECK(sounds("Bb5", {"L1.b", key, "LT.octave"}));
    CHECK_FALSE(sounds("B4", {"L1.b", key}));
    // saxforum.it 18862: only on some old sopranos does the lower stack turn open C-sharp into C.
    CHECK_FALSE(sounds("C5", {key}));
    CHECK(sounds("C#5", {key}));
  }
}

TEST_CASE("the saxophone sounds what printed lessons say") {
  // "Fingering of Sax" (scribd.com 166125419): the first notes of a beginner.
  CHECK(sounds("B4", {"L1.b"}));
  CHECK(sounds("C5", {"L2.a"}));
  CHECK(sounds("A4", {"L1.b", "L2.a"}));
  CHECK(sounds("G4", left_three));
  CHECK(sounds("F#4", with(left_three, {"R2.e"})));
  CHECK(sounds("E4", with(left_three, {"R1.f", "R2.e"})));
  CHECK(sounds("D4", six));
  // "Saxophone lesson 8" (sax08.htm): side C is the B key with the right hand's side C key.
  CHECK(sounds("C5", {"L1.b", "R1.side-c"}));
  CHECK_FALSE(sounds("C5", {"L1.b"}));
  // "Using the high F# key" (saxgourmet.com): palm F-sharp, and the fork E and F with the front F key.
  CHECK(sounds("F#6", with(palms, {"L2.palm-f", "R1.high-e", "R2.high-fsharp"})));
  CHECK(sounds("E6", {"LT.octave", "L1.front-f", "L2.a", "L3.g"}));
  CHECK(sounds("F6", {"LT.octave", "L1.front-f", "L2.a"}));
  CHECK_FALSE(sounds("F6", with(palms, {"L2.palm-f"})));  // US patent 8129605: with the side key besides
  CHECK(sounds("F6", with(palms, {"L2.palm-f", "R1.high-e"})));
}

TEST_CASE("the saxophone's trill and tuning fingerings of two articles come out") {
  // The Instrumentalist, October 2017: palm keys without the octave key, with the C key down or not.
  for (const Names& start : {Names{}, Names{"L2.a"}}) {
    INFO((start.empty() ? "from C-sharp" : "from C"));
    CHECK(sounds("D5", with(start, {"L1.palm-d"})));
    CHECK(sounds("Eb5", with(start, {"L1.palm-d", "L1.palm-eflat"})));
    CHECK(sounds("E5", with(start, {"L1.palm-d", "L1.palm-eflat", "R1.high-e"})));
  }
  // The Instrumentalist, April 2010: low B added to D5 and the two notes above; C-sharp with side C, or third finger
  // and octave.
  CHECK(sounds("D5", with(six, {"LT.octave", "L4.low-b"})));
  CHECK(sounds("Eb5", with(six, {"LT.octave", "L4.low-b", "R4.eflat"})));
  CHECK(sounds("E5", {"L1.b", "L2.a", "L3.g", "R1.f", "R2.e", "L4.low-b", "LT.octave"}));
  CHECK(sounds("C#5", {"R1.side-c"}));
  CHECK(sounds("C#5", {"L3.g", "LT.octave"}));
  CHECK_FALSE(sounds("C#6", {"L3.g", "LT.octave"}));
  // The Instrumentalist, August 2020: on the trill from low C-sharp to D the left little finger stays down.
  CHECK(sounds("D4", with(six, {"L4.low-csharp"})));
}

TEST_CASE("touches that saxophonists leave down do not change the note") {
  // Common practice: E-flat key through F, G-sharp key through A, bis key through A and G.
  for (const char* octave : {"4", "5"}) {
    const Names vent = octave[0] == '5' ? Names{"LT.octave"} : Names{};
    INFO("octave " << octave);
    CHECK(
        sounds(("E" + std::string(octave)).c_str(), with(vent, {"L1.b", "L2.a", "L3.g", "R1.f", "R2.e", "R4.eflat"})));
    CHECK(sounds(("F" + std::string(octave)).c_str(), with(vent, {"L1.b", "L2.a", "L3.g", "R1.f", "R4.eflat"})));
    CHECK(sounds(("A" + std::string(octave)).c_str(), with(vent, {"L1.b", "L2.a", "L4.gsharp"})));
    CHECK(sounds(("A" + std::string(octave)).c_str(), with(vent, {"L1.b", "L1.bis", "L2.a"})));
    CHECK(sounds(("G" + std::string(octave)).c_str(), with(vent, {"L1.b", "L1.bis", "L2.a", "L3.g"})));
    CHECK_FALSE(sounds(("B" + std::string(octave)).c_str(), with(vent, {"L1.b", "L1.bis"})));
  }
  // The side F-sharp hole lies below the F cup: it tells only once the F key is down.
  CHECK(sounds("F#4", with(left_three, {"R1.f", "R3.side-fsharp"})));
  CHECK_FALSE(sounds("F4", with(left_three, {"R1.f", "R3.side-fsharp"})));
}

TEST_CASE("palm keys of the saxophone need the ones below them") {
  // Common practice: each higher note adds a key; the highest open hole alone is no vent for the note.
  CHECK(sounds("D6", {"LT.octave", "L1.palm-d"}));
  CHECK(sounds("Eb6", palms));
  CHECK(sounds("E6", with(palms, {"R1.high-e"})));
  CHECK_FALSE(sounds("Eb6", {"LT.octave", "L1.palm-eflat"}));
  CHECK_FALSE(sounds("E6", {"LT.octave", "R1.high-e"}));
}

TEST_CASE("four sizes of saxophone share one mechanism and differ in pitch") {
  // Common practice: soprano and tenor in B-flat, alto and baritone in E-flat.
  const std::vector<std::pair<std::string, int>> sizes = {
      {"soprano-saxophone", -2}, {"saxophone", -9}, {"tenor-saxophone", -14}, {"baritone-saxophone", -21}};
  std::set<std::string> names;
  for (const auto& [id, semitones] : sizes) {
    const Instrument& size = own_played(id).instrument;
    INFO(id);
    CHECK(size.transposition.interval.count == semitones);
    CHECK(size.table.size() == saxophone().table.size());
    CHECK(size.rules.size() == saxophone().rules.size());
    names.insert(size.name);
  }
  CHECK(names.size() == sizes.size());
  CHECK(sounds("baritone-saxophone+low-a-saxophone", "A3", with(low, {"L4.low-bflat", "LT.low-a"})));
}

TEST_CASE("a low A key adds one note below and takes none away") {
  const Difference d = between("saxophone", "saxophone+low-a-saxophone");
  CHECK(d.lost.empty());
  CHECK(notes_of(d.gained).contains("A3"));
  CHECK(sounds("saxophone+low-a-saxophone", "A3", with(low, {"L4.low-bflat", "LT.low-a"})));
  CHECK_FALSE(sounds("saxophone+low-a-saxophone", "Bb3", with(low, {"L4.low-bflat", "LT.low-a"})));
  CHECK_FALSE(sounds("saxophone+low-a-saxophone", "A3", with(low, {"LT.low-a"})));  // B-flat and B stand open
}

TEST_CASE("high notes come and go with the saxophone's highest keys") {
  const Difference g = between("saxophone", "saxophone+high-g-saxophone");
  CHECK(g.lost.empty());
  CHECK(notes_of(g.gained) == std::set<std::string>{"G6"});
  const Names palm_f = with(palms, {"L2.palm-f", "R1.high-e"});
  CHECK(sounds("saxophone+high-g-saxophone", "G6", with(palm_f, {"R2.high-g"})));
  CHECK(sounds("saxophone+high-g-saxophone", "G6", with(palm_f, {"R2.high-fsharp", "R2.high-g"})));
  CHECK_FALSE(sounds("saxophone+high-g-saxophone", "F#6", with(palm_f, {"R2.high-fsharp", "R2.high-g"})));
  CHECK(notes_of(between("saxophone", "saxophone+front-f-and-g-saxophone").gained) == std::set<std::string>{"G6"});

  const Difference no_fsharp = between("saxophone", "saxophone+no-high-fsharp-saxophone");
  CHECK(no_fsharp.gained.empty());
  CHECK(notes_of(no_fsharp.lost) == std::set<std::string>{name(chart_spelling(pitch_named("F#6")))});
  CHECK(sounds("saxophone+no-high-fsharp-saxophone", "F#6", {"LT.octave", "L1.front-f", "L2.a", "R1.side-bflat"}));
}

TEST_CASE("a front F key that leaves the B key alone wants the finger on both") {
  const std::string free = "saxophone+free-front-f-saxophone";
  CHECK_FALSE(sounds(free, "F6", {"LT.octave", "L1.front-f", "L2.a"}));
  CHECK(sounds(free, "F6", {"LT.octave", "L1.front-f", "L1.b", "L2.a"}));
  CHECK(sounds(free, "E6", {"LT.octave", "L1.front-f", "L1.b", "L2.a", "L3.g"}));
}

TEST_CASE("two octave keys undo the automatic change between G-sharp and A") {
  const std::string old = "saxophone+two-octave-keys-saxophone";
  CHECK(sounds(old, "G5", with(left_three, {"LT.octave"})));
  CHECK_FALSE(sounds(old, "A5", {"L1.b", "L2.a", "LT.octave"}));
  CHECK(sounds(old, "A5", {"L1.b", "L2.a", "LT.upper-octave"}));
  CHECK_FALSE(sounds(old, "G5", with(left_three, {"LT.upper-octave"})));
  CHECK(rate(old, "G#5", "A5") < 0.8 * rate("saxophone", "G#5", "A5"));
}

TEST_CASE("without tabs on the G-sharp lever the saxophone's low keys give no G-sharp") {
  CHECK(sounds("saxophone+plain-gsharp-saxophone", "G4", with(left_three, {"L4.low-csharp"})));
  for (const char* key : {"L4.low-csharp", "L4.low-b", "L4.low-bflat"}) {
    INFO(key);
    CHECK_FALSE(sounds("saxophone+plain-gsharp-saxophone", "G#4", with(left_three, {key})));
  }
  CHECK(sounds("saxophone+plain-gsharp-saxophone", "B3", with(low, {"L4.low-b"})));
  CHECK(rate("saxophone+plain-gsharp-saxophone", "C#4", "G#4") < rate("saxophone", "C#4", "G#4"));
}

TEST_CASE("the heel of the hand on low C-sharp frees the little finger, where low B holds its cup shut") {
  // US patent 5990399: needs an articulated C-sharp; low C-sharp, B and B-flat then go without sliding.
  const std::string heel = "saxophone+heel-low-csharp-saxophone";
  CHECK(between("saxophone", heel).lost.empty());
  CHECK(sounds(heel, "C#4", with(low, {"L3.heel-csharp"})));
  CHECK(sounds(heel, "B3", with(low, {"L3.heel-csharp", "L4.low-b"})));
  CHECK(sounds(heel, "Bb3", with(low, {"L3.heel-csharp", "L4.low-bflat"})));
  CHECK_FALSE(sounds(heel + "+plain-low-csharp-saxophone", "B3", with(low, {"L3.heel-csharp", "L4.low-b"})));
  for (const char* note : {"B3", "Bb3"}) {
    INFO(note);
    CHECK(rate(heel, note, "C#4") > 1.2 * rate("saxophone", note, "C#4"));
  }
}

TEST_CASE("a thumb key for B-flat leaves the first finger on B") {
  const std::string thumb = "saxophone+left-thumb-bflat-saxophone";
  CHECK(between("saxophone", thumb).lost.empty());
  CHECK(sounds(thumb, "Bb4", {"L1.b", "LT.bflat"}));
  CHECK(sounds(thumb, "Bb5", {"L1.b", "LT.bflat", "LT.octave"}));
  CHECK_FALSE(sounds(thumb, "B4", {"L1.b", "LT.bflat"}));
}

TEST_CASE("a right-hand G-sharp key works the same cup as the left one") {
  const std::string trill = "saxophone+gsharp-trill-saxophone";
  CHECK(between("saxophone", trill).lost.empty());
  CHECK(sounds(trill, "G#4", with(left_three, {"R1.gsharp-trill"})));
  CHECK_FALSE(sounds(trill, "G4", with(left_three, {"R1.gsharp-trill"})));
  CHECK(sounds(trill, "F#4", with(left_three, {"R1.gsharp-trill", "R2.e"})));  // held shut by the E key
}

TEST_CASE("rollers and built-up touches of the saxophone change how fast, not what sounds") {
  for (const char* id : {"table-rollers-saxophone", "palm-key-risers-saxophone", "near-front-f-saxophone"}) {
    INFO(id);
    const Difference d = between("saxophone", "saxophone+" + std::string(id));
    CHECK(d.gained.empty());
    CHECK(d.lost.empty());
  }
  const std::string rollers = "saxophone+table-rollers-saxophone";
  CHECK(little_finger(rollers, "B3", "L4.low-b", "C#4", "L4.low-csharp") <
        little_finger("saxophone", "B3", "L4.low-b", "C#4", "L4.low-csharp"));
  CHECK(little_finger(rollers, "Bb3", "L4.low-bflat", "B3", "L4.low-b") <
        little_finger("saxophone", "Bb3", "L4.low-bflat", "B3", "L4.low-b"));
  // The Instrumentalist, August 2020, calls the trill from low B-flat to B impossible; from B to C only one finger
  // lifts.
  CHECK(rate("saxophone", "Bb3", "B3") < 0.75 * rate("saxophone", "B3", "C4"));
}
