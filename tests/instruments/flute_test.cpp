// What the flute's table and linkages say together, against published charts and texts: what must sound, what must not,
// and what each conversion gains and loses. Everything is pressed, nothing is read off the table.
#include <catch2/catch.hpp>

#include <algorithm>
#include <set>
#include <sstream>

#include "fingerway/mechanism/candidates.hpp"
#include "fingerway/plan/trills.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

constexpr const char* left_hand = "LT.b L1.c L2.a L3.g ";
constexpr const char* full_d = "LT.b L1.c L2.a L3.g R1.f R2.e R3.d ";
constexpr const char* vented_d = "LT.b L2.a L3.g R1.f R2.e R3.d ";

/// Touches in one text, as a chart writes them.
TouchSet touches(const Played& flute, const std::string& text) {
  std::istringstream words(text);
  TouchSet set;
  for (std::string word; words >> word;) set.insert(touch_named(flute.instrument, word));
  return set;
}

/// True when these touches, and no others, give the note.
bool sounds(const Played& flute, const char* note, const std::string& text) {
  const Fingering fingering{.pressed = touches(flute, text), .half = {}, .flicked = {}};
  return as_candidate(flute.instrument, flute.derivation, pitch_named(note), fingering).has_value();
}

bool open(const Played& flute, const char* pad, const std::string& text) {
  const PadStates states = press(flute.works, touches(flute, text), {});
  const auto id = find_pad(flute.instrument, pad);
  REQUIRE(id);
  return !states.closed.contains(*id);
}

std::set<TouchSet> sets_of(const std::vector<SoundedFingering>& list, const char* note) {
  std::set<TouchSet> sets;
  for (const SoundedFingering& f : list) {
    if (f.pitch == pitch_named(note)) sets.insert(f.candidate.fingering.pressed);
  }
  return sets;
}

Difference from_stock(const Played& converted) {
  const Played& stock = own_played("flute");
  return difference(stock.instrument, stock.derivation, converted.instrument, converted.derivation);
}

double rate(const Played& flute, const char* from, const char* to) {
  const Trill trill = best_trill(flute, pitch_named(from), pitch_named(to));
  REQUIRE(trill.best);
  return trill.best->rate.value();
}

/// A trill of a chart: touches held, touches that move; they sound the second note unless `moving_gives_lower`.
struct ChartTrill {
  const char* from;
  const char* to;
  const char* hold;
  const char* move;
};

void check_trill(const Played& flute, const ChartTrill& trill) {
  INFO(trill.from << " to " << trill.to << ": hold " << trill.hold << ", move " << trill.move);
  const std::string held = trill.hold;
  const std::string both = held + " " + trill.move;
  const bool up = sounds(flute, trill.from, held) && sounds(flute, trill.to, both);
  const bool down = sounds(flute, trill.from, both) && sounds(flute, trill.to, held);
  CHECK((up || down));
}

}  // namespace

TEST_CASE("the flute sounds every note of a teacher's published chart with that chart's touches") {
  // github.com/flaminghakama/lessons, ly/exercises/flute/fingering-chart.ly: C4 to C7, the first fingering of each
  // note.
  const Played& flute = own_played("flute");
  const std::vector<std::pair<const char*, std::string>> chart = {
      {"C4", std::string(full_d) + "R4.low-c"},
      {"C#4", std::string(full_d) + "R4.low-csharp"},
      {"D4", full_d},
      {"D#4", std::string(full_d) + "R4.eflat"},
      {"E4", std::string(left_hand) + "R1.f R2.e R4.eflat"},
      {"F4", std::string(left_hand) + "R1.f R4.eflat"},
      {"F#4", std::string(left_hand) + "R3.d R4.eflat"},
      {"G4", std::string(left_hand) + "R4.eflat"},
      {"G#4", std::string(left_hand) + "L4.gsharp R4.eflat"},
      {"A4", "LT.b L1.c L2.a R4.eflat"},
      {"A#4", "LT.b L1.c R1.f R4.eflat"},
      {"B4", "LT.b L1.c R4.eflat"},
      {"C5", "L1.c R4.eflat"},
      {"C#5", "R4.eflat"},
      {"D5", vented_d},
      {"D#5", std::string(vented_d) + "R4.eflat"},
      {"C#6", "R4.eflat"},
      {"D6", "LT.b L2.a L3.g R4.eflat"},
      {"D#6", std::string(full_d) + "L4.gsharp R4.eflat"},
      {"E6", "LT.b L1.c L2.a R1.f R2.e R4.eflat"},
      {"F6", "LT.b L1.c L3.g R1.f R4.eflat"},
      {"F#6", "LT.b L1.c L3.g R3.d R4.eflat"},
      {"G6", "L1.c L2.a L3.g R4.eflat"},
      {"G#6", "L2.a L3.g L4.gsharp R4.eflat"},
      {"A6", "LT.b L2.a R1.f R4.eflat"},
      {"A#6", "LT.b R1.f R2.d-trill R4.eflat"},
      {"B6", "LT.b L1.c L3.g R3.dsharp-trill R4.eflat"},
      {"C7", "L1.c L2.a L3.g L4.gsharp R1.f"}};
  for (const auto& [note, pressed] : chart) {
    INFO(note << ": " << pressed);
    CHECK(sounds(flute, note, pressed));
  }
  // The same chart fingers E5 to C6 as an octave lower.
  for (int key = pitch_named("E4").key; key <= pitch_named("C5").key; ++key) {
    const WrittenPitch low(key);
    const Candidate& standard = flute.derivation.of(low).front();
    INFO(name(chart_spelling(low)) << ": " << names_of(flute.instrument, standard.fingering.pressed));
    CHECK(as_candidate(flute.instrument, flute.derivation, low + Semitones(12), standard.fingering));
  }
}

