#include <string>

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "musicxml_score.hpp"

using namespace fingerway;
using namespace fingerway::test;

namespace {

std::string ornament(const std::string& inside) { return notations("<ornaments>" + inside + "</ornaments>"); }
std::string slur(const std::string& type) { return notations("<slur type=\"" + type + "\" number=\"1\"/>"); }
std::string wedge(const std::string& type) {
  return "<direction><direction-type><wedge type=\"" + type + "\"/></direction-type></direction>";
}
std::string dynamics(const std::string& sign) {
  return "<direction><direction-type><dynamics><" + sign + "/></dynamics></direction-type></direction>";
}
std::string words(const std::string& text, const std::string& more = {}) {
  return "<direction><direction-type><words>" + text + "</words></direction-type>" + more + "</direction>";
}
std::string key(int fifths) {
  return "<attributes><key><fifths>" + std::to_string(fifths) + "</fifths></key></attributes>";
}
std::string voice(const std::string& number) { return "<voice>" + number + "</voice>"; }
std::string back(int units) { return "<backup><duration>" + std::to_string(units) + "</duration></backup>"; }

/// A note of two quarters with an ornament, in divisions of 2.
Passage ornamented(const std::string& step, const std::string& sign, const ScoreChoice& choice = {}) {
  return parsed(one_measure(note(step, 4, 4, ornament(sign))), choice);
}

std::string degrees(const Passage& passage) {
  std::string list;
  for (const NoteEvent& event : passage.notes) list += std::to_string(static_cast<int>(event.dynamic));
  return list;
}

}  // namespace

TEST_CASE("ornaments are spelled out the way the trade plays them") {
  // Common practice; the signs as MusicXML 4.0 describes them: a mordent goes down, an inverted one up.
  CHECK(names(ornamented("D", "<mordent/>")) == "D4 C4 D4");
  CHECK(times(ornamented("D", "<mordent/>")) == "0+1/8 1/8+1/8 1/4+7/4");
  CHECK(names(ornamented("D", "<inverted-mordent/>")) == "D4 E4 D4");
  CHECK(names(ornamented("D", "<turn/>")) == "E4 D4 C4 D4");
  CHECK(times(ornamented("D", "<turn/>")) == "0+1/8 1/8+1/8 1/4+1/8 3/8+13/8");
  CHECK(names(ornamented("D", "<inverted-turn/>")) == "C4 D4 E4 D4");
  CHECK(names(ornamented("D", "<delayed-turn/>")) == "D4 E4 D4 C4 D4");
  CHECK(times(ornamented("D", "<delayed-turn/>")) == "0+3/2 3/2+1/8 13/8+1/8 7/4+1/8 15/8+1/8");
  CHECK(names(ornamented("D", "<delayed-inverted-turn/>")) == "D4 C4 D4 E4 D4");
  CHECK(names(ornamented("E", "<schleifer/>")) == "C4 D4 E4");
  CHECK(ornamented("D", "<shake/>").notes.front().kind == NoteKind::trill);
  CHECK(remarks(ornamented("D", "<turn/>")) == ": 1 turn is played note above, note, note below, note\n");
}

TEST_CASE("the notes of an ornament belong to its note and are slurred") {
  const Passage passage = parsed(one_measure(
      note("C", 4, 2) + note("D", 4, 4,
                             notations("<ornaments><mordent/></ornaments><articulations><accent/><breath-mark/>"
                                       "</articulations><technical><fingering>1</fingering></technical>"))));
  REQUIRE(passage.notes.size() == 4);
  CHECK(attacks(passage) == "ttss");
  for (std::size_t i = 1; i < 4; ++i) {
    CHECK(passage.notes[i].place.element == 1);
    CHECK(passage.notes[i].part == NotePart::ornament);
  }
  CHECK(passage.notes[0].part == NotePart::plain);
  CHECK(passage.notes[1].signs.accent);
  CHECK_FALSE(passage.notes[3].signs.accent);
  CHECK_FALSE(passage.notes[1].signs.breath_after);
  CHECK(passage.notes[3].signs.breath_after);
  CHECK(passage.notes[1].marked == std::vector<std::string>{"1"});
  CHECK(passage.notes[2].marked.empty());
}

TEST_CASE("an ornament on a short note takes its share of it") {
  // A sixteenth (a quarter of a beat): each short note is a quarter of that.
  const Passage passage = parsed(one_part(measure("1", "<attributes><divisions>4</divisions></attributes>" +
                                                           note("D", 4, 1, ornament("<turn/>")) + note("C", 4, 1))));
  CHECK(times(passage) == "0+1/16 1/16+1/16 1/8+1/16 3/16+1/16 1/4+1/4");
}

