#include <string>

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "musicxml_score.hpp"
#include "read/musicxml_names.hpp"

using namespace fingerway;
using namespace fingerway::test;

namespace {

std::string listed(const std::string& id, const std::string& name, const std::string& more = {}) {
  return "<score-part id=\"" + id + "\"><part-name>" + name + "</part-name>" + more + "</score-part>";
}

std::string with_sound(const std::string& instrument, const std::string& sound) {
  return "<score-instrument id=\"I\"><instrument-name>" + instrument + "</instrument-name><instrument-sound>" + sound +
         "</instrument-sound></score-instrument>";
}

std::string clef(const std::string& sign, int line) {
  return "<attributes><clef><sign>" + sign + "</sign><line>" + std::to_string(line) + "</line></clef></attributes>";
}

std::string part(const std::string& id, const std::string& inside) {
  return "<part id=\"" + id + "\">" + measure("1", two_to_a_quarter + inside) + "</part>";
}

std::string score(const std::string& list, const std::string& parts) {
  return "<score-partwise version=\"3.1\"><part-list>" + list + "</part-list>" + parts + "</score-partwise>";
}

PartWanted bassoon() {
  return {.names = {"bassoon", "fagott", "fag", "bsn"},
          .sounds = {"wind.reed.bassoon"},
          .lowest = WrittenPitch(34),
          .highest = WrittenPitch(76),
          .clefs = {"F4", "C4"}};
}

std::string fault_in(const std::string& text, const ScoreChoice& choice) {
  try {
    static_cast<void>(parsed(text, choice));
  } catch (const InputError& error) {
    return error.what();
  }
  return "no fault";
}

/// The part that is read for a bassoon, of a flute and one more named so.
std::string chosen_beside_flute(const std::string& list_entry) {
  const std::string text = score(listed("P1", "Flute") + list_entry, part("P1", clef("G", 2) + note("C", 6, 2)) +
                                                                         part("P2", clef("F", 4) + note("C", 3, 2)));
  return parsed(text, {.wanted = bassoon()}).part_id;
}

}  // namespace

TEST_CASE("parts are listed with what a player looks for") {
  const std::string text =
      score(listed("P1", "Flute") +
                listed("P2", "Fagott",
                       "<part-abbreviation>Fg.</part-abbreviation>" + with_sound("Bsn", "wind.reed.bassoon")) +
                listed("P3", "Drum"),
            part("P1", note("C", 5, 2) + grace("D", 5) +
                           "<note><cue/><pitch><step>A</step><octave>7</octave></pitch>"
                           "<duration>2</duration></note>") +
                part("P2", "<attributes><staves>2</staves></attributes>" + clef("F", 4) + clef("C", 4) +
                               note("C", 2, 2, "<voice>1</voice><staff>1</staff>") +
                               note("G#", 3, 2, "<voice>1</voice><staff>1</staff>") +
                               note("E", 4, 2, "<voice>5</voice><staff>2</staff>")) +
                part("P3", "<note><unpitched/><duration>2</duration></note>"));
  const std::vector<PartInfo> parts = list_parts(text, "score.musicxml");
  REQUIRE(parts.size() == 3);
  CHECK(parts[0].notes == 2);
  CHECK(name(parts[0].highest.value()) == "D5");
  CHECK(parts[1].id == "P2");
  CHECK(parts[1].name == "Fagott");
  CHECK(parts[1].abbreviation == "Fg.");
  CHECK(parts[1].instrument == "Bsn");
  CHECK(parts[1].sounds == std::vector<std::string>{"wind.reed.bassoon"});
  CHECK(parts[1].notes == 3);
  CHECK(name(parts[1].lowest.value()) == "C2");
  CHECK(name(parts[1].highest.value()) == "E4");
  CHECK(parts[1].clefs == std::vector<std::string>{"F4", "C4"});
  CHECK(parts[1].staves == 2);
  CHECK(parts[1].voices == std::vector<VoiceInfo>{{"1", 1, 2}, {"5", 2, 1}});
  CHECK(parts[2].percussion);
  CHECK(parts[2].notes == 0);
  CHECK_FALSE(parts[2].lowest);
}

