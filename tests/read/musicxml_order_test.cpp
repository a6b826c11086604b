#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "musicxml_score.hpp"

using namespace fingerway;
using namespace fingerway::test;

namespace {

/// One measure of a whole note, with elements before and after it.
struct Bar {
  std::string before = {};
  std::string after = {};
};

std::string score_of(const std::vector<Bar>& bars) {
  std::string measures;
  for (std::size_t i = 0; i < bars.size(); ++i) {
    const std::string step(1, static_cast<char>('A' + i % 7));
    measures += measure(std::to_string(i + 1),
                        (i == 0 ? two_to_a_quarter : "") + bars[i].before + note(step, 3, 8) + bars[i].after);
  }
  return one_part(measures);
}

/// The printed names of the measures in the order they are played.
std::string order(const std::vector<Bar>& bars) {
  std::string list;
  for (const Measure& measure : parsed(score_of(bars)).measures) list += (list.empty() ? "" : " ") + measure.name;
  return list;
}

std::string left(const std::string& inside) { return "<barline location=\"left\">" + inside + "</barline>"; }
std::string right(const std::string& inside) { return "<barline location=\"right\">" + inside + "</barline>"; }
std::string ending(const std::string& numbers, const std::string& type) {
  return "<ending number=\"" + numbers + "\" type=\"" + type + "\"/>";
}
std::string sound(const std::string& attributes) { return "<sound " + attributes + "/>"; }
std::string words(const std::string& text) {
  return "<direction><direction-type><words>" + text + "</words></direction-type></direction>";
}
std::string sign(const std::string& name) {
  return "<direction><direction-type><" + name + "/></direction-type></direction>";
}

const std::string forward = "<repeat direction=\"forward\"/>";
const std::string backward = "<repeat direction=\"backward\"/>";

}  // namespace

TEST_CASE("a repeated section is played twice, from its start or from the sign before it") {
  CHECK(order({{}, {"", right(backward)}, {}}) == "1 2 1 2 3");
  CHECK(order({{}, {left(forward), ""}, {"", right(backward)}, {}}) == "1 2 3 2 3 4");
  CHECK(order({{"", right(backward)}, {"", right(backward)}}) == "1 1 2 2");
  CHECK(order({{left(forward), right(backward)}, {left(forward), right(backward)}}) == "1 1 2 2");
  CHECK(order({{}, {}, {}}) == "1 2 3");
}

TEST_CASE("a section is repeated as often as it says") {
  CHECK(order({{}, {"", right("<repeat direction=\"backward\" times=\"4\"/>")}, {}}) == "1 2 1 2 1 2 1 2 3");
}

TEST_CASE("repeat signs stand at the other side of the bar line in some files") {
  CHECK(order({{"", right(forward)}, {}, {left(backward), ""}}) == "1 2 2 3");
  CHECK(order({{}, {sound("forward-repeat=\"yes\""), right(backward)}}) == "1 2 2");
}

TEST_CASE("endings are played on their passes") {
  const Bar first{left(ending("1", "start")), right(ending("1", "stop") + backward)};
  const Bar second{left(ending("2", "start")), right(ending("2", "discontinue"))};
  CHECK(order({{}, first, second, {}}) == "1 2 1 3 4");
  CHECK(order({{}, {left(forward), ""}, first, second, {}}) == "1 2 3 2 4 5");
  const Bar twice{left(ending("1, 2", "start")), right(ending("1, 2", "stop") + backward)};
  const Bar third{left(ending("3", "start")), right(ending("3", "stop"))};
  CHECK(order({{}, twice, third}) == "1 2 1 2 1 3");
  // A first ending without a second one is left out the second time.
  CHECK(order({{}, first, {}}) == "1 2 1 3");
  // Both endings with a repeat sign: the second leads on.
  const Bar second_back{left(ending("2", "start")), right(ending("2", "stop") + backward)};
  CHECK(order({{}, first, second_back, {}}) == "1 2 1 3 4");
  // An ending of several measures.
  CHECK(order({{}, {left(ending("1", "start")), ""}, {"", right(ending("1", "stop") + backward)}, second}) ==
        "1 2 3 1 4");
}

