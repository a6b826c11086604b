#include <filesystem>
#include <string>

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "musicxml_score.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;
using namespace fingerway::test;

namespace {

/// The messages of the fault that reading gives, or "no fault".
std::string fault_in(const std::string& text, const ScoreChoice& choice = {}) {
  try {
    static_cast<void>(parsed(text, choice));
  } catch (const InputError& error) {
    return error.what();
  }
  return "no fault";
}

/// The same for the music of one measure; the place every message starts with is cut off.
std::string music_fault(const std::string& inside) {
  const std::string place = "score.musicxml: part P1 measure 1: ";
  const std::string text = fault_in(one_measure(inside));
  return text.starts_with(place) ? text.substr(place.size()) : text;
}

std::string pitched(const std::string& step, const std::string& alter, const std::string& octave,
                    const std::string& duration) {
  return "<note><pitch><step>" + step + "</step><alter>" + alter + "</alter><octave>" + octave +
         "</octave></pitch><duration>" + duration + "</duration></note>";
}

const std::string two_parts =
    "<score-partwise><part-list><score-part id=\"P1\"><part-name>Flute</part-name></score-part><score-part id=\"P2\">"
    "<part-name>Bassoon</part-name></score-part></part-list><part id=\"P1\">" +
    measure("1", two_to_a_quarter + note("C", 5, 2) + note("D", 5, 2)) + "</part><part id=\"P2\">" +
    measure("1", two_to_a_quarter + note("C", 2, 2)) + "</part></score-partwise>";

}  // namespace

TEST_CASE("a file that is not there or is a folder is a file error") {
  CHECK_THROWS_WITH(read_musicxml("no/such/file.musicxml", {}), "no/such/file.musicxml: no such file");
  const std::filesystem::path folder = std::filesystem::temp_directory_path();
  CHECK_THROWS_AS(read_musicxml(folder, {}), FileError);
  CHECK_THROWS_WITH(read_musicxml(folder, {}), folder.string() + ": is a folder, not a file");
}

TEST_CASE("a file is read as its text is") {
  const ScratchFolder scratch;
  const std::filesystem::path file = scratch.write("a.musicxml", one_measure(note("C", 3, 2)));
  const Passage passage = read_musicxml(file, {});
  CHECK(names(passage) == "C3");
  CHECK(passage.file == file.string());
}

TEST_CASE("what is no XML is told by line and column") {
  CHECK(fault_in("") == "score.musicxml: is empty");
  CHECK(fault_in(" \n ") == "score.musicxml: is empty");
  CHECK(fault_in("hello") == "score.musicxml: not XML: it has no tags (is it a MusicXML file?)");
  CHECK(fault_in("<score-partwise>\n<part id=\"P1\">\n  <measure number=1>") ==
        "score.musicxml:3:19: not well-formed XML: Error parsing element attribute");
  CHECK(fault_in("<score-partwise>\n <part></measure></score-partwise>") ==
        "score.musicxml:2:10: an end tag does not match its start tag");
  CHECK(fault_in("<score-partwise>\n\xFF</score-partwise>") ==
        "score.musicxml:2:1: not text in UTF-8 (is it a MusicXML file?)");
  CHECK(fault_in(std::string("<a>\0</a>", 8)) == "score.musicxml:1:4: not text in UTF-8 (is it a MusicXML file?)");
}

TEST_CASE("a file that is cut short is told so, wherever the cut is") {
  const std::string whole = one_measure(note("C", 3, 2) + note("D", 3, 2));
  for (std::size_t length = 1; length < whole.size(); ++length) {
    INFO("cut after " << length << " bytes");
    const std::string told = fault_in(whole.substr(0, length));
    CHECK(told.starts_with("score.musicxml:1:"));
    CHECK(told.ends_with("(the file may be cut short)"));
  }
  CHECK(fault_in(whole) == "no fault");
}

TEST_CASE("XML that is not MusicXML is refused with what it is") {
  CHECK(fault_in("<html><body/></html>") ==
        "score.musicxml: not MusicXML: its root element is 'html' (a score starts with <score-partwise>)");
  CHECK(fault_in("<score-timewise/>") == "score.musicxml: the score has no parts");
  CHECK(fault_in("<opus/>") == "score.musicxml: a list of scores, not a score (read one of the files it names)");
  CHECK(fault_in("PK\x03\x04") ==
        "score.musicxml: the archive is cut short or damaged (save it uncompressed, as .musicxml)");
}