TEST_CASE("the part that fits the instrument by name or sound is read, and told") {
  CHECK(chosen_beside_flute(listed("P2", "BASSOON 2")) == "P2");
  CHECK(chosen_beside_flute(listed("P2", "1. Fagott in C")) == "P2");
  CHECK(chosen_beside_flute(listed("P2", "x", "<part-abbreviation>Fag.</part-abbreviation>")) == "P2");
  CHECK(chosen_beside_flute(listed("P2", "x", with_sound("y", "wind.reed.bassoon"))) == "P2");
  // No name, but the flute's notes and clef are out of the question.
  CHECK(chosen_beside_flute(listed("P2", "x")) == "P2");
  const std::string text =
      score(listed("P1", "Flute") + listed("P2", "Bassoon"), part("P1", note("C", 5, 2)) + part("P2", note("C", 3, 2)));
  CHECK(remarks(parsed(text, {.wanted = bassoon()})) ==
        ": of 2 parts, P2 'Bassoon' (1 note, C3) is read: its name fits the instrument\n");
}

TEST_CASE("a part whose whole name fits goes before one that holds the name among others") {
  const std::string text = score(listed("P1", "Double Bassoon") + listed("P2", "Bassoon"),
                                 part("P1", note("C", 2, 2)) + part("P2", note("C", 3, 2)));
  CHECK(parsed(text, {.wanted = bassoon()}).part_id == "P2");
}

TEST_CASE("parts that fit equally are refused with a list") {
  const std::string text =
      score(listed("P1", "Bassoon 1") + listed("P2", "Bassoon 2") + listed("P3", "Viola"),
            part("P1", note("C", 3, 2)) + part("P2", note("C", 2, 2) + note("D", 2, 2)) + part("P3", note("C", 4, 2)));
  CHECK(
      fault_in(text, {.wanted = bassoon()}) ==
      "score.musicxml: several parts fit the instrument by name: one must be chosen (parts that fit: P1 'Bassoon 1' (1 "
      "note, C3), P2 'Bassoon 2' (2 notes, C2 to D2))");
  // A part that fits is no choice when it cannot be played: the second one has notes below the range.
  std::string low = text;
  low.replace(low.rfind("<octave>2</octave>"), 18, "<octave>1</octave>");
  CHECK(parsed(low, {.wanted = bassoon()}).part_id == "P1");
}

TEST_CASE("nothing is guessed where no part fits") {
  const std::string text =
      score(listed("P1", "Flute") + listed("P2", "Piccolo"), part("P1", note("C", 6, 2)) + part("P2", note("C", 6, 2)));
  CHECK(fault_in(text, {.wanted = bassoon()})
            .starts_with("score.musicxml: no part fits the instrument by name, sound, range and clef"));
}

TEST_CASE("a part is found by its words in any case, and by abbreviation") {
  const std::string text =
      score(listed("P1", "Bassoon 1") + listed("P2", "Bassoon 2", "<part-abbreviation>Bsn. 2</part-abbreviation>"),
            part("P1", note("C", 3, 2)) + part("P2", note("D", 3, 2)));
  CHECK(parsed(text, {.part = "bassoon 2"}).part_id == "P2");
  CHECK(parsed(text, {.part = "bsn2"}).part_id == "P2");
  CHECK(parsed(text, {.part = "2"}).part_id == "P2");
  CHECK(fault_in(text, {.part = "bassoon"}).starts_with("score.musicxml: several parts are named 'bassoon'"));
}

TEST_CASE("names are compared by words") {
  CHECK(words_of("Bsn.2 (FAGOTT)") == std::vector<std::string>{"bsn", "2", "fagott"});
  CHECK(words_of("FLÖTE") == std::vector<std::string>{"flöte"});
  CHECK(words_of("").empty());
  CHECK(name_fit("2nd Clarinet in B-flat", "clarinet") == NameFit::whole);
  CHECK(name_fit("Bass Clarinet", "clarinet") == NameFit::within);
  CHECK(name_fit("Contrabassoon", "bassoon") == NameFit::none);
  CHECK(name_fit("Cor anglais", "cor anglais") == NameFit::whole);
  CHECK(name_fit("Bassoon", "") == NameFit::none);
}

TEST_CASE("a timewise score is read as its partwise twin") {
  const std::string one = two_to_a_quarter + note("C", 3, 2) + note("D", 3, 2);
  const std::string two = note("E", 3, 4);
  const std::string flute = two_to_a_quarter + note("C", 5, 4);
  const std::string list = "<part-list>" + listed("P1", "Flute") + listed("P2", "Bassoon") + "</part-list>";
  const std::string timewise =
      "<score-timewise>" + list + "<measure number=\"1\"><part id=\"P1\">" + flute + "</part><part id=\"P2\">" + one +
      "</part></measure><measure number=\"1a\"><part id=\"P2\">" + two + "</part></measure></score-timewise>";
  const Passage passage = parsed(timewise, {.part = "Bassoon"});
  CHECK(names(passage) == "C3 D3 E3");
  CHECK(times(passage) == "0+1 1+1 2+2");
  CHECK(passage.measures[1].name == "1a");
  CHECK(passage.notes[2].place.element == 2);
  // A part that is missing from a measure is silent there.
  CHECK(parsed(timewise, {.part = "Flute"}).measures.size() == 2);
  std::string twice = timewise;
  twice.replace(twice.find("<part id=\"P1\">"), 14, "<part id=\"P2\">");
  CHECK(fault_in(twice, {}) == "score.musicxml: measure 1: part 'P2' stands twice");
}