TEST_CASE("both fingerings of each charted trill of the flute sound their notes") {
  // Common practice, many trill charts; C5-D5 and C#5-D#5: drcatesflutetips.wordpress.com, on trills (2016); D6-E6: the
  // page on A4 of phys.unsw.edu.au/music/flute; F6-G6: herszbaum.com on the thumb trill.
  const std::vector<ChartTrill> trills = {{"C#4", "D4", full_d, "R4.low-csharp"},
                                          {"D4", "D#4", full_d, "R4.eflat"},
                                          {"D4", "E4", "LT.b L1.c L2.a L3.g R1.f R2.e", "R3.d"},
                                          {"D#4", "F4", "LT.b L1.c L2.a L3.g R1.f R4.eflat", "R2.e R3.d"},
                                          {"E4", "F#4", "LT.b L1.c L2.a L3.g R2.e R4.eflat", "R1.f"},
                                          {"F4", "F#4", "LT.b L1.c L2.a L3.g R3.d R4.eflat", "R1.f"},
                                          {"F4", "G4", "LT.b L1.c L2.a L3.g R4.eflat", "R1.f"},
                                          {"F#4", "G#4", "LT.b L1.c L2.a L3.g R3.d R4.eflat", "L4.gsharp"},
                                          {"G#4", "A4", "LT.b L1.c L2.a L4.gsharp R4.eflat", "L3.g"},
                                          {"G#4", "A#4", "LT.bflat L1.c L4.gsharp R4.eflat", "L2.a L3.g"},
                                          {"A4", "A#4", "LT.bflat L1.c R4.eflat", "L2.a"},
                                          {"A4", "B4", "LT.b L1.c R4.eflat", "L2.a"},
                                          {"A#4", "B4", "LT.b L1.c R4.eflat", "R1.bflat-lever"},
                                          {"A#4", "C5", "L1.c R4.eflat", "LT.bflat"},
                                          {"B4", "C5", "L1.c R4.eflat", "LT.b"},
                                          {"B4", "C#5", "R4.eflat", "LT.b L1.c"},
                                          {"C5", "C#5", "R4.eflat", "L1.c"},
                                          {"C5", "D5", "L1.c R4.eflat", "R2.d-trill"},
                                          {"C#5", "D5", "R4.eflat", "R2.d-trill"},
                                          {"C#5", "D#5", "R4.eflat", "R3.dsharp-trill"},
                                          {"D5", "E5", "LT.b L2.a L3.g R1.f R2.e", "R3.d"},
                                          {"E5", "F#5", "LT.b L1.c L2.a L3.g R2.e R4.eflat", "R1.f"},
                                          {"G#5", "A5", "LT.b L1.c L2.a L4.gsharp R4.eflat", "L3.g"},
                                          {"G#5", "A#5", "LT.bflat L1.c L4.gsharp R4.eflat", "L2.a L3.g"},
                                          {"B5", "C6", "L1.c R4.eflat", "LT.b"},
                                          {"C6", "D6", "L1.c R4.eflat", "R2.d-trill"},
                                          {"C#6", "D6", "R4.eflat", "R2.d-trill"},
                                          {"D6", "D#6", "LT.b L2.a L3.g R4.eflat", "L4.gsharp"},
                                          {"D6", "E6", "LT.b L1.c L2.a R4.eflat", "L3.g"},
                                          {"F6", "G6", "L1.c L3.g R1.f R4.eflat", "LT.b"},
                                          {"F#6", "G6", "L1.c L3.g R3.d R4.eflat", "LT.b"},
                                          {"G6", "A6", "L1.c L2.a L3.g R4.eflat", "R2.d-trill R3.dsharp-trill"}};
  for (const ChartTrill& trill : trills) check_trill(own_played("flute"), trill);
}