TEST_CASE("a score of several parts asks for one and lists them") {
  CHECK(fault_in(two_parts) ==
        "score.musicxml: the score has several parts: one must be chosen (parts: P1 'Flute' (2 notes, C5 to D5), P2 "
        "'Bassoon' (1 note, C2))");
  CHECK(fault_in(two_parts, {"Oboe", ""}) ==
        "score.musicxml: no part 'Oboe' (parts: P1 'Flute' (2 notes, C5 to D5), P2 'Bassoon' (1 note, C2))");
  CHECK(fault_in("<score-partwise/>") == "score.musicxml: the score has no parts");
}

TEST_CASE("a name that two parts bear does not choose one") {
  std::string same = two_parts;
  same.replace(same.find("Bassoon"), 7, "Flute");
  CHECK(fault_in(same, {"Flute", ""}) ==
        "score.musicxml: several parts are named 'Flute' (choose by id: P1 'Flute' (2 notes, C5 to D5), P2 'Flute' (1 "
        "note, C2))");
}

TEST_CASE("a voice that is not there is told with those that are") {
  CHECK(fault_in(two_parts, {"P1", "3"}) == "score.musicxml: part P1: no voice '3' (voices: 1 (2 notes))");
}

TEST_CASE("a part with nothing to play is a fault") {
  CHECK(fault_in(one_part("")) ==
        "score.musicxml: part P1: has no notes to play (choose another part or voice; --parts lists them)");
  CHECK(fault_in(one_measure(rest(8))) ==
        "score.musicxml: part P1: has no notes to play (choose another part or voice; --parts lists them)");
}

TEST_CASE("a chord is refused at its place") {
  const std::string above =
      "<note><chord/><pitch><step>E</step><octave>3</octave></pitch><duration>2</duration></note>";
  CHECK(
      fault_in(one_part(measure("1", two_to_a_quarter + note("C", 3, 8)) + measure("12a", note("C", 3, 2) + above))) ==
      "score.musicxml: part P1 measure 12a: a chord above C3: a woodwind plays one note at a time (choose its top or "
      "bottom notes, or "
      "give each line a voice or part of its own)");
}

TEST_CASE("notes of one voice that overlap are refused") {
  CHECK(music_fault(note("C", 3, 4) + "<backup><duration>2</duration></backup>" + note("D", 3, 2)) ==
        "C3 and D3 sound at once in one voice: a woodwind plays one note at a time (give each line a voice or part of "
        "its own)");
}

TEST_CASE("percussion is refused") {
  CHECK(music_fault("<note><unpitched/><duration>2</duration></note>" + note("C", 3, 2)) ==
        "a note without pitch: percussion has no fingerings (choose another part or voice)");
  CHECK(music_fault("<attributes><clef><sign>percussion</sign></clef></attributes>" + note("C", 3, 2)) ==
        "a percussion staff: it names no woodwind notes (choose another part)");
}

TEST_CASE("numbers that are none or out of range are told as they stand") {
  CHECK(music_fault(pitched("H", "0", "3", "2")).starts_with("step 'H' is not one of A to G"));
  CHECK(music_fault(pitched("C", "0", "10", "2")).starts_with("octave '10' is not a whole number from 0 to 9"));
  CHECK(music_fault(pitched("C", "0", "3.5", "2")).starts_with("octave '3.5' is not"));
  CHECK(music_fault(pitched("C", "0", "99999999999999999999", "2")).starts_with("octave '9999"));
  CHECK(music_fault(pitched("C", "4", "3", "2")).starts_with("alter '4' is not a number from -3 to 3"));
  CHECK(music_fault(pitched("C", "flat", "3", "2")).starts_with("alter 'flat' is not"));
  CHECK(music_fault(pitched("C", "0", "3", "0")).starts_with("a note that lasts no time"));
  CHECK(music_fault(pitched("C", "0", "3", "-2")).starts_with("duration '-2' is negative or no number"));
  CHECK(music_fault(pitched("C", "0", "3", "2e9")).starts_with("duration '2e9' is negative or no number"));
  CHECK(music_fault(pitched("C", "0", "3", "999999999")).starts_with("duration '999999999' is longer than 10000"));
  CHECK(music_fault("<note/>").starts_with("duration '' is negative or no number"));
  CHECK(music_fault("<backup><duration>2</duration></backup>" + note("C", 3, 2)) ==
        "a backup leads to before the measure starts (export the score again)");
  CHECK(music_fault(note("C", 3, 2, notations("<slur type=\"start\" number=\"40\"/>"))) ==
        "slur number '40' is not a number from 1 to 16");
  CHECK(music_fault("<sound tempo=\"fast\"/>" + note("C", 3, 2)) == "tempo 'fast' is not a number");
}