TEST_CASE("the voice of most notes is read, of equals the lowest number") {
  const std::string back = "<backup><duration>4</duration></backup>";
  const std::string two = note("C", 3, 4, "<voice>2</voice>") + back;
  CHECK(names(parsed(one_measure(two + note("E", 3, 4, "<voice>10</voice>")))) == "C3");
  CHECK(names(parsed(one_measure(note("E", 3, 4, "<voice>10</voice>") + back + note("C", 3, 4, "<voice>2</voice>")))) ==
        "C3");
  CHECK(names(parsed(one_measure(two + note("E", 3, 2, "<voice>3</voice>") + note("F", 3, 2, "<voice>3</voice>")))) ==
        "E3 F3");
}

TEST_CASE("a staff may be asked for, and voices on two staves at once are not mixed") {
  const std::string text = one_measure(
      note("C", 4, 2, "<voice>1</voice><staff>1</staff>") + note("D", 4, 2, "<voice>1</voice><staff>1</staff>") +
      "<backup><duration>4</duration></backup>" + note("C", 3, 4, "<voice>1</voice><staff>2</staff>"));
  CHECK(names(parsed(text)) == "C4 D4");
  CHECK(remarks(parsed(text)) == ": voice '1' on staff 2 is not read (1 note)\n");
  CHECK(names(parsed(text, {.staff = 2})) == "C3");
  CHECK(fault_in(text, {.staff = 3}) ==
        "score.musicxml: part P1: no notes on staff 3 (voices: 1 on staff 1 (2 notes), 1 on staff 2 (1 note))");
  // One line that crosses to another staff stays one line.
  CHECK(names(parsed(one_measure(note("C", 4, 2, "<staff>1</staff>") + note("D", 3, 2, "<staff>2</staff>")))) ==
        "C4 D3");
}

TEST_CASE("measures where the voice is silent and others are not are told") {
  const auto in = [](const std::string& voice) { return "<voice>" + voice + "</voice>"; };
  const Passage passage =
      parsed(one_part(measure("1", two_to_a_quarter + note("C", 3, 2, in("1")) + note("D", 3, 2, in("1"))) +
                      measure("2", note("E", 3, 4, in("5"))) + measure("3", note("F", 3, 4, in("1")))));
  CHECK(names(passage) == "C3 D3 F3");
  CHECK(remarks(passage) ==
        ": voice '5' is not read (1 note)\n: voice '1' has no notes where others have: 1 measure (2)\n");
}

TEST_CASE("of chords the top or bottom note is read when asked for") {
  const auto above = [](const std::string& step, int octave, const std::string& more = {}) {
    std::string text = note(step, octave, 2, more);
    return text.insert(6, "<chord/>");
  };
  const std::string text = one_measure(note("C", 3, 2, "<tie type=\"start\"/>") + above("E", 3) +
                                       note("C", 3, 2, "<tie type=\"stop\"/>") + above("A", 2) + note("D", 3, 2));
  const Passage top = parsed(text, {.divisi = Divisi::top});
  CHECK(names(top) == "E3 C3 D3");
  CHECK(top.notes[0].place.element == 1);
  CHECK(top.notes[1].place.element == 2);
  CHECK(times(top) == "0+1 1+1 2+1");
  const Passage bottom = parsed(text, {.divisi = Divisi::bottom});
  CHECK(names(bottom) == "C3 A2 D3");
  CHECK(bottom.notes[1].place.element == 3);
  CHECK(remarks(bottom) ==
        ": of chords, the bottom notes are planned: 2 notes are left out\n"
        "measure 1: a tie begins here that leads to no note of the same pitch: it is left out\n");
}

TEST_CASE("notes that are not printed are not planned") {
  std::string hidden = note("D", 3, 2);
  hidden.insert(5, " print-object=\"no\"");
  const Passage passage = parsed(one_measure(note("C", 3, 2) + hidden + note("E", 3, 2)));
  CHECK(times(passage) == "0+1 2+1");
  CHECK(remarks(passage) == ": 1 note that is not printed: not planned\n");
}