TEST_CASE("ornaments follow the key, their accidentals, and those earlier in the measure") {
  const auto names_in = [](const std::string& before, const std::string& step, const std::string& sign) {
    return names(parsed(one_measure(before + note(step, 4, 4, ornament(sign)))));
  };
  CHECK(names_in(key(2), "E", "<turn/>") == "F#4 E4 D4 E4");
  CHECK(names_in(key(-3), "D", "<mordent/>") == "D4 C4 D4");
  CHECK(names_in("", "G", "<mordent/><accidental-mark>sharp</accidental-mark>") == "G4 F#4 G4");
  CHECK(names_in("", "E", "<inverted-mordent/><accidental-mark>sharp</accidental-mark>") == "E4 F#4 E4");
  CHECK(names_in("", "D",
                 "<turn/><accidental-mark placement=\"below\">sharp</accidental-mark>"
                 "<accidental-mark placement=\"above\">flat</accidental-mark>") == "Eb4 D4 C#4 D4");
  CHECK(names_in("", "D", "<turn/><accidental-mark>flat</accidental-mark><accidental-mark>sharp</accidental-mark>") ==
        "Eb4 D4 C#4 D4");
  // F sharp stood before in the measure; in another octave it says nothing.
  CHECK(names_in(note("F#", 4, 2), "E", "<inverted-mordent/>") == "F#4 E4 F#4 E4");
  CHECK(names_in(note("F#", 3, 2), "E", "<inverted-mordent/>") == "F#3 E4 F4 E4");
  CHECK(names_in(note("F#", 4, 2), "G", "<mordent/>") == "F#4 G4 F#4 G4");
  const Passage trill = parsed(one_measure(note("Bb", 3, 2) + note("A", 3, 2, ornament("<trill-mark/>"))));
  CHECK(name(trill.notes[1].other.value()) == "Bb3");
  const Passage later = parsed(one_part(measure("1", two_to_a_quarter + note("Bb", 3, 8)) +
                                        measure("2", note("A", 3, 8, ornament("<trill-mark/>")))));
  CHECK(name(later.notes[1].other.value()) == "B3");
}

TEST_CASE("main notes alone are planned when asked for") {
  const Passage passage = ornamented("D", "<turn/>", {.ornaments = Ornaments::main_note});
  CHECK(names(passage) == "D4");
  CHECK(passage.notes[0].part == NotePart::plain);
  CHECK(remarks(passage) == ": 1 turn is planned as the main note alone\n");
}

TEST_CASE("a wavy line trills the notes under it, tied or not") {
  const std::string start = "<trill-mark/><wavy-line type=\"start\"/>";
  const std::string stop = ornament("<wavy-line type=\"stop\"/>");
  const Passage tied = parsed(one_measure(note("D", 4, 2, "<tie type=\"start\"/>" + ornament(start)) +
                                          note("D", 4, 2, "<tie type=\"stop\"/>" + stop) + note("E", 4, 2)));
  REQUIRE(tied.notes.size() == 2);
  CHECK(tied.notes[0].kind == NoteKind::trill);
  CHECK(tied.notes[1].kind == NoteKind::plain);
  const Passage chain = parsed(
      one_measure(note("D", 4, 2, ornament("<wavy-line type=\"start\"/>")) + note("E", 4, 2) + note("F", 4, 2, stop)));
  CHECK(chain.notes[0].kind == NoteKind::trill);
  CHECK(name(chain.notes[1].other.value()) == "F4");
  CHECK(chain.notes[2].kind == NoteKind::plain);
  CHECK(remarks(chain) == "measure 1: the wavy line of a trill ends at this note: it is planned without a trill\n");
  const Passage open = parsed(one_measure(note("D", 4, 2, ornament(start)) + note("E", 4, 2)));
  CHECK(open.notes[1].kind == NoteKind::plain);
}

TEST_CASE("a hairpin moves evenly to the mark at its end, or by one degree") {
  // 3 is p, 4 mp, 5 mf, 6 f.
  CHECK(degrees(parsed(one_measure(dynamics("p") + wedge("crescendo") + note("C", 3, 2) + note("D", 3, 2) +
                                   note("E", 3, 2) + wedge("stop") + dynamics("f") + note("F", 3, 2)))) == "3456");
  CHECK(degrees(parsed(one_measure(dynamics("f") + wedge("diminuendo") + note("C", 3, 2) + note("D", 3, 2) +
                                   wedge("stop") + note("E", 3, 2)))) == "665");
  CHECK(degrees(parsed(one_measure(wedge("crescendo") + note("C", 3, 2) + note("D", 3, 2) + wedge("stop")))) == "00");
  CHECK(degrees(parsed(one_measure(dynamics("p") + wedge("crescendo") + note("C", 3, 2) + note("D", 3, 2)))) == "33");
}