TEST_CASE("divisions must be there and sensible") {
  const auto with = [](const std::string& divisions) {
    return music_fault("<attributes><divisions>" + divisions + "</divisions></attributes>" + note("C", 3, 2));
  };
  for (const char* bad : {"0", "-4", "", "two", "10000001", "1e3", "0x10", "4 4"}) {
    CHECK(with(bad) ==
          "divisions '" + std::string(bad) + "' is not a number above 0 and up to 10000000 (export the score again)");
  }
  CHECK(fault_in(one_part(measure("1", note("C", 3, 2)))) ==
        "score.musicxml: part P1 measure 1: a duration before any divisions (export the score again)");
}

TEST_CASE("signatures and transpositions must be sensible") {
  const auto with = [](const std::string& inside) {
    return music_fault("<attributes>" + inside + "</attributes>" + note("C", 3, 2));
  };
  CHECK(with("<key><fifths>15</fifths></key>") == "key of '15' fifths is not a whole number from -14 to 14");
  CHECK(with("<time><beats>0</beats><beat-type>4</beat-type></time>") == "time signature '0' over '4' is not one");
  CHECK(with("<time><beats>4</beats><beat-type>6</beat-type></time>") == "time signature '4' over '6' is not one");
  CHECK(with("<time><beats>3+</beats><beat-type>4</beat-type></time>") == "time signature '3+' over '4' is not one");
  CHECK(with("<transpose><chromatic>-2.5</chromatic></transpose>") ==
        "a transposition that is not a whole number of semitones within four octaves");
  CHECK(with("<transpose><chromatic>0</chromatic><octave-change>9</octave-change></transpose>") ==
        "a transposition that is not a whole number of semitones within four octaves");
}

TEST_CASE("times that no fraction can hold are a fault, not a wrong time") {
  std::string inside;
  for (const char* divisions : {"9999991", "9999973", "9999971", "9999943"}) {
    inside += "<attributes><divisions>" + std::string(divisions) + "</divisions></attributes>" + note("C", 3, 1);
  }
  CHECK(music_fault(inside).starts_with("its times cannot be told as fractions of a quarter note"));
}

TEST_CASE("grace notes alone are a fault") {
  CHECK(music_fault(grace("C", 3)) == "grace notes with no note beside them to take time from");
}

TEST_CASE("many faults are told once, the first of them one by one") {
  std::string measures;
  for (int i = 1; i <= 1000; ++i) {
    measures += measure(std::to_string(i), (i == 1 ? two_to_a_quarter : "") + pitched("X", "0", "3", "2"));
  }
  try {
    static_cast<void>(parsed(one_part(measures)));
    FAIL("no fault");
  } catch (const InputError& error) {
    REQUIRE(error.faults().size() == 21);
    CHECK(error.faults()[1].place.within == "part P1 measure 2");
    CHECK(error.faults().back().what == "980 more faults are not listed");
  }
}

TEST_CASE("names from a file cannot put control characters or broken text into messages") {
  const std::string text =
      "<score-partwise><part-list/><part id=\"P&#27;[31m&#xD800;\"/><part id=\"Q\"/></score-partwise>";
  const std::string told = fault_in(text);
  CHECK(told.find('\x1B') == std::string::npos);
  CHECK(told.find("P [31m???") != std::string::npos);
}

TEST_CASE("elements nested without end are read over in bounded time") {
  std::string deep;
  for (int i = 0; i < 300000; ++i) deep += "<x>";
  for (int i = 0; i < 300000; ++i) deep += "</x>";
  CHECK(names(parsed(one_measure(deep + note("C", 3, 2, deep)))) == "C3");
}
