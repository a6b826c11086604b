#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "fingerway/read/musicxml.hpp"
#include "fingerway/report/marks.hpp"
#include "report/marked_scores.hpp"

using namespace fingerway;

namespace {

std::string marked_notes(const std::string& notes, const std::vector<ScoreMark>& marks) {
  return with_marks(score_with(notes), "P1", marks);
}

const std::string pitch = c3;
const std::string sign = "<?fingerway mark?>";
const std::string whole_rt = sign + "<notations><technical><fingering>RT</fingering></technical></notations>";

/// True when `whole` holds every byte of `part` in order.
bool holds_in_order(const std::string& whole, const std::string& part) {
  std::size_t next = 0;
  for (const char c : whole) {
    if (next < part.size() && part[next] == c) ++next;
  }
  return next == part.size();
}

}  // namespace

TEST_CASE("a note without notations gets them at the end, before its lyrics") {
  CHECK(marked_notes("<note>" + pitch + "</note>", {{0, "RT"}}) == score_with("<note>" + pitch + whole_rt + "</note>"));
  CHECK(marked_notes("<note>" + pitch + "<stem>up</stem><lyric><text>la</text></lyric></note>", {{0, "RT"}}) ==
        score_with("<note>" + pitch + "<stem>up</stem>" + whole_rt + "<lyric><text>la</text></lyric></note>"));
}

TEST_CASE("notations that are there are added to") {
  CHECK(marked_notes("<note>" + pitch + "<notations><slur type=\"start\"/></notations></note>", {{0, "RT"}}) ==
        score_with("<note>" + pitch + "<notations><slur type=\"start\"/>" + sign +
                   "<technical><fingering>RT</fingering></technical></notations></note>"));
  CHECK(marked_notes("<note>" + pitch + "<notations><technical><open/></technical></notations></note>", {{0, "RT"}}) ==
        score_with("<note>" + pitch + "<notations><technical><open/>" + sign +
                   "<fingering>RT</fingering></technical></notations></note>"));
}

TEST_CASE("elements closed in themselves are left as they are") {
  CHECK(marked_notes("<note>" + pitch + "<notations/></note>", {{0, "RT"}}) ==
        score_with("<note>" + pitch + "<notations/>" + whole_rt + "</note>"));
  CHECK(marked_notes("<note>" + pitch + "<notations><technical /></notations></note>", {{0, "RT"}}) ==
        score_with("<note>" + pitch + "<notations><technical />" + sign +
                   "<technical><fingering>RT</fingering></technical></notations></note>"));
  CHECK(marked_notes("<note>" + pitch + "<notations></notations></note>", {{0, "RT"}}) ==
        score_with("<note>" + pitch + "<notations>" + sign +
                   "<technical><fingering>RT</fingering></technical></notations></note>"));
}

TEST_CASE("a mark is indented as the lines around it") {
  const std::string note = "\r\n\t<note>\r\n\t\t<pitch>x</pitch>\r\n\t</note>\r\n";
  CHECK(marked_notes(note, {{0, "RT", "L1.hole"}}) ==
        score_with("\r\n\t<note>\r\n\t\t<pitch>x</pitch>\r\n\t\t" + sign +
                   "<notations>\r\n\t\t\t<technical>\r\n\t\t\t\t<fingering>RT</fingering>"
                   "\r\n\t\t\t\t<other-technical>L1.hole</other-technical>\r\n\t\t\t</technical>\r\n\t\t</notations>"
                   "\r\n\t</note>\r\n"));
}

TEST_CASE("comments, character data and quoted brackets do not mislead") {
  const std::string tricky = "<!-- </pitch></note> --><pitch a='>' b=\"/>\"><![CDATA[</pitch>]]><?x </pitch>?></pitch>";
  CHECK(marked_notes("<note>" + tricky + "</note>", {{0, "RT"}}) ==
        score_with("<note>" + tricky + whole_rt + "</note>"));
}

