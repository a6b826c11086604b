#include <chrono>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "musicxml_score.hpp"

using namespace fingerway;
using namespace fingerway::test;

TEST_CASE("notes and rests are read in order with exact times") {
  const Passage passage = parsed(one_measure(note("C", 3, 2) + rest(1) + note("Db", 3, 1) + note("F#", 2, 4)));
  CHECK(names(passage) == "C3 Db3 F#2");
  CHECK(times(passage) == "0+1 3/2+1/2 2+2");
  CHECK(passage.notes[1].pitch == WrittenPitch(49));
  CHECK(passage.part_id == "P1");
  CHECK(passage.part_name == "Bassoon");
  CHECK(passage.voice == "1");
  CHECK(passage.remarks.empty());
}

TEST_CASE("elements are counted with rests, so that marks find their note again") {
  const Passage passage = parsed(one_measure(rest(2) + note("C", 3, 2) + rest(2) + note("D", 3, 2)));
  CHECK(passage.notes[0].place.element == 1);
  CHECK(passage.notes[1].place.element == 3);
}

TEST_CASE("a tied note is one event") {
  const std::string start = "<tie type=\"start\"/>" + notations("<tied type=\"start\"/>");
  const std::string both = "<tie type=\"stop\"/><tie type=\"start\"/>";
  const std::string stop = "<tie type=\"stop\"/>" + notations("<tied type=\"stop\"/>");
  const Passage passage =
      parsed(one_part(measure("1", two_to_a_quarter + note("C", 3, 2, start)) +
                      measure("2", note("C", 3, 4, both) + note("C", 3, 1, stop) + note("D", 3, 1))));
  CHECK(names(passage) == "C3 D3");
  CHECK(times(passage) == "0+7/2 7/2+1/2");
  CHECK(passage.notes[0].place.tied == std::vector<std::uint32_t>{1, 2});
  CHECK(passage.notes[0].place.measure == 0);
  CHECK(passage.notes[1].place.measure == 1);
}

TEST_CASE("a tie between spellings of one pitch joins them, one to another pitch is told and left out") {
  const std::string start = "<tie type=\"start\"/>";
  const std::string stop = "<tie type=\"stop\"/>";
  CHECK(names(parsed(one_measure(note("C#", 3, 2, start) + note("Db", 3, 2, stop)))) == "C#3");
  const Passage broken = parsed(one_measure(note("C", 3, 2, start) + note("D", 3, 2, stop)));
  CHECK(names(broken) == "C3 D3");
  CHECK(remarks(broken) ==
        "measure 1: a tie begins here that leads to no note of the same pitch: it is left out\n"
        "measure 1: a tie ends here that never began: the note is planned with a start of its own\n");
  CHECK(names(parsed(one_measure(note("C", 3, 2, start) + rest(2) + note("C", 3, 2, stop)))) == "C3 C3");
}

TEST_CASE("tuplets and changing divisions are exact") {
  const Passage passage = parsed(one_part(
      measure("1", "<attributes><divisions>3</divisions></attributes>" + note("C", 3, 1) + note("D", 3, 1) +
                       note("E", 3, 1) + "<attributes><divisions>7</divisions></attributes>" + note("F", 3, 1)) +
      measure("2", "<attributes><divisions>0.5</divisions></attributes>" + note("G", 3, 1))));
  CHECK(times(passage) == "0+1/3 1/3+1/3 2/3+1/3 1+1/7 8/7+2");
}

TEST_CASE("measures keep their printed names, and a pickup is as short as it is") {
  const Passage passage = parsed(one_part("<measure number=\"0\" implicit=\"yes\">" + two_to_a_quarter +
                                          note("C", 3, 2) + "</measure>" + measure("1", note("D", 3, 8)) +
                                          "<measure number=\"2\" text=\"2a\">" + note("E", 3, 8) + "</measure>"));
  REQUIRE(passage.measures.size() == 3);
  CHECK(passage.measures[0].name == "0");
  CHECK(passage.measures[0].length == ScoreTime(1));
  CHECK(passage.measures[1].start == ScoreTime(1));
  CHECK(passage.measures[2].name == "2a");
  CHECK(beat_name(passage, passage.notes[0]) == "4");
}

