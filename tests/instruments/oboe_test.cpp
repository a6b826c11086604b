// The oboe's mechanism against published fingerings and descriptions of it, and what each of its conversions must gain
// and lose. All of it is derived from the linkages; the table alone would not do.
#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

#include "fingerway/mechanism/candidates.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

using Names = std::vector<std::string>;

Names plus(Names touches, const Names& more) {
  touches.insert(touches.end(), more.begin(), more.end());
  return touches;
}

const Names left = {"L1.plate", "L2.plate", "L3.plate"};
const Names half_left = {"L1.half", "L2.plate", "L3.plate"};
const Names right = {"R1.plate", "R2.plate", "R3.plate"};
const Names six = plus(left, right);
const Names half_six = plus(half_left, right);
const Names forked_f = plus(left, {"R1.plate", "R3.plate"});

/// The fingering as a candidate of the note; nothing where it does not sound it.
std::optional<Candidate> sounded(const std::string& id, const char* note, const Names& touches) {
  const Played& played = own_played(id);
  const Fingering fingering{.pressed = touches_named(played.instrument, touches), .half = {}, .flicked = {}};
  return as_candidate(played.instrument, played.derivation, pitch_named(note), fingering);
}

bool sounds(const std::string& id, const char* note, const Names& touches) {
  return sounded(id, note, touches).has_value();
}

bool sharp(const std::string& id, const char* note, const Names& touches) {
  const auto candidate = sounded(id, note, touches);
  REQUIRE(candidate);
  const auto& traits = own_played(id).instrument.table[candidate->line].traits;
  return std::find(traits.begin(), traits.end(), Trait::sharp) != traits.end();
}

bool stands_open(const std::string& id, const char* pad, const Names& touches) {
  const Played& played = own_played(id);
  const auto found = find_pad(played.instrument, pad);
  REQUIRE(found);
  return !press(played.works, touches_named(played.instrument, touches), {}).closed.contains(*found);
}

Difference difference_of(const std::string& without, const std::string& with) {
  const Played& a = own_played(without);
  const Played& b = own_played(with);
  return difference(a.instrument, a.derivation, b.instrument, b.derivation);
}

/// "F4: L1.plate L2.plate ...", sorted, so that two instruments with touches in another order compare.
std::set<std::string> told(const std::string& id, const std::vector<SoundedFingering>& list) {
  const Instrument& instrument = own_played(id).instrument;
  std::set<std::string> lines;
  for (const SoundedFingering& f : list) {
    std::set<std::string> names;
    for (TouchId touch : f.candidate.fingering.pressed) names.insert(full_name(instrument.touches[touch.index]));
    std::string line = name(chart_spelling(f.pitch)) + ":";
    for (const std::string& n : names) line += " " + n;
    lines.insert(line);
  }
  return lines;
}

std::string told(const char* note, const Names& touches) {
  std::string line = name(chart_spelling(pitch_named(note))) + ":";
  for (const std::string& n : std::set<std::string>(touches.begin(), touches.end())) line += " " + n;
  return line;
}

std::set<std::string> gained(const std::string& without, const std::string& with) {
  return told(with, difference_of(without, with).gained);
}

std::set<std::string> lost(const std::string& without, const std::string& with) {
  return told(without, difference_of(without, with).lost);
}

std::set<std::string> all_lean(const std::string& id) {
  std::vector<SoundedFingering> list;
  for (const auto& [pitch, candidates] : own_played(id).derivation.by_pitch) {
    for (const Candidate& c : candidates) list.push_back({.pitch = pitch, .candidate = c});
  }
  return told(id, list);
}

std::set<std::string> only_in(const std::string& id, const std::string& other) {
  std::set<std::string> lines = all_lean(id);
  for (const std::string& line : all_lean(other)) lines.erase(line);
  return lines;
}

}  // namespace

