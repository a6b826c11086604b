#include <string>

#include <catch2/catch.hpp>

#include "musicxml_score.hpp"
#include "read/musicxml_pitch.hpp"

using namespace fingerway;
using namespace fingerway::test;

namespace {

std::string slur(const std::string& type, int number = 1) {
  return "<slur type=\"" + type + "\" number=\"" + std::to_string(number) + "\"/>";
}

std::string metronome(const std::string& inside, const std::string& sound = {}) {
  return "<direction><direction-type><metronome>" + inside + "</metronome></direction-type>" + sound + "</direction>";
}

std::string dynamics(const std::string& sign) {
  return "<direction><direction-type><dynamics><" + sign + "/></dynamics></direction-type></direction>";
}

const std::string trill = notations("<ornaments><trill-mark/></ornaments>");

std::string trill_with(const std::string& accidental) {
  return notations("<ornaments><trill-mark/><accidental-mark>" + accidental + "</accidental-mark></ornaments>");
}

}  // namespace

TEST_CASE("every note after the first under a slur is slurred") {
  const Passage passage = parsed(one_measure(note("C", 3, 2, notations(slur("start"))) + note("D", 3, 2) +
                                             note("E", 3, 2, notations(slur("stop"))) + note("F", 3, 2)));
  CHECK(attacks(passage) == "tsst");
}

TEST_CASE("a slur that ends where the next begins joins both") {
  const Passage passage = parsed(one_measure(note("C", 3, 2, notations(slur("start"))) +
                                             note("D", 3, 2, notations(slur("start") + slur("stop"))) +
                                             note("E", 3, 2, notations(slur("stop"))) + note("F", 3, 2)));
  CHECK(attacks(passage) == "tsst");
  CHECK(passage.remarks.empty());
}

TEST_CASE("slurs nest and cross by number") {
  const Passage passage = parsed(one_measure(
      note("C", 3, 1, notations(slur("start", 1))) + note("D", 3, 1, notations(slur("start", 2))) +
      note("E", 3, 1, notations(slur("stop", 1))) + note("F", 3, 1, notations(slur("stop", 2))) + note("G", 3, 1)));
  CHECK(attacks(passage) == "tssst");
}

TEST_CASE("a slur goes on across a tie and a bar line") {
  const Passage passage = parsed(
      one_part(measure("1", two_to_a_quarter + note("C", 3, 2, "<tie type=\"start\"/>" + notations(slur("start")))) +
               measure("2", note("C", 3, 2, "<tie type=\"stop\"/>") + note("D", 3, 2, notations(slur("stop"))))));
  CHECK(names(passage) == "C3 D3");
  CHECK(attacks(passage) == "ts");
}

TEST_CASE("a slur that never ends slurs nothing and is told, and so is one that never began") {
  const Passage open = parsed(one_measure(note("C", 3, 2, notations(slur("start"))) + note("D", 3, 2)));
  CHECK(attacks(open) == "tt");
  CHECK(remarks(open) == "measure 1: a slur begins here that never ends: it is left out\n");
  const Passage stray = parsed(one_measure(note("C", 3, 2) + note("D", 3, 2, notations(slur("stop")))));
  CHECK(attacks(stray) == "tt");
  CHECK(remarks(stray) == "measure 1: a slur ends here that never began\n");
}

TEST_CASE("dots and dashes under a slur are tongued, an accent is not") {
  const auto second = [](const std::string& sign) {
    return attacks(parsed(one_measure(note("C", 3, 2, notations(slur("start"))) +
                                      note("D", 3, 2, notations("<articulations><" + sign + "/></articulations>")) +
                                      note("E", 3, 2, notations(slur("stop"))))));
  };
  CHECK(second("staccato") == "tts");
  CHECK(second("detached-legato") == "tts");
  CHECK(second("tenuto") == "tts");
  CHECK(second("accent") == "tss");
}

TEST_CASE("a note after a rest is tongued even under a slur") {
  CHECK(attacks(parsed(one_measure(note("C", 3, 2, notations(slur("start"))) + rest(2) +
                                   note("D", 3, 2, notations(slur("stop")))))) == "tt");
}

TEST_CASE("signs are read") {
  const Passage passage = parsed(one_measure(
      note("C", 3, 2, notations("<articulations><staccato/><accent/><breath-mark/></articulations><fermata/>")) +
      note("D", 3, 2, notations("<articulations><tenuto/></articulations>"))));
  CHECK(passage.notes[0].signs == Signs{true, false, true, true, true});
  CHECK(passage.notes[1].signs == Signs{false, true, false, false, false});
}

