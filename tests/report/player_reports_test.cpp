// Reports for one player, a pupil, a borrowed instrument: JSON against tools/schema, what text and page say.
#include <cstdlib>
#include <nlohmann/json.hpp>

#include <catch2/catch.hpp>

#include "fingerway/report/assign.hpp"
#include "fingerway/report/borrowed.hpp"
#include "fingerway/report/drill.hpp"
#include "fingerway/report/json.hpp"
#include "fingerway/report/text.hpp"
#include "report/json_schema_check.hpp"
#include "report/toy_report.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

Player beginner() {
  const Instrument& bassoon = own_played("bassoon").instrument;
  Player player{.name = "Robin <b>", .level = Level::beginner};
  player.hand.rates[index(Finger::L1)] = NotesPerSecond(9.0);
  player.hand.span = Mm(170);
  player.unusable = touches_named(bassoon, {"LT.low-bflat"});
  player.resting = touches_of(bassoon, Finger::L4);
  player.learned.emplace();
  for (const TableFingering& line : bassoon.table) {
    const bool known = line.standing == Standing::standard && pitch_named("F2") <= line.pitch;
    if (known) player.learned->push_back({.pitch = line.pitch, .fingering = line.fingering});
  }
  player.not_learned = {{.pitch = bassoon.table[0].pitch, .fingering = bassoon.table[0].fingering}};
  player.preferred = {player.learned->front()};
  return player;
}

/// Below what the beginner knows, with a trill nobody can play fast enough and a note no bassoon has.
Passage hard_passage() {
  Passage passage = passage_of({"F2", "Db2", "Eb2", "C7", "Bb1", "F#2", "Bb2"}, {.each = ScoreTime(1, 4)});
  passage.title = "Hard & low";
  passage.measures[0].key_fifths = -5;
  passage.notes[1].kind = NoteKind::trill;
  passage.notes[1].other = spelled("Eb2");
  return passage;
}

AssignedPupil pupil_with_a_lesson() {
  AssignedPupil pupil{.id = "robin",
                      .name = "Robin <b>",
                      .played = played(own_played("bassoon").instrument, own_numbers(), beginner()),
                      .passages = {}};
  AssignedPassage assigned{.id = "hard", .passage = hard_passage(), .lesson = {}};
  assigned.lesson = lesson(pupil.played, own_numbers(), assigned.passage);
  assigned.files = {"robin/hard.html", "robin/hard.txt", "robin/hard.musicxml"};
  pupil.passages = {assigned};
  return pupil;
}

}  // namespace

TEST_CASE("the JSON of players, lessons, drills and habits meets its schemas") {
  JsonSchemaCheck check;
  if (!check.possible()) {
    WARN("skipped: no python3 has jsonschema (Debian: python3-jsonschema)");
    return;
  }
  const AssignedPupil pupil = pupil_with_a_lesson();
  const Passage passage = hard_passage();
  const Played& converted = own_played("bassoon+interlinked-low-keys");
  const Played& stock = own_played("bassoon");
  const Plan plan = plan_passage(stock, passage, {}).front();
  PlanRequest own;
  own.choices.bans = {{.first = 0, .last = 6, .touches = touches_named(stock.instrument, {"R4.fsharp"})}};
  check.add("assign", assign_json({.title = "Class", .file = "class.yaml", .pupils = {pupil}}));
  check.add("plan", plan_json(pupil.played, passage, {pupil.passages[0].lesson.plan}));
  check.add("drill", drill_json(stock, passage, plan, drill(stock, passage, plan, 3)));
  check.add("habits", borrowed_json(converted, stock, passage, borrow(converted, stock, passage)));
  check.add("price", price_json(stock, passage, plan_passage(stock, passage, own).front(), plan));
  CHECK(check.all_meet_their_schemas());
}

TEST_CASE("a sheet says what cannot be played, what is not learned and what is new before the plan") {
  const AssignedPupil pupil = pupil_with_a_lesson();
  const std::string text = sheet_text(pupil, pupil.passages[0]);
  const auto at = [&](const std::string& words) {
    INFO(words);
    const std::size_t found = text.find(words);
    CHECK(found != std::string::npos);
    return found;
  };
  CHECK(at("Cannot be played on this instrument as written") < at("Not learned yet"));
  at("no fingering on the German-system bassoon");
  at("out of reach,");
  CHECK(at("Not learned yet") < at("New, and needed"));
  CHECK(at("New, and needed") < at("Hard & low\n=="));
  at("notes a second measured: L1 9.0");
  at("rested where there is another way: left little finger");
  at("stop on pain");
}

TEST_CASE("a sheet's page and the summary keep names from becoming markup") {
  const AssignedPupil pupil = pupil_with_a_lesson();
  const std::string page = sheet_page(pupil, pupil.passages[0]);
  CHECK(page.find("Robin &lt;b&gt;") != std::string::npos);
  CHECK(page.find("Robin <b>") == std::string::npos);
  CHECK(page.find("<svg") != std::string::npos);
  CHECK(page.find("New, and needed") != std::string::npos);
  const std::string index = assign_page({.title = "A < B", .file = "", .pupils = {pupil}});
  CHECK(index.find("A &lt; B") != std::string::npos);
  CHECK(index.find("href=\"robin/hard.html\"") != std::string::npos);
  CHECK(index.find("Take care") != std::string::npos);
}

TEST_CASE("a report says who plays, and a typical hand stays one") {
  const Passage passage = passage_of({"F2", "G2"});
  const AssignedPupil pupil = pupil_with_a_lesson();
  const std::string own = plan_text(pupil.played, passage, plan_passage(pupil.played, passage, {}));
  CHECK(own.find("Robin <b>, beginner level; notes a second measured: L1 9.0; hand span 170 mm") != std::string::npos);
  CHECK(own.find("not used at all: left thumb low B-flat") != std::string::npos);
  const Played& typical = own_played("bassoon");
  CHECK(plan_text(typical, passage, plan_passage(typical, passage, {})).find("typical hand, amateur level") !=
        std::string::npos);
}

TEST_CASE("price names in JSON where one's own way loses, the dearest first") {
  const Played toy = toy_played(linked_toy());
  const Passage passage = passage_of({"C4", "C4", "C4"});
  PlanRequest own;
  own.choices.pins = {{.note = 0, .fingering = {}, .whole = true},
                      {.note = 1, .fingering = pressing({toy_three}), .whole = true},
                      {.note = 2, .fingering = {}, .whole = true}};
  const Plan mine = plan_passage(toy, passage, own).front();
  const auto json = nlohmann::json::parse(price_json(toy, passage, mine, plan_passage(toy, passage, {}).front()));
  REQUIRE(json["losses"].size() >= 1);
  CHECK(json["losses"][0]["index"] == 1);
  for (std::size_t i = 1; i < json["losses"].size(); ++i) {
    CHECK(json["losses"][i]["points"].get<double>() <= json["losses"][i - 1]["points"].get<double>());
  }
}