TEST_CASE("an E-flat scale of two octaves as a former finisher writes it out sounds on the oboe") {
  // test.woodwind.org oboe board, f=10 i=5007 (2006); its open circle for the left first finger read as the half hole.
  CHECK(sounds("oboe", "Eb4", plus(six, {"R4.eflat"})));
  CHECK(sounds("oboe", "F4", forked_f));
  CHECK(sounds("oboe", "F4", plus(forked_f, {"R4.eflat"})));
  CHECK(sounds("oboe", "G4", left));
  CHECK(sounds("oboe", "Ab4", plus(left, {"L4.gsharp"})));
  CHECK(sounds("oboe", "Bb4", {"L1.plate", "L2.plate", "R1.plate"}));
  CHECK(sounds("oboe", "C5", {"L1.plate", "R1.plate"}));
  CHECK(sounds("oboe", "D5", half_six));
  CHECK(sounds("oboe", "Eb5", plus(half_six, {"R4.eflat"})));
  CHECK(sounds("oboe", "F5", plus(forked_f, {"LT.octave-1"})));
  CHECK(sounds("oboe", "G5", plus(left, {"LT.octave-1"})));
  CHECK(sounds("oboe", "Ab5", plus(left, {"LT.octave-1", "L4.gsharp"})));
  CHECK(sounds("oboe", "Bb5", {"L1.plate", "L1.octave-2", "L2.plate", "R1.plate"}));
  CHECK(sounds("oboe", "C6", {"L1.plate", "L1.octave-2", "R1.plate"}));
  CHECK(sounds("oboe", "D6", plus(half_left, {"R2.plate", "R4.low-c"})));
  CHECK(sounds("oboe", "Eb6", plus(half_left, {"L4.gsharp", "R2.plate", "R4.low-c"})));
  // The same page: from A-flat to the forked F and to D the G-sharp key may stay down, for the right first plate shuts
  // it.
  CHECK(sounds("oboe", "F4", plus(forked_f, {"L4.gsharp"})));
  CHECK(sounds("oboe", "D4", plus(six, {"L4.gsharp"})));
}

TEST_CASE("the right first plate frees the small C and B-flat keys, and the left plates hold them shut") {
  // test.woodwind.org oboe board, f=10 i=15199 (2010); The Double Reed vol. 2 no. 1 on problems of the mechanism.
  for (const char* small_key : {"c", "bflat"}) {
    INFO(small_key);
    CHECK_FALSE(stands_open("oboe", small_key, {"L1.plate"}));
    CHECK(stands_open("oboe", small_key, {"L1.plate", "R1.plate"}));
    CHECK_FALSE(stands_open("oboe", small_key, plus(left, {"R1.plate"})));
  }
  CHECK_FALSE(stands_open("oboe", "c", {"L1.plate", "L2.plate", "R1.plate"}));
  CHECK(stands_open("oboe", "bflat", {"L1.plate", "L2.plate", "R1.plate"}));
  // The same article: going from A down to F-sharp, B-flat is heard when the right first finger is there before the
  // left third.
  CHECK(sounds("oboe", "F#4", plus(left, {"R1.plate"})));
  CHECK(sounds("oboe", "Bb4", {"L1.plate", "L2.plate", "R1.plate"}));
}

TEST_CASE("the articulated keys let a little finger rest through the trill") {
  // oboeinsight.com/2008/09/06 and test.woodwind.org oboe board, f=10 i=30419: left D-sharp held while C-sharp is
  // played.
  for (const auto& [csharp, dsharp, hand] : {std::tuple("C#4", "D#4", six), std::tuple("C#5", "D#5", half_six)}) {
    INFO(csharp);
    CHECK(sounds("oboe", dsharp, plus(hand, {"L4.eflat"})));
    CHECK(sounds("oboe", csharp, plus(hand, {"L4.eflat", "R4.low-csharp"})));
  }
  // instrumentcare.info/oboebridge.htm: the bridge from the F-sharp plate presses the G-sharp cup.
  CHECK(sounds("oboe", "F#4", plus(left, {"L4.gsharp", "R1.plate"})));
  CHECK(sounds("oboe", "G#4", plus(left, {"L4.gsharp"})));
  // The left little finger lies on G-sharp and E-flat at once (oboetheoryandprocrastination.blogspot.com/2016/06).
  CHECK(sounds("oboe", "Ab4", plus(left, {"L4.gsharp", "L4.eflat"})));
  CHECK(sounds("oboe", "Eb4", plus(six, {"L4.gsharp", "L4.eflat"})));
}