TEST_CASE("a slur that starts or ends in another voice is followed as far as it lies in this one") {
  const Passage out = parsed(one_measure(
      note("C", 3, 2, voice("1") + slur("start")) + note("D", 3, 2, voice("1")) + note("E", 3, 2, voice("1")) +
      back(6) + "<forward><duration>3</duration></forward>" + note("C", 2, 1, voice("2") + slur("stop"))));
  CHECK(attacks(out) == "tst");
  const Passage in = parsed(one_measure(note("C", 3, 2, voice("1")) + note("D", 3, 2, voice("1")) +
                                        note("E", 3, 2, voice("1") + slur("stop")) + back(6) +
                                        note("C", 2, 1, voice("2") + slur("start"))));
  CHECK(attacks(in) == "tss");
  CHECK(remarks(in) == ": voice '2' is not read (1 note)\n");
  // Slurs that are whole in their own voice have nothing to do with ours, whatever their number.
  const Passage own = parsed(
      one_measure(note("C", 3, 2, voice("1")) + note("D", 3, 2, voice("1")) + note("E", 3, 2, voice("1")) + back(6) +
                  note("C", 2, 2, voice("2") + slur("start")) + note("C", 2, 1, voice("2") + slur("stop"))));
  CHECK(attacks(own) == "ttt");
}

TEST_CASE("a note value that equals another changes the tempo by their ratio") {
  const std::string modulation =
      "<direction><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit>quarter</beat-unit>"
      "<beat-unit-dot/></metronome></direction-type></direction>";
  const Passage passage = parsed(one_measure("<sound tempo=\"60\"/>" + note("C", 3, 4) + modulation + note("D", 3, 4)));
  CHECK(passage.tempo.tempo_at(ScoreTime(1)).value() == Approx(60.0));
  CHECK(passage.tempo.tempo_at(ScoreTime(3)).value() == Approx(90.0));
  const Passage unknown = parsed(one_measure(note("C", 3, 4) + modulation + note("D", 3, 4)));
  CHECK(unknown.tempo.tempo_at(ScoreTime(1)).value() == Approx(100.0));
  CHECK(unknown.tempo.tempo_at(ScoreTime(3)).value() == Approx(150.0));
  CHECK(unknown.tempo.changes().back().source == TempoSource::assumed);
}

TEST_CASE("tempo words without a number and swing are told") {
  CHECK(remarks(parsed(one_measure(words("Allegro moderato") + note("C", 3, 2)))) ==
        "measure 1: the tempo words 'Allegro moderato' state no number: the tempo stays as it is\n");
  CHECK(remarks(parsed(one_measure(words("poco rit.") + note("C", 3, 2)))) ==
        "measure 1: the tempo words 'poco rit.' state no number: the tempo stays as it is\n");
  CHECK(remarks(parsed(one_measure(words("Allegro", "<sound tempo=\"120\"/>") + note("C", 3, 2)))).empty());
  CHECK(remarks(parsed(one_measure(words("dolce") + note("C", 3, 2)))).empty());
  CHECK(remarks(parsed(
            one_measure("<sound><swing><first>2</first><second>1</second></swing></sound>" + note("C", 3, 2)))) ==
        "measure 1: swing is not applied: notes are planned as written\n");
}

TEST_CASE("a grace note without a slash takes its note value, at most half of its neighbour") {
  const auto unslashed = [](const std::string& type) {
    return "<note><grace/><pitch><step>D</step><octave>3</octave></pitch><type>" + type + "</type></note>";
  };
  CHECK(times(parsed(one_measure(unslashed("eighth") + note("C", 3, 4)))) == "0+1/2 1/2+3/2");
  CHECK(times(parsed(one_measure(unslashed("half") + note("C", 3, 4)))) == "0+1 1+1");
  CHECK(times(parsed(one_measure(unslashed("32nd") + note("C", 3, 4)))) == "0+1/8 1/8+15/8");
  CHECK(times(parsed(one_measure(grace("D", 3) + note("C", 3, 4)))) == "0+1/4 1/4+7/4");
}

TEST_CASE("fingerings in the file are kept as they are") {
  const Passage passage = parsed(
      one_measure(note("C", 3, 2,
                       "<tie type=\"start\"/>" + notations("<technical><fingering>1 2</fingering><other-technical>vent"
                                                           "</other-technical></technical>")) +
                  note("C", 3, 2,
                       "<tie type=\"stop\"/>" + notations("<technical><hole><hole-type>open</hole-type><hole-closed>yes"
                                                          "</hole-closed></hole></technical>")) +
                  note("D", 3, 2)));
  CHECK(passage.notes[0].marked == std::vector<std::string>{"1 2", "vent", "open"});
  CHECK(passage.notes[1].marked.empty());
}