TEST_CASE("only the right index finger's cup takes the B-flat plate along") {
  // larrykrantz.com/bbf.htm; Appendix A of a handbook on multiphonics (scribd.com/document/453259373).
  const Played& flute = own_played("flute");
  for (const char* touch : {"R1.f", "R1.bflat-lever"}) {
    INFO(touch);
    CHECK(sounds(flute, "A#4", std::string("LT.b L1.c R4.eflat ") + touch));
    CHECK_FALSE(sounds(flute, "B4", std::string("LT.b L1.c R4.eflat ") + touch));
  }
  for (const char* touch : {"R2.e", "R3.d"}) {
    INFO(touch);
    CHECK(sounds(flute, "B4", std::string("LT.b L1.c R4.eflat ") + touch));
    CHECK_FALSE(sounds(flute, "A#4", std::string("LT.b L1.c R4.eflat ") + touch));
  }
}

TEST_CASE("the thumb may stay on the B-flat lever but for B natural and high F-sharp") {
  // bandermeer.com/flutecourse: not for B natural nor F#6; skyeflutemusic.com on the ways to B-flat says the same of
  // F#6.
  const Played& flute = own_played("flute");
  CHECK(sounds(flute, "F6", "LT.bflat L1.c L3.g R1.f R4.eflat"));
  CHECK(sounds(flute, "G4", "LT.bflat L1.c L2.a L3.g R4.eflat"));
  CHECK(sounds(flute, "A5", "LT.bflat L1.c L2.a R4.eflat"));
  CHECK(sounds(flute, "D4", "LT.bflat L1.c L2.a L3.g R1.f R2.e R3.d"));
  const TouchSet lever = touches(flute, "LT.bflat");
  const auto never_with_lever = [&](const char* note) {
    for (const Candidate& c : flute.derivation.of(pitch_named(note))) {
      // Overblown partials of a lower note are fingered as that note.
      if (flute.instrument.table[c.line].way == Way::harmonic) continue;
      INFO(note << ": " << names_of(flute.instrument, c.fingering.pressed));
      CHECK_FALSE(c.fingering.pressed.intersects(lever));
    }
  };
  for (const char* note : {"B4", "B5", "F#6", "B6"}) never_with_lever(note);
}

TEST_CASE("the E-flat key is shut for D and open for E-flat, and a forgotten one spoils E") {
  // drcatesflutetips.wordpress.com, common fingering mistakes (2014); a teacher's list of commonly fudged fingerings.
  const Played& flute = own_played("flute");
  CHECK_FALSE(sounds(flute, "D4", std::string(full_d) + "R4.eflat"));
  CHECK_FALSE(sounds(flute, "D5", std::string(vented_d) + "R4.eflat"));
  CHECK_FALSE(sounds(flute, "D#4", full_d));
  const auto dull =
      as_candidate(flute.instrument, flute.derivation, pitch_named("E4"),
                   Fingering{.pressed = touches(flute, "LT.b L1.c L2.a L3.g R1.f R2.e"), .half = {}, .flicked = {}});
  REQUIRE(dull);
  const auto& traits = flute.instrument.table[dull->line].traits;
  CHECK(std::find(traits.begin(), traits.end(), Trait::flat) != traits.end());
}

TEST_CASE("the left index vents D5, and with it down only a harmonic is left") {
  // bandworld.org, ten things every band director should know about flutes; dr Cate as above: "often judged wrong".
  const Played& flute = own_played("flute");
  CHECK(open(flute, "small-csharp", vented_d));
  for (const auto& [note, more] : {std::pair("D5", ""), std::pair("D#5", "R4.eflat")}) {
    const Fingering down{.pressed = touches(flute, std::string(full_d) + more), .half = {}, .flicked = {}};
    const auto c = as_candidate(flute.instrument, flute.derivation, pitch_named(note), down);
    REQUIRE(c);
    CHECK(flute.instrument.table[c->line].way == Way::harmonic);
    CHECK(flute.instrument.table[c->line].partial == 2);
  }
}