TEST_CASE("both right-hand A-flat keys do what the left one does, in both octaves and in the high notes") {
  // oboetheoryandprocrastination.blogspot.com/2016/06: all three open the same hole.
  for (const char* key : {"L4.gsharp", "R1.aflat", "R1.aflat-upper"}) {
    INFO(key);
    CHECK(sounds("oboe", "Ab4", plus(left, {key})));
    CHECK(sounds("oboe", "Ab5", plus(left, {"LT.octave-1", key})));
    // Doublereed archive 2003/01: E6 and F6 take the G-sharp and E-flat keys of either hand.
    for (const char* eflat : {"L4.eflat", "R4.eflat"}) {
      CHECK(sounds("oboe", "E6", plus(half_left, {"LT.octave-1", key, eflat, "R2.plate", "R3.plate"})));
      CHECK(sounds("oboe", "F6", {"LT.octave-1", "L1.half", "L2.plate", key, eflat, "R3.plate"}));
    }
  }
}

TEST_CASE("a forked F needs the C pad open, and the second finger shuts its vent") {
  // Doublereed mailing list, July 2003: with the low C key down the fork does not speak.
  CHECK(sounds("oboe", "F4", forked_f));
  CHECK_FALSE(sounds("oboe", "F4", plus(forked_f, {"R4.low-c"})));
  CHECK_FALSE(sounds("oboe", "F4", plus(forked_f, {"R4.low-csharp"})));
  // The Double Reed vol. 2 no. 1: the vent opens under the right third plate unless the second is down.
  CHECK(stands_open("oboe", "forked-f-vent", forked_f));
  CHECK_FALSE(stands_open("oboe", "forked-f-vent", six));
  // Without the third finger it is F-sharp, not F (common practice).
  CHECK_FALSE(sounds("oboe", "F4", plus(left, {"R1.plate"})));
}

TEST_CASE("an overblown note is the twelfth of a low fingering with the second octave key") {
  // oboehelp.com/harmonics-and-color-fingerings.
  const Instrument& oboe = own_played("oboe").instrument;
  const TouchSet side_key = touches_named(oboe, {"L1.octave-2"});
  int checked = 0;
  for (const TableFingering& line : oboe.table) {
    if (line.way != Way::harmonic) continue;
    INFO(name(line.spelling));
    REQUIRE(line.partial_of);
    CHECK(line.fingering.pressed.contains_all(side_key));
    CHECK(line.pitch - *line.partial_of == Semitones(19));
    const Fingering low{.pressed = line.fingering.pressed - side_key, .half = {}, .flicked = {}};
    CHECK(as_candidate(oboe, own_played("oboe").derivation, *line.partial_of, low));
    ++checked;
  }
  CHECK(checked == 5);
}

TEST_CASE("the side octave key takes over from the thumb, unless the keys are separate") {
  // smoketalks.com/octave-key-use-on-the-oboe: on a semi-automatic oboe the thumb may stay down.
  const Names both = {"LT.octave-1", "L1.plate", "L1.octave-2", "L2.plate"};
  CHECK(sounds("oboe", "A5", both));
  CHECK_FALSE(sounds("oboe+separate-octave-keys", "A5", both));
  CHECK(sounds("oboe+separate-octave-keys", "A5", {"L1.plate", "L1.octave-2", "L2.plate"}));
  CHECK(gained("oboe", "oboe+separate-octave-keys").empty());
}

TEST_CASE("left F, forked-F vent and low B-flat make a full oboe of the plain one") {
  const std::string full = "plain-oboe+left-f-key+forked-f-vent+low-b-flat-oboe";
  CHECK(only_in(full, "oboe").empty());
  CHECK(only_in("oboe", full).empty());
  CHECK_FALSE(only_in("oboe", "plain-oboe").empty());
}