TEST_CASE("marks go to the elements counted in their part, in any order") {
  const std::string note = "<note>" + pitch + "</note>";
  const auto with = [&](const std::string& text) {
    return "<note>" + pitch + sign + "<notations><technical><fingering>" + text +
           "</fingering></technical></notations></note>";
  };
  CHECK(marked_notes(note + "<note><rest/></note>" + note, {{2, "a"}, {0, "b"}}) ==
        score_with(with("b") + "<note><rest/></note>" + with("a")));
  CHECK(marked_notes(note, {}) == score_with(note));
}

TEST_CASE("a note has one mark: those of several passes joined, equal ones once") {
  const std::string note = "<note>" + pitch + "</note>";
  const std::string marked = marked_notes(note, {{0, "a", "L1"}, {0, "c", "L2"}, {0, "a", "L1"}, {0, ""}});
  CHECK(marked.find("<fingering>" + engraved_text("a / c") + "</fingering><other-technical>L1 / L2<") !=
        std::string::npos);
  CHECK(marked_notes(note, {{0, "a"}, {0, "a"}}) == marked_notes(note, {{0, "a"}}));
  CHECK(marked_notes(note, {{0, ""}}) == score_with(note));
}

TEST_CASE("in a timewise score notes are counted in their part, through all measures") {
  const std::string note = "<note>" + pitch + "</note>";
  const auto measures = [&](const std::string& second) {
    return "<score-timewise><part-list/><measure number=\"1\"><part id=\"A\">" + note + "</part><part id=\"B\">" +
           note + "</part></measure><measure number=\"2\"><part id=\"A\">" + note + "</part><part id=\"B\">" + second +
           "</part></measure></score-timewise>";
  };
  const std::string marked = with_marks(measures(note), "B", {{1, "RT"}});
  CHECK(marked == measures("<note>" + pitch + whole_rt + "</note>"));
  CHECK(without_marks(marked) == measures(note));
}

TEST_CASE("a mark's text is written as XML, in what the file's encoding has") {
  const std::string note = "<note>" + pitch + "</note>";
  CHECK(marked_notes(note, {{0, "a<b>\"\x01"}}).find("<fingering>a&lt;b&gt;\"</fingering>") != std::string::npos);
  const std::string latin =
      "<?xml version='1.0' encoding='ISO-8859-1'?>" + score_with("<note>" + pitch + "<x>\xE9</x></note>");
  const std::string marked = with_marks(latin, "P1", {{0, "F\xE2\x99\xAF"}});
  CHECK(marked.find("<x>\xE9</x>" + sign + "<notations><technical><fingering>F&#9839;</fingering>") !=
        std::string::npos);
  const std::string wide = "<?xml version='1.0' encoding='UTF-16'?>" + score_with(note);
  CHECK(with_marks(wide, "P1", {{0, "F\xE2\x99\xAF"}}).find("<fingering>F\xE2\x99\xAF</fingering>") !=
        std::string::npos);
}