TEST_CASE("a dynamic holds from where it stands until the next") {
  const Passage passage = parsed(one_measure(
      note("C", 3, 1) + dynamics("pp") + note("D", 3, 1) + dynamics("sfz") + note("E", 3, 1) +
      note("F", 3, 1, notations("<dynamics><ff/></dynamics>")) + note("G", 3, 1) + dynamics("fp") + note("A", 3, 1)));
  REQUIRE(passage.notes.size() == 6);
  CHECK(passage.notes[0].dynamic == Dynamic::unmarked);
  CHECK(passage.notes[1].dynamic == Dynamic::pp);
  CHECK(passage.notes[2].dynamic == Dynamic::pp);
  CHECK(passage.notes[3].dynamic == Dynamic::ff);
  CHECK(passage.notes[4].dynamic == Dynamic::ff);
  CHECK(passage.notes[5].dynamic == Dynamic::p);
}

TEST_CASE("a trill goes to the next note of the key, or where its accidental says") {
  const std::string five_flats = "<attributes><key><fifths>-5</fifths></key></attributes>";
  const auto upper = [](const std::string& attributes, const std::string& step, const std::string& marks) {
    const Passage passage = parsed(one_measure(attributes + note(step, 2, 4, marks)));
    CHECK(passage.notes[0].kind == NoteKind::trill);
    return name(passage.notes[0].other.value());
  };
  CHECK(upper(five_flats, "Db", trill) == "Eb2");
  CHECK(upper(five_flats, "Db", trill_with("natural")) == "E2");
  CHECK(upper("", "D", trill) == "E2");
  CHECK(upper("", "D", trill_with("flat")) == "Eb2");
  CHECK(upper("", "E", trill_with("sharp")) == "F#2");
  CHECK(upper("", "B", trill) == "C3");
  CHECK(upper("", "G", trill) == "A2");
}

TEST_CASE("a trill always goes up by a semitone or a tone unless its accidental says otherwise") {
  // E sharp in C major: F natural is the same key, so F sharp is meant (common practice).
  CHECK(name(note_above({'E', 1, 4}, 0, {})) == "F#4");
  CHECK(name(note_above({'A', -1, 4}, 0, {})) == "Bb4");
  CHECK(name(note_above({'F', 0, 4}, 2, {})) == "G4");
  CHECK(name(note_above({'E', 0, 4}, 1, {})) == "F#4");
  // Nine sharps: F and C are doubled.
  CHECK(name(note_above({'E', 1, 4}, 9, {})) == "F##4");
  CHECK(name(note_above({'F', 2, 4}, 9, {})) == "G#4");
  CHECK(name(note_below({'C', 0, 4}, 0, {})) == "B3");
  CHECK(name(note_below({'C', 0, 4}, -2, {})) == "Bb3");
  CHECK(name(note_below({'A', 0, 4}, 8, {})) == "G#4");
  CHECK(name(note_above({'A', 0, 4}, -1, {})) == "Bb4");
  CHECK(name(note_above({'A', -1, 4}, 0, {0, {}})) == "B4");
}

TEST_CASE("an accidental that trills do not know is told") {
  const Passage passage = parsed(one_measure(note("D", 3, 4, trill_with("quarter-sharp"))));
  CHECK(name(passage.notes[0].other.value()) == "E3");
  CHECK(remarks(passage) ==
        "measure 1: the accidental 'quarter-sharp' of a trill is not read: the key signature is followed\n");
}

TEST_CASE("a tremolo between two notes is one event") {
  const auto half = [](const std::string& type) {
    return notations("<ornaments><tremolo type=\"" + type + "\">3</tremolo></ornaments>");
  };
  const Passage passage =
      parsed(one_measure(note("C", 3, 2, half("start")) + note("Eb", 3, 2, half("stop")) + note("F", 3, 2)));
  REQUIRE(passage.notes.size() == 2);
  CHECK(passage.notes[0].kind == NoteKind::tremolo);
  CHECK(name(passage.notes[0].other.value()) == "Eb3");
  CHECK(times(passage) == "0+2 2+1");
  CHECK(passage.notes[0].place.tied == std::vector<std::uint32_t>{1});
  const Passage broken = parsed(one_measure(note("C", 3, 2, half("start")) + note("Eb", 3, 2)));
  CHECK(names(broken) == "C3 Eb3");
  CHECK(broken.notes[0].kind == NoteKind::plain);
  CHECK(remarks(broken) == "measure 1: a tremolo has no second note: its note is planned alone\n");
}