TEST_CASE("what cannot be fingered as it stands is planned as its note and told") {
  const auto told = [](const std::string& inside) {
    return remarks(parsed(one_measure(note("C", 3, 2, notations(inside)))));
  };
  CHECK(told("<glissando type=\"start\"/>") == "measure 1: a glissando is planned as plain notes\n");
  CHECK(told("<articulations><falloff/></articulations>") ==
        "measure 1: a scoop, plop, doit or falloff is left out: the note is planned alone\n");
  CHECK(told("<technical><harmonic/></technical>") ==
        "measure 1: a harmonic is planned as the note it is written as\n");
  CHECK(told("<technical><other-technical>multiphonic</other-technical></technical>") ==
        "measure 1: a multiphonic is planned as its written note\n");
}

TEST_CASE("an octave line changes nothing: pitches are those played") {
  const std::string eight =
      "<direction><direction-type><octave-shift type=\"down\" size=\"8\"/></direction-type></direction>";
  CHECK(names(parsed(one_measure(eight + note("C", 6, 2)))) == "C6");
}

TEST_CASE("tuplets that nobody could count are refused") {
  const auto tuplet = [](const std::string& actual, const std::string& normal) {
    return one_measure(note("C", 3, 2,
                            "<time-modification><actual-notes>" + actual + "</actual-notes><normal-notes>" + normal +
                                "</normal-notes></time-modification>"));
  };
  CHECK(names(parsed(tuplet("3", "2"))) == "C3");
  CHECK_THROWS_WITH(
      parsed(tuplet("0", "2")),
      "score.musicxml: part P1 measure 1: a tuplet of '0' notes in the time of '2' is not one of up to 1000");
  CHECK_THROWS_AS(parsed(tuplet("3", "-2")), InputError);
  CHECK_THROWS_AS(parsed(tuplet("99999999999", "2")), InputError);
}

TEST_CASE("a concert score says so, and keeps only its octaves") {
  const std::string transposed =
      "<attributes><divisions>2</divisions><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic>"
      "<octave-change>-1</octave-change></transpose></attributes>" +
      note("C", 5, 2);
  const Passage written = parsed(one_part(measure("1", transposed)));
  CHECK(written.sense == PitchSense::written);
  CHECK(written.transposition == Transposition{Semitones(-14)});
  const Passage told = parsed(one_part(measure("1", transposed)), {.concert = ConcertPitch::concert});
  CHECK(told.sense == PitchSense::sounding);
  CHECK(told.transposition == Transposition{Semitones(-12)});
  const std::string concert =
      "<score-partwise><defaults><concert-score/></defaults><part-list/><part id=\"P1\">" +
      measure("1",
              "<attributes><divisions>2</divisions><for-part><part-transpose><diatonic>-5</diatonic><chromatic>-9"
              "</chromatic></part-transpose></for-part></attributes>" +
                  note("Eb", 4, 2)) +
      "</part></score-partwise>";
  const Passage passage = parsed(concert);
  CHECK(passage.sense == PitchSense::sounding);
  CHECK(passage.transposed_part == Transposition{Semitones(-9)});
  CHECK(names(as_read_on(passage, *passage.transposed_part)) == "C5");
}

TEST_CASE("transpositions of old and of several staves are read") {
  const auto interval = [](const std::string& inside) {
    const Passage passage = parsed(one_part(measure(
        "1", "<attributes><divisions>2</divisions>" + inside + "</attributes>" + note("C", 4, 2, "<staff>2</staff>"))));
    return passage.transposition.interval.count;
  };
  CHECK(interval("<transpose><diatonic>-2</diatonic></transpose>") == -3);
  CHECK(interval("<transpose><octave-change>1</octave-change></transpose>") == 12);
  CHECK(interval("<transpose number=\"1\"><chromatic>-2</chromatic></transpose>"
                 "<transpose number=\"2\"><chromatic>-9</chromatic></transpose>") == -9);
}

TEST_CASE("a remark that many measures share is told for the first and counted") {
  std::string measures;
  for (int i = 1; i <= 100; ++i) {
    measures += measure(std::to_string(i),
                        (i == 1 ? two_to_a_quarter : "") + note("C", 3, 8, notations("<glissando type=\"start\"/>")));
  }
  const Passage passage = parsed(one_part(measures));
  REQUIRE(passage.remarks.size() == 6);
  CHECK(passage.remarks[5].within == "measure 6");
  CHECK(passage.remarks[5].what == "a glissando is planned as plain notes (and in 94 more measures)");
}