TEST_CASE("two repeated sections with endings follow each other") {
  const Bar first{left(ending("1", "start")), right(ending("1", "stop") + backward)};
  const Bar second{left(ending("2", "start")), right(ending("2", "stop"))};
  CHECK(order({{}, first, second, {left(forward), ""}, first, second}) == "1 2 1 3 4 5 4 6");
}

TEST_CASE("da capo goes back once, to the end or to fine") {
  CHECK(order({{}, {"", sound("dacapo=\"yes\"")}}) == "1 2 1 2");
  CHECK(order({{"", sound("fine=\"yes\"")}, {"", sound("dacapo=\"yes\"")}}) == "1 2 1");
  CHECK(order({{"", words("Fine")}, {"", words("D.C. al Fine")}}) == "1 2 1");
}

TEST_CASE("after a jump repeats are left out and the last ending is taken, unless they say otherwise") {
  const Bar first{left(ending("1", "start")), right(ending("1", "stop") + backward)};
  const Bar second{left(ending("2", "start")), right(ending("2", "stop"))};
  CHECK(order({{}, first, second, {"", sound("dacapo=\"yes\"")}}) == "1 2 1 3 4 1 3 4");
  CHECK(order({{"", right(backward)}, {"", sound("dacapo=\"yes\"")}}) == "1 1 2 1 2");
  CHECK(order({{"", right("<repeat direction=\"backward\" after-jump=\"yes\"/>")}, {"", sound("dacapo=\"yes\"")}}) ==
        "1 1 2 1 1 2");
}

TEST_CASE("dal segno goes to its sign, and to the coda from where that is told") {
  CHECK(order({{}, {sound("segno=\"s\""), ""}, {"", sound("dalsegno=\"s\"")}, {}}) == "1 2 3 2 3 4");
  const Bar leave{"", sound("tocoda=\"c\"")};
  const Bar coda{sound("coda=\"c\""), ""};
  CHECK(order({{}, {sound("segno=\"s\""), ""}, leave, {"", sound("dalsegno=\"s\"")}, coda}) == "1 2 3 4 2 3 5");
  CHECK(order({{}, {sign("segno"), ""}, {"", words("To Coda")}, {"", words("D.S. al Coda")}, {sign("coda"), ""}}) ==
        "1 2 3 4 2 3 5");
  // Two coda signs without words: one leaves at the first.
  CHECK(order({{sign("segno"), ""}, {"", sign("coda")}, {"", words("D.S.")}, {sign("coda"), ""}}) == "1 2 3 1 2 4");
  CHECK(order({{left("<segno/>"), ""}, {"", sound("dalsegno=\"\"")}}) == "1 2 1 2");
}

TEST_CASE("a jump that says at which time it holds waits for it") {
  CHECK(order({{}, {"", right(backward) + sound("dacapo=\"yes\" time-only=\"2\"")}, {}}) == "1 2 1 2 1 2 3");
}

TEST_CASE("a sign that leads nowhere is told and left out") {
  const Passage passage = parsed(score_of({{}, {"", sound("dalsegno=\"s\"")}, {}}));
  CHECK(names(passage) == "A3 B3 C3");
  CHECK(remarks(passage) == "measure 2: a sign leads to a segno that is nowhere: play goes on without it\n");
}

TEST_CASE("played notes keep their element, and their measure is the played one") {
  const Passage passage = parsed(score_of({{}, {"", right(backward)}, {}}));
  REQUIRE(passage.notes.size() == 5);
  CHECK(passage.notes[2].place.element == 0);
  CHECK(passage.notes[2].place.measure == 2);
  CHECK(passage.notes[4].place.element == 2);
  CHECK(times(passage) == "0+4 4+4 8+4 12+4 16+4");
  CHECK(passage.measures[2].name == "1");
  CHECK(passage.measures[2].start == ScoreTime(8));
  CHECK(passage.measures[1].pass == 1);
  CHECK(passage.measures[3].pass == 2);
  CHECK(remarks(passage) == ": repeats and jumps are followed: 3 written measures, 5 played\n");
}

TEST_CASE("measures that no jump leads to are told") {
  const Passage passage =
      parsed(score_of({{"", sound("tocoda=\"c\" time-only=\"1\"")}, {}, {sound("coda=\"c\""), ""}}));
  CHECK(names(passage) == "A3 C3");
  CHECK(passage.remarks.front().what.starts_with("1 measure (1 note) that no repeat or jump leads to"));
}