TEST_CASE("a left F key gives full Fs without the right third finger and takes nothing away") {
  // oboeinsight.com/2006/07/29/the-f-words: the left F is for notes beside D, E-flat and C-sharp.
  const std::string with = "plain-oboe+left-f-key";
  const auto news = gained("plain-oboe", with);
  CHECK(news.contains(told("F4", plus(left, {"R1.plate", "R2.plate", "L4.f"}))));
  CHECK(news.contains(told("F5", plus(left, {"LT.octave-1", "R1.plate", "R2.plate", "L4.f"}))));
  CHECK(lost("plain-oboe", with).empty());
}

TEST_CASE("the forked-F vent makes the plain fork a good F and one with the E-flat key too high") {
  // oboealli.com on the three Fs; test.woodwind.org oboe board, f=10 i=9224: what the vent is for.
  const auto traits = [](const std::string& id) {
    const auto candidate = sounded(id, "F4", forked_f);
    REQUIRE(candidate);
    return own_played(id).instrument.table[candidate->line].traits;
  };
  const auto has = [](const std::vector<Trait>& list, Trait trait) {
    return std::find(list.begin(), list.end(), trait) != list.end();
  };
  CHECK(has(traits("plain-oboe"), Trait::stuffy));
  CHECK(has(traits("plain-oboe"), Trait::flat));
  CHECK_FALSE(has(traits("plain-oboe+forked-f-vent"), Trait::stuffy));
  CHECK_FALSE(has(traits("plain-oboe+forked-f-vent"), Trait::flat));
  CHECK_FALSE(sharp("plain-oboe", "F4", plus(forked_f, {"R4.eflat"})));
  CHECK(sharp("plain-oboe+forked-f-vent", "F4", plus(forked_f, {"R4.eflat"})));
  CHECK(lost("plain-oboe", "plain-oboe+forked-f-vent").empty());
}

TEST_CASE("a split D ring puts the E of the D-sharp trill in tune and loses no fingering") {
  // test.woodwind.org oboe board, f=10 i=15195 (2010) and Doublereed archive 2003/01: the split ring is for E-flat to
  // E.
  for (const char* key : {"L4.eflat", "R4.eflat"}) {
    const Names low = plus(left, {"R1.plate", "R2.plate", key});
    const Names high = plus(low, {"LT.octave-1"});
    INFO(key);
    CHECK(sharp("oboe", "E4", low));
    CHECK(sharp("oboe", "E5", high));
    CHECK_FALSE(sharp("oboe+split-d-ring", "E4", low));
    CHECK_FALSE(sharp("oboe+split-d-ring", "E5", high));
    // The ring is down with the E-flat key alone, and open without it.
    CHECK_FALSE(stands_open("oboe+split-d-ring", "d-ring", low));
  }
  CHECK(stands_open("oboe+split-d-ring", "d-ring", plus(left, {"R1.plate", "R2.plate"})));
  CHECK(lost("oboe", "oboe+split-d-ring").empty());
}

TEST_CASE("a third octave key gives E6 to G6 a twelfth above A4 to C5") {
  // test.woodwind.org oboe board, f=10 i=29475 (2018): easier E6 and above.
  const auto news = gained("oboe", "oboe+third-octave-key");
  CHECK(news.contains(told("E6", {"LT.octave-3", "L1.plate", "L2.plate"})));
  CHECK(news.contains(told("F6", {"LT.octave-3", "L1.plate", "L2.plate", "R1.plate"})));
  CHECK(news.contains(told("F#6", {"LT.octave-3", "L1.plate"})));
  CHECK(news.contains(told("G6", {"LT.octave-3", "L1.plate", "R1.plate"})));
  CHECK(lost("oboe", "oboe+third-octave-key").empty());
}

TEST_CASE("a B to C link frees the right little finger on low B and loses the long E-flat") {
  // test.woodwind.org oboe board, f=10 i=28528 (2017): what the link is for. The long E-flat needs low B shut and low C
  // open.
  const auto news = gained("oboe", "oboe+low-b-c-link");
  CHECK(news.contains(told("B3", plus(six, {"L4.low-b"}))));
  CHECK(news.contains(told("Bb3", plus(six, {"L4.low-bflat"}))));
  const auto gone = lost("oboe", "oboe+low-b-c-link");
  CHECK(gone.contains(told("Eb6", plus(half_left, {"L4.low-b", "R2.plate", "R3.plate"}))));
}

