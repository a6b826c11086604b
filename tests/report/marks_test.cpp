#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "fingerway/read/musicxml.hpp"
#include "fingerway/report/marks.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;

namespace {

std::string score_with(const std::string& notes) {
  return "<score-partwise><part-list/><part id=\"P0\"><measure number=\"1\"><note><pitch><step>A</step><octave>4"
         "</octave></pitch></note></measure></part><part id=\"P1\"><measure number=\"1\"><attributes><divisions>1"
         "</divisions></attributes>" +
         notes + "</measure></part></score-partwise>";
}

std::string marked_notes(const std::string& notes, const std::vector<ScoreMark>& marks) {
  return with_marks(score_with(notes), "P1", marks);
}

const std::string pitch = "<pitch><step>C</step><octave>3</octave></pitch><duration>1</duration>";

/// True when `whole` holds every byte of `part` in order.
bool holds_in_order(const std::string& whole, const std::string& part) {
  std::size_t next = 0;
  for (const char c : whole) {
    if (next < part.size() && part[next] == c) ++next;
  }
  return next == part.size();
}

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<std::filesystem::path> scores() {
  std::vector<std::filesystem::path> files;
  for (const char* folder : {"scores", "tests/melodies"}) {
    const std::filesystem::path path = project_folder() / folder;
    for (const auto& entry : std::filesystem::directory_iterator(path)) {
      if (entry.path().extension() == ".musicxml") files.push_back(entry.path());
    }
  }
  return files;
}

std::vector<ScoreMark> mark_for_each_note(const Passage& passage) {
  std::vector<ScoreMark> marks;
  for (const NoteEvent& note : passage.notes) marks.push_back({note.place.element, "RT <F\xE2\x99\xAF> & R4"});
  return marks;
}

}  // namespace

TEST_CASE("a note without notations gets them at the end, before its lyrics") {
  CHECK(
      marked_notes("<note>" + pitch + "</note>", {{0, "RT"}}) ==
      score_with("<note>" + pitch + "<notations><technical><fingering>RT</fingering></technical></notations></note>"));
  CHECK(marked_notes("<note>" + pitch + "<stem>up</stem><lyric><text>la</text></lyric></note>", {{0, "RT"}}) ==
        score_with("<note>" + pitch +
                   "<stem>up</stem><notations><technical><fingering>RT</fingering></technical></notations>"
                   "<lyric><text>la</text></lyric></note>"));
}

TEST_CASE("notations that are there are added to") {
  CHECK(marked_notes("<note>" + pitch + "<notations><slur type=\"start\"/></notations></note>", {{0, "RT"}}) ==
        score_with("<note>" + pitch +
                   "<notations><slur type=\"start\"/><technical><fingering>RT</fingering></technical></notations>"
                   "</note>"));
  CHECK(marked_notes("<note>" + pitch + "<notations><technical><open/></technical></notations></note>", {{0, "RT"}}) ==
        score_with("<note>" + pitch +
                   "<notations><technical><open/><fingering>RT</fingering></technical></notations></note>"));
}

TEST_CASE("elements closed in themselves are left as they are") {
  CHECK(marked_notes("<note>" + pitch + "<notations/></note>", {{0, "RT"}}) ==
        score_with("<note>" + pitch +
                   "<notations/><notations><technical><fingering>RT</fingering></technical></notations></note>"));
  CHECK(marked_notes("<note>" + pitch + "<notations><technical /></notations></note>", {{0, "RT"}}) ==
        score_with("<note>" + pitch +
                   "<notations><technical /><technical><fingering>RT</fingering></technical></notations></note>"));
  CHECK(
      marked_notes("<note>" + pitch + "<notations></notations></note>", {{0, "RT"}}) ==
      score_with("<note>" + pitch + "<notations><technical><fingering>RT</fingering></technical></notations></note>"));
}

TEST_CASE("a mark is indented as the lines around it") {
  const std::string note = "\r\n\t<note>\r\n\t\t<pitch>x</pitch>\r\n\t</note>\r\n";
  CHECK(
      marked_notes(note, {{0, "RT"}}) ==
      score_with("\r\n\t<note>\r\n\t\t<pitch>x</pitch>\r\n\t\t<notations>\r\n\t\t\t<technical>\r\n\t\t\t\t<fingering>RT"
                 "</fingering>\r\n\t\t\t</technical>\r\n\t\t</notations>\r\n\t</note>\r\n"));
}

TEST_CASE("comments, character data and quoted brackets do not mislead") {
  const std::string tricky = "<!-- </pitch></note> --><pitch a='>' b=\"/>\"><![CDATA[</pitch>]]><?x </pitch>?></pitch>";
  CHECK(
      marked_notes("<note>" + tricky + "</note>", {{0, "RT"}}) ==
      score_with("<note>" + tricky + "<notations><technical><fingering>RT</fingering></technical></notations></note>"));
}