TEST_CASE("a tie into an ending goes on from the measure played before") {
  const std::string start = "<tie type=\"start\"/>";
  const std::string stop = "<tie type=\"stop\"/>";
  const Passage passage = parsed(one_part(
      measure("1", two_to_a_quarter + note("C", 3, 8, start)) +
      measure("2", left(ending("1", "start")) + note("C", 3, 8, stop) + right(ending("1", "stop") + backward)) +
      measure("3", left(ending("2", "start")) + note("C", 3, 8, stop) + right(ending("2", "stop")))));
  CHECK(times(passage) == "0+8 8+8");
  CHECK(passage.notes[1].place.tied == std::vector<std::uint32_t>{2});
}

TEST_CASE("a slur left open by a jump ends before it") {
  const std::string start = notations("<slur type=\"start\"/>");
  const std::string stop = notations("<slur type=\"stop\"/>");
  const Passage passage = parsed(one_part(
      measure("1", two_to_a_quarter + note("C", 3, 4, start) + note("D", 3, 4)) +
      measure("2", left(ending("1", "start")) + note("E", 3, 8, stop) + right(ending("1", "stop") + backward)) +
      measure("3", left(ending("2", "start")) + note("F", 3, 8) + right(ending("2", "stop")))));
  CHECK(names(passage) == "C3 D3 E3 C3 D3 F3");
  CHECK(attacks(passage) == "tsstst");
}

TEST_CASE("after a jump the tempo is that of the place") {
  const Passage passage =
      parsed(score_of({{sound("tempo=\"60\""), ""}, {}, {sound("tempo=\"120\""), sound("dacapo=\"yes\"")}}));
  CHECK(passage.tempo.tempo_at(ScoreTime(9)).value() == Approx(120.0));
  CHECK(passage.tempo.tempo_at(ScoreTime(12)).value() == Approx(60.0));
  CHECK(passage.tempo.tempo_at(ScoreTime(20)).value() == Approx(120.0));
}

TEST_CASE("jumps that stand in another part only are followed") {
  const std::string text =
      "<score-partwise><part-list/><part id=\"P1\">" + measure("1", two_to_a_quarter + note("C", 5, 8)) +
      measure("2", note("C", 5, 8) + sound("dacapo=\"yes\"")) + "</part><part id=\"P2\">" +
      measure("1", two_to_a_quarter + note("C", 2, 8)) + measure("2", note("D", 2, 8)) + "</part></score-partwise>";
  CHECK(names(parsed(text, {.part = "P2"})) == "C2 D2 C2 D2");
}

TEST_CASE("a file cannot unroll without end") {
  std::vector<Bar> bars(300, {left(forward), right("<repeat direction=\"backward\" times=\"64\"/>")});
  CHECK(parsed(score_of(bars)).notes.size() == 300 * 64);
  CHECK_THROWS_WITH(parsed(score_of({{"", right("<repeat direction=\"backward\" times=\"65\"/>")}})),
                    "score.musicxml: part P1 measure 1: a repeat of '65' times is not one of up to 64");
  // Two hundred jumps over twelve thousand measures would play more than a million notes.
  std::vector<Bar> many(12'000);
  for (std::size_t i = 0; i < 200; ++i) many[many.size() - 1 - i].after = sound("dacapo=\"yes\"");
  CHECK_THROWS_WITH(parsed(score_of(many)),
                    "score.musicxml: part P1: its repeats lead to more than 1000000 notes or measures (read it as "
                    "written)");
  CHECK(parsed(score_of(many), {.order = PlayOrder::as_written}).notes.size() == 12'000);
  std::vector<Bar> jumps(1100, {"", sound("dacapo=\"yes\"")});
  CHECK_THROWS_WITH(parsed(score_of(jumps)), "score.musicxml: part P1: more than 1000 jumps (read it as written)");
}

TEST_CASE("a repeat sign inside a measure is refused") {
  CHECK_THROWS_WITH(
      parsed(score_of({{}, {"<barline location=\"middle\">" + backward + "</barline>", ""}})),
      "score.musicxml: part P1 measure 2: a repeat sign stands in the middle of the measure (read it as written, or "
      "split that measure)");
}
