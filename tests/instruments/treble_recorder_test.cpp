// The treble recorder's derived chart against two published texts on its fingering, and what a bell key brings.
// A hole is named by its number, 0 the thumb; a slash in the sources is a half-shut thumb hole.
#include <catch2/catch.hpp>

#include <algorithm>

#include "fingerway/mechanism/candidates.hpp"
#include "fingerway/plan/plan.hpp"
#include "fingerway/plan/trills.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

const Played& recorder() { return own_played("treble-recorder"); }

/// "0123 56" as touches.
TouchSet holes(const std::string& numbers) {
  static const char* const names[] = {"LT.hole", "L1.hole", "L2.hole", "L3.hole",
                                      "R1.hole", "R2.hole", "R3.hole", "R4.hole"};
  TouchSet set;
  for (char c : numbers) {
    if (c >= '0' && c <= '7') set.insert(touch_named(recorder().instrument, names[c - '0']));
  }
  return set;
}

/// With the holes of `half` half shut.
std::optional<Candidate> way_to(const char* note, const std::string& shut, const std::string& half = "") {
  const Fingering fingering{.pressed = holes(shut) | holes(half), .half = holes(half), .flicked = {}};
  return as_candidate(recorder().instrument, recorder().derivation, pitch_named(note), fingering);
}

Fingering first_line(const char* note) {
  const auto& table = recorder().instrument.table;
  const auto found = std::ranges::find_if(table, [&](const TableFingering& l) { return l.pitch == pitch_named(note); });
  REQUIRE(found != table.end());
  return found->fingering;
}

TouchSet moving(const char* from, const char* to) {
  const Trill trill = best_trill(recorder(), pitch_named(from), pitch_named(to));
  REQUIRE(trill.best);
  return moving_touches(*trill.best);
}

}  // namespace

TEST_CASE("the treble recorder has eight holes under eight fingers, reads at pitch and goes from F4 to G6") {
  const Instrument& instrument = recorder().instrument;
  CHECK(instrument.transposition == Transposition{});
  CHECK(instrument.lowest == pitch_named("F4"));
  CHECK(instrument.highest == pitch_named("G6"));
  CHECK(instrument.touches.size() == 8);
  for (Finger finger : {Finger::L4, Finger::RT}) CHECK(touches_of(instrument, finger).empty());
  for (const Rule& rule : instrument.rules)
    CHECK((rule.when.size() == 1 && rule.closes.size() == 1 && rule.opens.empty()));
}

TEST_CASE("the treble recorder's fingerings are those of an online method") {
  // B. Blood, recorder method online: treble lessons 6, 7, 17, 20, 21, 27; descant lessons 11, 19, 23, a fourth higher
  // here.
  struct Lesson {
    const char* note;
    const char* shut;
    const char* half;
  };
  for (const Lesson& l :
       {Lesson{"F4", "01234567", ""}, Lesson{"Bb4", "0123467", ""}, Lesson{"C#5", "01245", ""},
        Lesson{"C#5", "01245", "6"}, Lesson{"A5", "12345", "0"}, Lesson{"A5", "123457", ""}, Lesson{"B5", "1235", "0"},
        Lesson{"C6", "123", "0"}, Lesson{"C#6", "124", "0"}, Lesson{"Eb6", "1256", "0"}, Lesson{"Eb6", "12567", "0"},
        Lesson{"G6", "1346", "0"}, Lesson{"G6", "13467", "0"}}) {
    INFO(l.note << " " << l.shut << " half " << l.half);
    CHECK(way_to(l.note, l.shut, l.half));
  }
}

TEST_CASE("from A5 to D6 the thumb is pinched on the low fingering, less a finger where that is forked") {
  // The same, lesson 21: middle B-flat, B and C-sharp are the low ones with one finger taken away.
  for (const auto& [low, high, less] :
       {std::tuple{"A4", "A5", ""}, std::tuple{"Bb4", "Bb5", "7"}, std::tuple{"B4", "B5", "6"},
        std::tuple{"C5", "C6", ""}, std::tuple{"C#5", "C#6", "5"}, std::tuple{"D5", "D6", ""}}) {
    INFO(high);
    const Fingering f = first_line(high);
    CHECK(f.half == holes("0"));
    CHECK(f.pressed == first_line(low).pressed - holes(less));
  }
}

TEST_CASE("holes shut below the first open one pull a recorder's note down") {
  // Common practice: cross fingering. Each is the note a semitone above with more holes shut.
  for (const auto& [upper, lower, added] :
       {std::tuple{"C5", "B4", "56"}, std::tuple{"D5", "C#5", "45"}, std::tuple{"F#5", "F5", "2"}}) {
    INFO(lower);
    const TouchSet base = std::string(upper) == "F#5" ? holes("0") : first_line(upper).pressed;
    const Fingering forked{.pressed = base | holes(added), .half = {}, .flicked = {}};
    CHECK(as_candidate(recorder().instrument, recorder().derivation, pitch_named(lower), forked));
    CHECK_FALSE(as_candidate(recorder().instrument, recorder().derivation, pitch_named(upper), forked));
  }
}

TEST_CASE("trills that the usual fingerings make clumsy go with one finger on the other ones") {
  // recorderhomepage.net/technique/fingering, the first and the second octave.
  CHECK(moving("E5", "F5") == holes("3"));
  CHECK(moving("Eb5", "F5") == holes("1"));
  CHECK(moving("E5", "F#5") == holes("1"));
  CHECK(moving("G5", "A5") == holes("5"));
}

TEST_CASE("in the run F, E-flat, D, E-flat, F the fork of E-flat stays and one finger at a time moves round it") {
  // recorderhomepage.net, the first octave: F as 0 3 4 and D as 0 1 3 4 5 and half 6, invaluable in this very run.
  NoteRow row;
  row.each = ScoreTime(1, 4);
  row.tempo = Qpm(110);
  const Plan plan = plan_passage(recorder(), passage_of({"F5", "Eb5", "D5", "Eb5", "F5"}, row), {}).front();
  const TouchSet fork = holes("034");
  for (const PlannedNote& note : plan.notes) CHECK(note.candidate->fingering.pressed.contains_all(fork));
  CHECK(plan.notes[2].candidate->fingering.half == holes("6"));
}

TEST_CASE("a bell key gives high F-sharp with the fingering of G, and is the only way to it in tune") {
  // B. Blood, treble lesson 26: as G with the bell shut. The third-octave page: all others are sharp.
  const Played& fitted = own_played("treble-recorder+bell-key-treble-recorder");
  const Difference d = difference(recorder().instrument, recorder().derivation, fitted.instrument, fitted.derivation);
  CHECK(d.lost.empty());
  // Where the end of the bell does not matter the key may be held as well; that is no new fingering.
  std::vector<SoundedFingering> gained = d.gained;
  std::erase_if(gained, [](const SoundedFingering& f) { return !f.candidate.spare.empty(); });
  REQUIRE(gained.size() == 1);
  CHECK(gained[0].pitch == pitch_named("F#6"));
  Fingering g = first_line("G6");
  CHECK(gained[0].candidate.fingering.half == g.half);
  g.pressed.insert(touch_named(fitted.instrument, "R4.bell"));
  CHECK(gained[0].candidate.fingering.pressed == g.pressed);
  for (const TableFingering& line : recorder().instrument.table) {
    if (line.pitch != pitch_named("F#6")) continue;
    const bool sharp = std::ranges::find(line.traits, Trait::sharp) != line.traits.end();
    CHECK((sharp || line.standing == Standing::trill_only));
  }
}