TEST_CASE("time and key signatures hold until they change") {
  const std::string six_eight =
      "<attributes><divisions>2</divisions><key><fifths>-5</fifths></key><time><beats>6</beats><beat-type>8</beat-type>"
      "</time></attributes>";
  const std::string mixed =
      "<attributes><time><beats>3+2</beats><beat-type>8</beat-type><beats>1</beats><beat-type>4</beat-type></time>"
      "</attributes>";
  const Passage passage = parsed(one_part(measure("1", six_eight + note("C", 3, 6)) + measure("2", note("C", 3, 6)) +
                                          measure("3", mixed + note("C", 3, 7)) + measure("4", "")));
  CHECK(passage.measures[1].beats == 6);
  CHECK(passage.measures[1].beat_type == 8);
  CHECK(passage.measures[1].key_fifths == -5);
  CHECK(passage.measures[2].beats == 7);
  CHECK(passage.measures[2].beat_type == 8);
  // A measure with nothing in it is a full one of silence.
  CHECK(passage.measures[3].length == ScoreTime(7, 2));
}

TEST_CASE("a transposing part keeps the written notes and says how it sounds") {
  const std::string attributes =
      "<attributes><divisions>2</divisions><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic>"
      "<octave-change>-1</octave-change></transpose></attributes>";
  const Passage passage = parsed(one_part(measure("1", attributes + note("C", 5, 2))));
  CHECK(names(passage) == "C5");
  CHECK(passage.transposition == Transposition{Semitones(-14)});
}

TEST_CASE("of several voices the chosen one is read") {
  const std::string two_voices =
      one_measure(note("C", 3, 4, "<voice>1</voice>") + "<backup><duration>4</duration></backup>" +
                  note("E", 2, 2, "<voice>2</voice>") + "<forward><duration>1</duration></forward>" +
                  note("F", 2, 1, "<voice>2</voice>"));
  const Passage first = parsed(two_voices, {"", "1"});
  CHECK(names(first) == "C3");
  CHECK(remarks(first) == ": voice '2' is not read (2 notes)\n");
  // Unless one is asked for, that of most notes.
  const Passage second = parsed(two_voices);
  CHECK(remarks(second) == ": voice '1' is not read (1 note)\n");
  CHECK(times(second) == "0+1 3/2+1/2");
  CHECK(second.notes[1].place.element == 2);
}

TEST_CASE("a part is chosen by id or by name") {
  const std::string two_parts =
      "<score-partwise><part-list><score-part id=\"P1\"><part-name>Flute</part-name></score-part><score-part id=\"P2\">"
      "<part-name>Bassoon</part-name></score-part></part-list><part id=\"P1\">" +
      measure("1", two_to_a_quarter + note("C", 5, 2)) + "</part><part id=\"P2\">" +
      measure("1", two_to_a_quarter + note("C", 2, 2)) + "</part></score-partwise>";
  CHECK(names(parsed(two_parts, {"P2", ""})) == "C2");
  CHECK(names(parsed(two_parts, {"Flute", ""})) == "C5");
  CHECK(parsed(two_parts, {"Flute", ""}).part_id == "P1");
}

TEST_CASE("grace notes take their time from the note they lead to") {
  const Passage passage = parsed(one_measure(note("C", 3, 2) + grace("D", 3) + note("E", 3, 2)));
  CHECK(times(passage) == "0+1 1+1/4 5/4+3/4");
  CHECK(passage.notes[1].grace);
  CHECK_FALSE(passage.notes[2].grace);
}

TEST_CASE("a group of grace notes takes at most half of its neighbour") {
  const Passage passage =
      parsed(one_measure(note("C", 3, 2) + grace("D", 3) + grace("E", 3) + grace("F", 3) + note("G", 3, 1)));
  CHECK(times(passage) == "0+1 1+1/12 13/12+1/12 7/6+1/12 5/4+1/4");
}

TEST_CASE("grace notes that close a measure take their time from the note before") {
  const Passage passage = parsed(one_part(measure("1", two_to_a_quarter + note("C", 3, 2) + grace("D", 3)) +
                                          measure("2", grace("F", 3) + note("E", 3, 2))));
  CHECK(names(passage) == "C3 D3 F3 E3");
  CHECK(times(passage) == "0+3/4 3/4+1/4 1+1/4 5/4+3/4");
}

TEST_CASE("grace notes before a rest or told to come early take their time from the note before") {
  CHECK(times(parsed(one_measure(note("C", 3, 2) + grace("D", 3) + rest(2)))) == "0+3/4 3/4+1/4");
  CHECK(times(parsed(one_measure(note("C", 3, 2) + grace("D", 3, "steal-time-previous=\"20\"") + note("E", 3, 2)))) ==
        "0+3/4 3/4+1/4 1+1");
}

TEST_CASE("a grace note may open a passage") {
  CHECK(times(parsed(one_measure(grace("D", 3) + note("E", 3, 2)))) == "0+1/4 1/4+3/4");
  CHECK(times(parsed(one_measure(grace("D", 3) + rest(2) + note("E", 3, 2)))) == "0+1/4 1+1");
}