TEST_CASE("marks go to the elements counted in their part, in any order") {
  const std::string note = "<note>" + pitch + "</note>";
  const std::string marked_b =
      "<note>" + pitch + "<notations><technical><fingering>b</fingering></technical></notations></note>";
  const std::string marked_ac = "<note>" + pitch +
                                "<notations><technical><fingering>a</fingering><fingering>c</fingering></technical>"
                                "</notations></note>";
  CHECK(marked_notes(note + "<note><rest/></note>" + note, {{2, "a"}, {0, "b"}, {2, "c"}}) ==
        score_with(marked_b + "<note><rest/></note>" + marked_ac));
  CHECK(marked_notes(note, {}) == score_with(note));
}

TEST_CASE("a mark's text is written as XML") {
  CHECK(marked_notes("<note>" + pitch + "</note>", {{0, "a<b>&\"\x01"}})
            .find("<fingering>a&lt;b&gt;&amp;\"</fingering>") != std::string::npos);
  const std::string latin =
      "<?xml version='1.0' encoding='ISO-8859-1'?>" + score_with("<note>" + pitch + "<x>\xE9</x></note>");
  const std::string marked = with_marks(latin, "P1", {{0, "F\xE2\x99\xAF"}});
  CHECK(marked.find("<x>\xE9</x><notations><technical><fingering>F&#9839;</fingering>") != std::string::npos);
}

TEST_CASE("a byte order mark stays and does not shift the marks") {
  const std::string text = "\xEF\xBB\xBF" + score_with("<note>" + pitch + "</note>");
  const std::string marked = with_marks(text, "P1", {{0, "RT"}});
  CHECK(marked == "\xEF\xBB\xBF" + score_with("<note>" + pitch +
                                              "<notations><technical><fingering>RT</fingering></technical></notations>"
                                              "</note>"));
}

TEST_CASE("marks for another score are refused") {
  const std::string note = "<note>" + pitch + "</note>";
  const std::string hint = " (the text is not the score these marks were made for)";
  CHECK_THROWS_WITH(with_marks("<score-partwise>", "P1", {}), "not well-formed XML: Start-end tags mismatch" + hint);
  CHECK_THROWS_WITH(with_marks("<a/>", "P1", {}), "no <score-partwise> element" + hint);
  CHECK_THROWS_WITH(with_marks(score_with(note), "P7", {}), "no part 'P7'" + hint);
  CHECK_THROWS_WITH(marked_notes(note, {{1, "x"}}), "part 'P1' has 1 note elements, and a mark is for number 1" + hint);
  CHECK_THROWS_WITH(marked_notes("<note><rest/></note>", {{0, "x"}}),
                    "note element 0 of part 'P1' has no pitch" + hint);
  CHECK_THROWS_AS(with_marks(std::string("<\0a\0", 4), "P1", {}), InputError);
}

TEST_CASE("marking every note of a score keeps every byte and every note") {
  const std::vector<std::filesystem::path> files = scores();
  REQUIRE(files.size() >= 5);
  for (const std::filesystem::path& file : files) {
    INFO(file);
    const std::string text = text_of(file);
    const Passage before = parse_musicxml(text, "score", {});
    const std::string marked = with_marks(text, before.part_id, mark_for_each_note(before));
    CHECK(holds_in_order(marked, text));
    const Passage after = parse_musicxml(marked, "score", {});
    CHECK(after.notes == before.notes);
    CHECK(after.measures == before.measures);
    CHECK(after.remarks == before.remarks);
    std::size_t marks = 0;
    for (std::size_t i = marked.find("RT &lt;F"); i != std::string::npos; i = marked.find("RT &lt;F", i + 1)) ++marks;
    CHECK(marks == before.notes.size());
  }
}

TEST_CASE("marked scores validate against the schema of MusicXML 4.0") {
  // W3C Music Notation Community Group, MusicXML 4.0; the folder holds musicxml.xsd and catalog.xml.
  const char* schema = std::getenv("FINGERWAY_MUSICXML_SCHEMA");
  if (schema == nullptr || std::system("command -v xmllint >/dev/null 2>&1") != 0) {
    WARN("not checked: FINGERWAY_MUSICXML_SCHEMA names no folder, or xmllint is not there");
    return;
  }
  const ScratchFolder scratch;
  for (const std::filesystem::path& file : scores()) {
    INFO(file);
    const std::string text = text_of(file);
    const Passage passage = parse_musicxml(text, "score", {});
    const std::filesystem::path out =
        scratch.write("marked.musicxml", with_marks(text, passage.part_id, mark_for_each_note(passage)));
    const std::string folder(schema);
    const std::string check = "XML_CATALOG_FILES='" + folder + "/catalog.xml' xmllint --nonet --noout --schema '" +
                              folder + "/musicxml.xsd' '" + out.string() + "' 2>/dev/null";
    CHECK(std::system(check.c_str()) == 0);
  }
}
