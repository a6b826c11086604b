#include <catch2/catch.hpp>
#include <sstream>

#include "fingerway/report/text.hpp"
#include "report/approved.hpp"
#include "report/toy_report.hpp"

using namespace fingerway;

namespace {

std::size_t characters(const std::string& line) {
  return static_cast<std::size_t>(std::ranges::count_if(line, [](char c) { return (c & 0xC0) != 0x80; }));
}

/// The longest line, in characters.
std::size_t widest(const std::string& text) {
  std::size_t most = 0;
  for (const std::string& line : lines_of(text)) most = std::max(most, characters(line));
  return most;
}

}  // namespace

TEST_CASE("the text of a plan reads as approved") {
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(120), Attack::slurred);
  CHECK(unapproved("plan.txt", plan_text(toy, passage, plan_passage(toy, passage, {}))) == "");
}

TEST_CASE("the text of a plan that does not fit says what needs how long") {
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(2000), Attack::slurred);
  const std::string text = plan_text(toy, passage, plan_passage(toy, passage, {}));
  CHECK(unapproved("plan-too-fast.txt", text) == "");
  CHECK(text.find("does not fit: needs ") != std::string::npos);
}

TEST_CASE("the text of a plan says where there is no fingering") {
  const Played toy = toy_played(toy_instrument());
  Passage passage = toy_passage(Qpm(120), Attack::tongued);
  passage.notes[2].spelling = {'G', 0, 5};
  passage.notes[2].pitch = written(passage.notes[2].spelling);
  const std::string text = plan_text(toy, passage, plan_passage(toy, passage, {}));
  CHECK(text.find("bar 1, beat 3: no fingering for G5 here") != std::string::npos);
}

TEST_CASE("the text of a comparison reads as approved") {
  const Played stock = toy_played(toy_instrument());
  const Played linked = toy_played(linked_toy());
  const Passage passage = toy_leaps(Qpm(300));
  CHECK(unapproved("compare.txt", compare_text(stock, linked, passage, compare(stock, linked, passage, {}))) == "");
}

TEST_CASE("the texts of trills, charts, prices and explanations read as approved") {
  const Played toy = toy_played(toy_instrument());
  const Played linked = toy_played(linked_toy());
  CHECK(unapproved("trills.txt", trills_text(toy, all_trills(toy, Semitones(3)))) == "");
  CHECK(unapproved("chart.txt", chart_text(toy)) == "");
  CHECK(unapproved("chart-against.txt", chart_against_text(toy, linked)) == "");
  const Passage passage = toy_passage(Qpm(120), Attack::slurred);
  const Plan best = plan_passage(toy, passage, {}).front();
  PlanRequest own;
  own.choices.pins = {{.note = 0, .fingering = {.pressed = {toy_three}, .half = {}, .flicked = {}}, .whole = true}};
  const auto mine = plan_passage(toy, passage, own);
  CHECK(unapproved("price.txt", price_text(toy, passage, mine.front(), best)) == "");
  const Passage leaps = toy_leaps(Qpm(120));
  CHECK(unapproved("explain.txt", explain_text(linked, leaps, explain_note(linked, leaps, {}, 1, 3))) == "");
}

TEST_CASE("no line of a text report is wider than 100 columns") {
  const Played toy = toy_played(linked_toy());
  const Passage passage = toy_passage(Qpm(2000), Attack::slurred);
  PlanRequest request;
  request.alternatives = 4;
  CHECK(widest(plan_text(toy, passage, plan_passage(toy, passage, request))) <= 100);
  CHECK(widest(compare_text(toy, toy, passage, compare(toy, toy, passage, {}))) <= 100);
  CHECK(widest(trills_text(toy, all_trills(toy, Semitones(12)))) <= 100);
  CHECK(widest(chart_text(toy)) <= 100);
  CHECK(widest(explain_text(toy, passage, explain_note(toy, passage, {}, 2, 5))) <= 100);
}

TEST_CASE("every linkage of a conversion has a line on the regulation check list, a stock instrument has none") {
  CHECK(regulation_check_list(toy_instrument()).empty());
  const auto lines = regulation_check_list(linked_toy());
  REQUIRE(lines.size() == 1);
  CHECK(lines.front() ==
        "press link (right index finger): the pad one, the pad two and the pad three must shut (link)");
}

TEST_CASE("a linkage is checked against each key that it works against") {
  // A fourth key would open the first hole; where the link shuts it, closing wins.
  Instrument toy = linked_toy();
  Touch opener;
  opener.finger = Finger::R2;
  opener.name = "opener";
  opener.label = "opener key";
  toy.touches.push_back(opener);
  Rule opens;
  opens.when = {TouchId(4)};
  opens.opens = {PadId(0)};
  toy.rules.push_back(opens);
  const auto lines = regulation_check_list(toy);
  const std::string wanted =
      "hold opener (right middle finger), press link (right index finger): the pad one must shut (link)";
  CHECK(lines.size() == 2);
  CHECK(std::ranges::find(lines, wanted) != lines.end());
}