TEST_CASE("a grace note tied to its main note is one event that is no grace note") {
  const std::string tied_grace =
      "<note><grace/><pitch><step>E</step><octave>3</octave></pitch><tie type=\"start\"/></note>";
  const Passage passage = parsed(one_measure(tied_grace + note("E", 3, 2, "<tie type=\"stop\"/>")));
  CHECK(times(passage) == "0+1");
  CHECK_FALSE(passage.notes[0].grace);
}

TEST_CASE("cue notes are left out and told") {
  const std::string cue = "<note><cue/><pitch><step>D</step><octave>4</octave></pitch><duration>2</duration></note>";
  const Passage passage = parsed(one_measure(cue + note("C", 3, 2)));
  CHECK(times(passage) == "1+1");
  CHECK(passage.notes[0].place.element == 1);
  CHECK(remarks(passage) == ": 1 cue note is not planned\n");
}

TEST_CASE("a quarter tone is planned as the nearest note and told") {
  const auto altered = [](const std::string& alter) {
    return parsed(one_measure("<note><pitch><step>D</step><alter>" + alter +
                              "</alter><octave>3</octave></pitch><duration>2</duration></note>"));
  };
  CHECK(names(altered("0.5")) == "D3");
  CHECK(names(altered("-1.5")) == "Db3");
  CHECK(names(altered("0.75")) == "D#3");
  CHECK(names(altered("-2")) == "Dbb3");
  CHECK(remarks(altered("-1.5")) == "measure 1: a note between two semitones is planned as the nearest one, Db3\n");
  CHECK(altered("1.0").remarks.empty());
}

TEST_CASE("repeats are read once and told where that is asked for") {
  const std::string text =
      one_measure(note("C", 3, 2) + "<barline location=\"right\"><repeat direction=\"backward\"/></barline>");
  const Passage passage = parsed(text, {.order = PlayOrder::as_written});
  CHECK(names(passage) == "C3");
  CHECK(remarks(passage) == ": repeats and jumps are read once, as written\n");
  CHECK(names(parsed(text)) == "C3 C3");
}

TEST_CASE("titles come from the work and the movement, on one line") {
  const std::string body =
      "<part-list><score-part id=\"P1\"><part-name>x</part-name></score-part></part-list>"
      "<part id=\"P1\">" +
      measure("1", two_to_a_quarter + note("C", 3, 2)) + "</part>";
  CHECK(parsed("<score-partwise><work><work-title> A &amp;&#10;B </work-title></work>" + body + "</score-partwise>")
            .title == "A & B");
  CHECK(parsed("<score-partwise><movement-title>II</movement-title>" + body + "</score-partwise>").title == "II");
  CHECK(parsed("<score-partwise><work><work-title>S</work-title></work><movement-title>II</movement-title>" + body +
               "</score-partwise>")
            .title == "S: II");
}

TEST_CASE("comments, a document type and character data are read over") {
  const std::string text =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?><!DOCTYPE score-partwise PUBLIC \"-//x//DTD MusicXML 4.0 "
      "Partwise//EN\" "
      "\"http://127.0.0.1:9/partwise.dtd\"><!-- hello -->" +
      one_measure(
          "<note><pitch><step><![CDATA[C]]></step><octave><!-- low -->3</octave></pitch>"
          "<duration> 2 </duration></note>");
  CHECK(times(parsed(text)) == "0+1");
  CHECK(times(parsed("\xEF\xBB\xBF" + text)) == "0+1");
}

TEST_CASE("a score in two-byte characters is read") {
  const std::string narrow = "<?xml version=\"1.0\" encoding=\"UTF-16\"?>" + one_measure(note("C", 3, 2));
  std::string wide = "\xFF\xFE";
  for (const char c : narrow) {
    wide += c;
    wide += '\0';
  }
  CHECK(names(parsed(wide)) == "C3");
}

TEST_CASE("time to read grows no faster than the score") {
  const auto seconds_for = [](int measures) {
    std::string text;
    const std::string slurred = note("C", 3, 1, notations("<slur type=\"start\" number=\"1\"/>")) +
                                note("D", 3, 1, notations("<slur type=\"stop\" number=\"1\"/>"));
    for (int i = 1; i <= measures; ++i) {
      text += measure(std::to_string(i), (i == 1 ? two_to_a_quarter : "") + slurred + slurred + slurred + slurred);
    }
    const std::string score = one_part(text);
    const auto start = std::chrono::steady_clock::now();
    const Passage passage = parsed(score);
    REQUIRE(passage.notes.size() == static_cast<std::size_t>(measures) * 8);
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  };
  const double small = seconds_for(1000);
  const double large = seconds_for(16000);
  // Sixteen times the notes; a quadratic reader would take 256 times as long.
  CHECK(large < 80.0 * (small + 0.002));
}