TEST_CASE("ornaments that are not spelled out are told") {
  const auto told = [](const std::string& ornament) {
    return remarks(parsed(one_measure(note("C", 3, 2, notations("<ornaments>" + ornament + "</ornaments>")))));
  };
  CHECK(told("<haydn/>") == "measure 1: an ornament (haydn) is not spelled out: its note is planned alone\n");
  CHECK(told("<tremolo>3</tremolo>") == "measure 1: a tremolo on one note is planned as a plain note\n");
  CHECK(told("<trill-mark/>").empty());
}

TEST_CASE("a metronome mark counts its own beat in quarters") {
  const auto tempo = [](const std::string& marks) { return parsed(one_measure(marks + note("C", 3, 2))).tempo; };
  const auto first = [&](const std::string& marks) { return tempo(marks).changes().front(); };
  const TempoChange quarter = first(metronome("<beat-unit>quarter</beat-unit><per-minute>92</per-minute>"));
  CHECK(quarter.tempo.value() == Approx(92.0));
  CHECK(quarter.source == TempoSource::metronome_mark);
  CHECK(first(metronome("<beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>60</per-minute>")).tempo.value() ==
        Approx(90.0));
  CHECK(first(metronome("<beat-unit>half</beat-unit><beat-unit-dot/><beat-unit-dot/><per-minute>10</per-minute>"))
            .tempo.value() == Approx(35.0));
  CHECK(first(metronome("<beat-unit>half</beat-unit><beat-unit-tied><beat-unit>eighth</beat-unit></beat-unit-tied>"
                        "<per-minute>40</per-minute>"))
            .tempo.value() == Approx(100.0));
  CHECK(first("<sound tempo=\"72.5\"/>").tempo.value() == Approx(72.5));
  CHECK(first("<sound tempo=\"72.5\"/>").source == TempoSource::sound_element);
  CHECK(first("").source == TempoSource::assumed);
}

TEST_CASE("the printed tempo wins over the number for playing back") {
  const Passage passage = parsed(
      one_measure(metronome("<beat-unit>quarter</beat-unit><per-minute>92</per-minute>", "<sound tempo=\"100\"/>") +
                  note("C", 3, 2)));
  REQUIRE(passage.tempo.changes().size() == 1);
  CHECK(passage.tempo.changes().front().tempo == Qpm(92.0));
}

TEST_CASE("a tempo in words and numbers is read as its first number and told") {
  const Passage passage = parsed(
      one_measure(metronome("<beat-unit>quarter</beat-unit><per-minute>ca. 88-92</per-minute>") + note("C", 3, 2)));
  CHECK(passage.tempo.changes().front().tempo == Qpm(88.0));
  CHECK(remarks(passage) == "measure 1: the metronome mark 'ca. 88-92' is read as its first number\n");
  const Passage none =
      parsed(one_measure(metronome("<beat-unit>quarter</beat-unit>") + "<sound tempo=\"0\"/>" + note("C", 3, 2)));
  CHECK(none.tempo.changes().front().source == TempoSource::assumed);
  CHECK(remarks(none) ==
        "measure 1: a metronome mark that states no beats a minute is left out\n"
        "measure 1: a tempo outside 1 to 4000 quarter notes a minute is left out\n");
}

TEST_CASE("tempo changes within a measure stand where they are written") {
  const Passage passage =
      parsed(one_measure("<sound tempo=\"60\"/>" + note("C", 3, 4) + "<sound tempo=\"120\"/>" + note("D", 3, 4)));
  REQUIRE(passage.tempo.changes().size() == 2);
  CHECK(passage.tempo.changes()[1].at == ScoreTime(2));
  CHECK(passage.tempo.at(ScoreTime(4)).count() == Approx(3000.0));
}

TEST_CASE("a part without tempo marks takes those of another part") {
  const std::string two_parts =
      "<score-partwise><part-list/><part id=\"P1\">" + measure("1", two_to_a_quarter + note("C", 5, 8)) +
      measure("2", note("C", 5, 4) + "<sound tempo=\"80\"/>" + note("C", 5, 4)) + "</part><part id=\"P2\">" +
      measure("1", two_to_a_quarter + note("C", 2, 8)) + measure("2", note("D", 2, 8)) + "</part></score-partwise>";
  const Passage passage = parsed(two_parts, {"P2", ""});
  REQUIRE(passage.tempo.changes().size() == 1);
  CHECK(passage.tempo.changes().front().at == ScoreTime(6));
  CHECK(passage.tempo.changes().front().tempo == Qpm(80.0));
}