TEST_CASE("the G-sharp key isn't articulated: held below G-sharp it leaks, held above it does no harm") {
  // Common practice; flutes.com/open-g-sharp on the closed system. On a saxophone or clarinet it could stay down.
  const Played& flute = own_played("flute");
  for (const char* note : {"G4", "F4", "E4", "D4", "G5", "F5"}) {
    const TouchSet gsharp = touches(flute, "L4.gsharp");
    for (const Candidate& c : flute.derivation.of(pitch_named(note))) {
      INFO(note << ": " << names_of(flute.instrument, c.fingering.pressed));
      CHECK_FALSE(may_stay_down(flute.instrument, flute.derivation, pitch_named(note), c).intersects(gsharp));
    }
  }
  CHECK(sounds(flute, "A4", "LT.b L1.c L2.a L4.gsharp R4.eflat"));
  CHECK(sounds(flute, "B4", "LT.b L1.c L4.gsharp R4.eflat"));
}

TEST_CASE("high E has two open holes on the closed G-sharp flute and one with a split E") {
  // fwseattle.com/the-e-controversy; a repairer's post on double venting (forum.saxontheweb.net, t-7013).
  const Played& stock = own_played("flute");
  const Played& split = own_played("flute+split-e");
  const std::string high_e = "LT.b L1.c L2.a R1.f R2.e R4.eflat";
  CHECK(open(stock, "upper-g-cup", high_e));
  CHECK(open(stock, "lower-g-cup", high_e));
  CHECK(open(split, "upper-g-cup", high_e));
  CHECK_FALSE(open(split, "lower-g-cup", high_e));
  CHECK(sounds(split, "E6", high_e));
  // Every fingering of the stock table still sounds, and A with the E cup down, its lower G hole now shut, is lost.
  const Difference d = from_stock(split);
  for (const SoundedFingering& lost : d.lost) {
    INFO(name(chart_spelling(lost.pitch)) << ": " << names_of(stock.instrument, lost.candidate.fingering.pressed));
    CHECK(lost.candidate.origin == Origin::derived);
    CHECK(lost.candidate.fingering.pressed.intersects(touches(stock, "R2.e")));
  }
  CHECK(sounds(stock, "A4", "LT.b L1.c L2.a R2.e R4.eflat"));
  CHECK_FALSE(sounds(split, "A4", "LT.b L1.c L2.a R2.e R4.eflat"));
}

TEST_CASE("a C-sharp trill key gives one-finger trills to C-sharp and the high ones, and takes nothing away") {
  // flutesandflutists.com/articles/the-csharp-trill-key; nugentflutes.com/c-trill; a booklet on the key (1984) on
  // tremolos.
  const Played& stock = own_played("flute");
  const Played& keyed = own_played("flute+csharp-trill-key");
  CHECK(from_stock(keyed).lost.empty());
  const std::vector<ChartTrill> trills = {
      {"B4", "C#5", "LT.b L1.c R4.eflat", "R1.csharp-trill"},
      {"C5", "C#5", "L1.c R4.eflat", "R1.csharp-trill"},
      {"B5", "C#6", "LT.b L1.c R4.eflat", "R1.csharp-trill"},
      {"F#6", "G#6", "LT.b L1.c L3.g R3.d R4.eflat", "R1.csharp-trill"},
      {"G6", "G#6", "L1.c L2.a L3.g R4.eflat", "R1.csharp-trill"},
      {"G6", "A6", "L1.c L2.a L3.g R4.eflat", "R1.csharp-trill R3.dsharp-trill"},
      {"G#6", "A#6", "L2.a L3.g L4.gsharp R4.eflat", "R1.csharp-trill R2.d-trill R3.dsharp-trill"},
      {"G4", "C#5", "LT.b L1.c L2.a L3.g R4.eflat", "R1.csharp-trill"},
      {"G#4", "C#5", "LT.b L1.c L2.a L3.g L4.gsharp R4.eflat", "R1.csharp-trill"},
      {"A#4", "D5", "LT.bflat L1.c R4.eflat", "R1.csharp-trill R2.d-trill"}};
  for (const ChartTrill& trill : trills) check_trill(keyed, trill);
  // The booklet: no easy way to these tremolos without the key.
  for (const auto& [from, to] : {std::pair("G4", "C#5"), std::pair("G#4", "C#5"), std::pair("G#6", "A#6")}) {
    INFO(from << " to " << to);
    CHECK(rate(keyed, from, to) > rate(stock, from, to) * 1.1);
  }
}