TEST_CASE("low C-sharp is left to the left hand, to the right third finger's C, or to a held key, as the option says") {
  // A left C-sharp touch (test.woodwind.org oboe board, f=10 i=30006): the right little finger has nothing to do.
  CHECK(gained("oboe", "oboe+left-c-sharp-oboe").contains(told("C#4", plus(six, {"L4.csharp"}))));
  // Over the left C-sharp the right low C key shuts the cup again, so that it alone trills (memory).
  CHECK(sounds("oboe+left-c-sharp-oboe", "C4", plus(six, {"L4.csharp", "R4.low-c"})));
  // The banana key (f=10 i=15472): plate and low C under the right third finger.
  CHECK(gained("oboe", "oboe+banana-key").contains(told("C4", plus(six, {"R3.low-c"}))));
  // Low B shuts the C-sharp cup (f=10 i=10083): B3 with the C-sharp key held; without the link that is no B.
  const Names held = plus(six, {"R4.low-csharp", "L4.low-b"});
  CHECK(sounds("oboe+low-c-sharp-link", "B3", held));
  CHECK_FALSE(sounds("oboe", "B3", held));
}

TEST_CASE("automatic octave keys choose the vent by the left third plate and keep the high F") {
  // smoketalks.com/octave-key-use-on-the-oboe; test.woodwind.org oboe board, f=10 i=30419 on the G-sharp link.
  const std::string automatic = "oboe+automatic-octaves-oboe";
  const Names thumb_a = {"LT.octave-1", "L1.plate", "L2.plate"};
  CHECK(stands_open(automatic, "octave-2", thumb_a));
  CHECK_FALSE(stands_open(automatic, "octave-1", thumb_a));
  CHECK(stands_open(automatic, "octave-1", plus(left, {"LT.octave-1"})));
  CHECK(sounds(automatic, "B5", {"LT.octave-1", "L1.plate"}));
  CHECK(sounds(automatic, "F6", {"LT.octave-1", "L1.half", "L2.plate", "L4.gsharp", "R3.plate", "R4.eflat"}));
  // Fewer high fingerings: the thumb can no longer give G-sharp 6 its lower vent (musikverein-bonn-duisdorf.de).
  CHECK_FALSE(sounds(automatic, "G#6", {"LT.octave-1", "L1.plate", "R1.plate"}));
}

TEST_CASE("a thumb plate gives C and B-flat without the right hand") {
  // test.woodwind.org oboe board, f=10 i=4326 (2006): lifting the thumb frees the small keys.
  const std::string dual = "oboe+thumb-plate-oboe";
  CHECK(sounds(dual, "C5", {"L1.plate"}));
  CHECK(sounds(dual, "Bb4", {"L1.plate", "L2.plate"}));
  CHECK(sounds(dual, "B4", {"LT.thumb-plate", "L1.plate"}));
  CHECK_FALSE(sounds(dual, "B4", {"L1.plate"}));
  // With the thumb down all is as on the conservatoire oboe.
  CHECK(sounds(dual, "C5", {"LT.thumb-plate", "L1.plate", "R1.plate"}));
  CHECK(sounds(dual, "G5", plus(left, {"LT.thumb-plate", "LT.octave-1"})));
}

TEST_CASE("an A-sharp to B trill key lets the right first finger stay down") {
  // Common practice: B4 becomes C5 as soon as the right first finger is down, for it frees the small C key.
  const std::string with = "oboe+a-sharp-to-b-trill-oboe";
  const Names b = {"L1.plate", "L2.asharp-b-trill", "R1.plate"};
  CHECK(stands_open("oboe", "c", {"L1.plate", "R1.plate"}));
  CHECK_FALSE(stands_open(with, "c", b));
  CHECK(sounds(with, "B4", b));
  CHECK(sounds(with, "A#4", plus(b, {"L2.plate"})));
}

TEST_CASE("rollers change no fingering of the oboe") {
  CHECK(gained("oboe", "oboe+little-finger-rollers-oboe").empty());
  CHECK(lost("oboe", "oboe+little-finger-rollers-oboe").empty());
}
