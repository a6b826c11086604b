#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "fingerway/report/marks.hpp"
#include "report/marked_scores.hpp"

using namespace fingerway;

namespace {

const std::string sign = "<?fingerway mark?>";
const std::string ours = "<technical><fingering>RT</fingering></technical>";

std::string note_with(const std::string& notations) { return score_with("<note>" + c3 + notations + "</note>"); }

}  // namespace

TEST_CASE("a second run replaces the marks of the first") {
  const std::string text = score_with("<note>" + c3 + "</note>\n  <note>\n    " + c3 + "\n  </note>");
  const std::string once = with_marks(text, "P1", {{0, "RT", "RT.b-flat"}, {1, "R4"}});
  const std::string twice = with_marks(once, "P1", {{1, "LT"}});
  CHECK(twice == with_marks(text, "P1", {{1, "LT"}}));
  CHECK(with_marks(once, "P1", {}) == text);
  CHECK(without_marks(twice) == text);
}

TEST_CASE("marks of another part stay when one is marked, and come off together") {
  const std::string text = score_with("<note>" + c3 + "</note>");
  const std::string first = with_marks(text, "P0", {{0, "RT"}});
  const std::string both = with_marks(first, "P1", {{0, "LT"}});
  CHECK(both.find(">RT<") != std::string::npos);
  CHECK(both.find(">LT<") != std::string::npos);
  CHECK(without_marks(both) == text);
}

TEST_CASE("marks come off every kind of place they are put in") {
  for (const char* const notations :
       {"", "<notations/>", "<notations></notations>", "<notations>\n\n</notations>", "<notations><slur/></notations>",
        "\n    <notations>\n      <slur/>\n    </notations>\n", "<notations><technical/></notations>",
        "<notations><technical><open/></technical></notations>", "<notations><technical> </technical></notations>",
        "<notations>\n\t<technical>\n\t\t<fingering>3</fingering>\n\t</technical>\n</notations>",
        "<notations print-object=\"no\"><technical><open/></technical></notations>", "<lyric><text>la</text></lyric>",
        "\n  <!-- a comment -->\n  <lyric/>",
        "<notations><technical><fingering>RT</fingering></technical></notations>"}) {
    INFO(notations);
    const std::string text = note_with(notations);
    const std::string marked = with_marks(text, "P1", {{0, "RT", "RT.b-flat"}});
    CHECK(marked.size() > text.size());
    CHECK(without_marks(marked) == text);
  }
}

TEST_CASE("a player's own fingerings and look-alikes of our sign stay") {
  const std::string text = note_with("<!-- <?fingerway mark?> --><notations><?other mark?>" + ours +
                                     "</notations><x><![CDATA[<?fingerway mark?>]]></x>");
  CHECK(without_marks(text) == text);
  CHECK(without_marks(with_marks(text, "P1", {{0, "LT"}})) == text);
}

TEST_CASE("what a program adds to an element of ours stays when the mark goes") {
  CHECK(without_marks(note_with(sign + "<notations>" + ours + "<slur/></notations>")) ==
        note_with("<notations><technical></technical><slur/></notations>"));
  CHECK(without_marks(note_with("<notations>" + sign +
                                "<technical><fingering>RT</fingering><other-technical>L1</other-technical><open/>"
                                "</technical></notations>")) ==
        note_with("<notations><technical><open/></technical></notations>"));
}

TEST_CASE("a sign whose mark was taken away goes alone") {
  CHECK(without_marks(note_with(sign)) == note_with(""));
  CHECK(without_marks(note_with(sign + "<stem>up</stem>")) == note_with("<stem>up</stem>"));
  CHECK(without_marks(note_with(sign + "<notations/>")) == note_with("<notations/>"));
  CHECK(without_marks(note_with(sign + sign + "<notations>" + ours + "</notations>")) == note_with(""));
}

TEST_CASE("a text saved again with other line breaks loses its marks too") {
  const std::string pretty =
      note_with("\n  " + sign +
                "\n  <notations>\n    <technical>\n      <fingering>RT</fingering>\n    </technical>\n"
                "  </notations>\n");
  CHECK(without_marks(pretty) == note_with("\n"));
}

TEST_CASE("text that is no score is refused, not cut") {
  CHECK_THROWS_AS(without_marks("<score-partwise>" + sign), InputError);
  CHECK_THROWS_AS(without_marks(""), InputError);
  CHECK_THROWS_AS(without_marks("<a>" + sign + "<fingering/></a>"), InputError);
}

TEST_CASE("an entity bomb is neither expanded nor changed") {
  std::string text = "<!DOCTYPE score-partwise [<!ENTITY a \"aaaaaaaaaa\">";
  for (char c = 'b'; c <= 'j'; ++c) {
    text += std::string("<!ENTITY ") + c + " \"";
    for (int i = 0; i < 10; ++i) text += std::string("&") + static_cast<char>(c - 1) + ";";
    text += "\">";
  }
  text += "]>" + note_with("<x>&j;</x>");
  const std::string marked = with_marks(text, "P1", {{0, "RT"}});
  CHECK(marked.size() < text.size() + 200);
  CHECK(without_marks(marked) == text);
}