TEST_CASE("marks are written in letters and signs that no engraver takes for something else") {
  // Tried with three engravers (tools/engrave-check); LilyPond 2.24 reads "R4" as a rest and stops at "+".
  CHECK(engraved_text("R4 +LT") == "R\u2084\u00A0\u207ALT");
  CHECK(engraved_text("L2-3, ~R1/2") == "L\u2082\u2212\u2083\u201A\u00A0\u223CR\u2081\u2215\u2082");
  CHECK(engraved_text("Eb F#+Bb, Abbey") == "E\u266D\u00A0F\u266F\u207AB\u266D\u201A\u00A0Abbey");
  CHECK(engraved_text("RT") == "RT");
  CHECK(engraved_text("12") == "12");
  for (const char* const mark :
       {"R4 +LT", "L2-3, ~R1/2", "RT", "12", "F# & \u00BDL1", "R4 Ab +Eb | Bb", "Abbey aBb", ""}) {
    CHECK(plain_text(engraved_text(mark)) == mark);
  }
  for (const char c : engraved_text("R4 Ab +LT, L4 Eb - ~ 0123456789 & a/b 1.5")) {
    INFO(static_cast<int>(c));
    CHECK(((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80U));
  }
}

TEST_CASE("a byte order mark stays and does not shift the marks") {
  const std::string text = "\xEF\xBB\xBF" + score_with("<note>" + pitch + "</note>");
  const std::string marked = with_marks(text, "P1", {{0, "RT"}});
  CHECK(marked == "\xEF\xBB\xBF" + score_with("<note>" + pitch + whole_rt + "</note>"));
  CHECK(without_marks(marked) == text);
}

TEST_CASE("marks for another score are refused") {
  const std::string note = "<note>" + pitch + "</note>";
  const std::string hint = " (the text is not the score these marks were made for)";
  CHECK_THROWS_WITH(with_marks("<score-partwise>", "P1", {}), "not well-formed XML: Start-end tags mismatch" + hint);
  CHECK_THROWS_WITH(with_marks("<a/>", "P1", {}), "no <score-partwise> or <score-timewise> element" + hint);
  CHECK_THROWS_WITH(with_marks(score_with(note), "P7", {}), "no part 'P7'" + hint);
  CHECK_THROWS_WITH(marked_notes(note, {{1, "x"}}), "part 'P1' has 1 note elements, and a mark is for number 1" + hint);
  CHECK_THROWS_WITH(marked_notes("<note><rest/></note>", {{0, "x"}}),
                    "note element 0 of part 'P1' has no pitch" + hint);
  CHECK_THROWS_AS(with_marks(std::string("<\0a\0", 4), "P1", {}), InputError);
}

TEST_CASE("marking every note of a score keeps every byte and every note, and the marks come off again") {
  const std::vector<std::filesystem::path> files = all_scores();
  REQUIRE(files.size() >= 5);
  for (const std::filesystem::path& file : files) {
    INFO(file);
    const std::string text = bytes_of(file);
    const Passage before = parse_musicxml(text, "score", {});
    const std::string marked = with_marks(text, before.part_id, mark_each_note(before, "RT <F\xE2\x99\xAF> & R4"));
    CHECK(holds_in_order(marked, text));
    std::size_t marks = 0;
    for (std::size_t i = marked.find(sign); i != std::string::npos; i = marked.find(sign, i + 1)) ++marks;
    CHECK(marks >= before.notes.size());
    CHECK(without_marks(marked) == text);
    CHECK(with_marks(marked, before.part_id, mark_each_note(before, "RT")) ==
          with_marks(text, before.part_id, mark_each_note(before, "RT")));
  }
}

TEST_CASE("a score reads the same with marks of ours") {
  for (const std::filesystem::path& file : all_scores()) {
    INFO(file);
    const std::string text = bytes_of(file);
    Passage before = parse_musicxml(text, "score", {});
    const Passage after = parse_musicxml(with_marks(text, before.part_id, mark_each_note(before, "R4")), "score", {});
    REQUIRE(after.notes.size() == before.notes.size());
    CHECK(after.measures == before.measures);
    CHECK(after.remarks == before.remarks);
    for (std::size_t i = 0; i < before.notes.size(); ++i) {
      CHECK(after.notes[i].pitch == before.notes[i].pitch);
      CHECK(after.notes[i].onset == before.notes[i].onset);
      CHECK(after.notes[i].length == before.notes[i].length);
      CHECK(after.notes[i].place == before.notes[i].place);
    }
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
  for (const std::filesystem::path& file : all_scores()) {
    INFO(file);
    const std::string text = bytes_of(file);
    const Passage passage = parse_musicxml(text, "score", {});
    const std::filesystem::path out =
        scratch.write("marked.musicxml", with_marks(text, passage.part_id, mark_each_note(passage, "R4 <F>")));
    const std::string folder(schema);
    const std::string check = "XML_CATALOG_FILES='" + folder + "/catalog.xml' xmllint --nonet --noout --schema '" +
                              folder + "/musicxml.xsd' '" + out.string() + "' 2>/dev/null";
    CHECK(std::system(check.c_str()) == 0);
  }
}
