#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "fingerway/base/text.hpp"

using namespace fingerway;

TEST_CASE("a message names file, line and column, what and hint") {
  CHECK(message({{"bassoon.yaml", 5, 3, {}}, "unknown key 'lable'", "did you mean 'label'?"}) ==
        "bassoon.yaml:5:3: unknown key 'lable' (did you mean 'label'?)");
}

TEST_CASE("a message names a place in words where there is no line") {
  CHECK(message({{"score.musicxml", 0, 0, "part P1 measure 3"}, "a chord", {}}) ==
        "score.musicxml: part P1 measure 3: a chord");
}

TEST_CASE("a message leaves out what is not known") {
  CHECK(message({{}, "nothing to read", {}}) == "nothing to read");
  CHECK(message({{"a.yaml", 7, 0, {}}, "wrong", {}}) == "a.yaml:7: wrong");
  CHECK(message({{{}, 0, 0, "measure 2"}, "wrong", {}}) == "measure 2: wrong");
}

TEST_CASE("an input error carries every fault and tells all of them") {
  const std::vector<Fault> faults = {{{"a", 1, 2, {}}, "first", {}}, {{"a", 3, 4, {}}, "second", "hint"}};
  const InputError error(faults);
  CHECK(error.faults() == faults);
  CHECK(std::string(error.what()) == "a:1:2: first\na:3:4: second (hint)");
}

TEST_CASE("a file error tells the file") {
  const FileError error("missing.musicxml", "no such file", "check the name");
  CHECK(std::string(error.what()) == "missing.musicxml: no such file (check the name)");
  CHECK(error.fault().place.file == "missing.musicxml");
  CHECK(error.fault().hint == "check the name");
}

TEST_CASE("the nearest word is the one a slip away") {
  const std::vector<std::string> known = {"label", "touches", "rules", "fingerings"};
  CHECK(nearest_word("lable", known) == "label");
  CHECK(nearest_word("touchs", known) == "touches");
  CHECK(nearest_word("fingering", known) == "fingerings");
  CHECK(nearest_word("rules", known) == "rules");
}

TEST_CASE("a word far from all known ones has no nearest word") {
  const std::vector<std::string> known = {"label", "touches", "rules"};
  CHECK(nearest_word("grip", known).empty());
  CHECK(nearest_word("", known).empty());
  CHECK(nearest_word("label", {}).empty());
  CHECK(nearest_word(std::string(100000, 'l'), known).empty());
}

TEST_CASE("of two equally near words the first is taken") { CHECK(nearest_word("bat", {"cat", "hat"}) == "cat"); }

TEST_CASE("a message is one line of text whatever it is made of") {
  const Fault fault{{.file = "a\nb\x1b[31m.yaml", .line = 1, .column = 2, .within = {}}, "tab\there \xc2\x9bx", "\xff"};
  CHECK(message(fault) == "a b [31m.yaml:1:2: tab here x (?)");
  CHECK(one_line("\r\n\x7f\xc2\x80") == " ");
  CHECK(one_line("\u00e9 \u266d \xed\xa0\x80") == "\u00e9 \u266d ???");
}