TEST_CASE("a B foot adds low B, keeps everything, and its tab shuts the low B hole alone") {
  // Common practice; en.wikipedia.org/wiki/Gizmo_key on the tab.
  const Played& foot = own_played("flute+b-foot");
  const Difference d = from_stock(foot);
  CHECK(d.lost.empty());
  CHECK(sets_of(d.gained, "B3").contains(touches(foot, std::string(full_d) + "R4.low-b")));
  CHECK_FALSE(open(foot, "foot-b", "R4.high-c-tab"));
  CHECK(open(foot, "foot-c", "R4.high-c-tab"));
  CHECK(open(foot, "foot-csharp", "R4.high-c-tab"));
  // The roller carries the whole chain.
  for (const char* pad : {"foot-b", "foot-c", "foot-csharp"}) CHECK_FALSE(open(foot, pad, "R4.low-b"));
  CHECK(sounds(foot, "C7", "L1.c L2.a L3.g L4.gsharp R1.f R4.high-c-tab"));
}

TEST_CASE("on an open G-sharp flute the left little finger goes down for G and below, and up for G-sharp") {
  // topwind.com on the open G-sharp; flutes.com/open-g-sharp.
  const Played& flute = own_played("flute+open-g-sharp");
  const TouchSet little = touches(flute, "L4.gsharp");
  for (const char* note : {"C4", "C#4", "D4", "D#4", "E4", "F4", "F#4", "G4", "E5", "F5", "G5", "F6", "F#6", "D7"}) {
    REQUIRE_FALSE(flute.derivation.of(pitch_named(note)).empty());
    for (const Candidate& c : flute.derivation.of(pitch_named(note))) {
      INFO(note << ": " << names_of(flute.instrument, c.fingering.pressed));
      // The third partial of B-flat or B needs no ring finger, so no little finger either.
      if (!c.fingering.pressed.intersects(touches(flute, "L3.g"))) continue;
      CHECK(c.fingering.pressed.contains_all(little));
    }
  }
  CHECK(sounds(flute, "G#4", "LT.b L1.c L2.a L3.g R4.eflat"));
  CHECK_FALSE(sounds(flute, "G#4", "LT.b L1.c L2.a L3.g L4.gsharp R4.eflat"));
  // High E is vented by one hole without a split E (fwseattle.com/the-e-controversy).
  const std::string high_e = "LT.b L1.c L2.a L4.gsharp R1.f R2.e R4.eflat";
  CHECK(sounds(flute, "E6", high_e));
  CHECK(open(flute, "upper-g-cup", high_e));
  CHECK_FALSE(open(flute, "lower-g-cup", high_e));
}

TEST_CASE("a D-sharp roller changes no fingering and eases the slides to the low keys") {
  // flute4u.com glossary of options; a flutist's pages on composing: the little finger goes sideways.
  const Played& stock = own_played("flute");
  const Played& roller = own_played("flute+d-sharp-roller");
  const Difference d = from_stock(roller);
  CHECK(d.gained.empty());
  CHECK(d.lost.empty());
  CHECK(rate(roller, "C4", "D#4") > rate(stock, "C4", "D#4"));
  CHECK(rate(roller, "C#4", "D#4") > rate(stock, "C#4", "D#4"));
}

TEST_CASE("a left-hand low C-sharp lever takes the slide out of the low trills") {
  // drcatesflutetips.wordpress.com, lining up the flute's foot joint (2020).
  const Played& stock = own_played("flute");
  const Played& lever = own_played("flute+left-hand-low-csharp");
  const Difference d = from_stock(lever);
  CHECK(d.lost.empty());
  CHECK(sets_of(d.gained, "C#4").contains(touches(lever, std::string(full_d) + "L4.low-csharp")));
  // C4 with C-sharp held: the roller shuts both cups, so only the right little finger moves, up and down.
  CHECK(sounds(lever, "C4", std::string(full_d) + "L4.low-csharp R4.low-c"));
  CHECK(rate(lever, "C4", "C#4") > rate(stock, "C4", "C#4") * 1.2);
  CHECK(rate(lever, "C#4", "D#4") > rate(stock, "C#4", "D#4") * 1.1);
}
