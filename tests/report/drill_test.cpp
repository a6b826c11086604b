// Practice material: its notes by hand, its score read back by our own reader, held against the schema of MusicXML
// where that is there, and drawn by an engraver where one is.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <pugixml.hpp>

#include <catch2/catch.hpp>

#include "fingerway/read/musicxml.hpp"
#include "fingerway/report/drill.hpp"
#include "fingerway/report/marks.hpp"
#include "report/toy_report.hpp"
#include "support/command_output.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

struct Made {
  const Played& played;
  Passage passage;
  Plan plan;
  Drill drill;
};

Made made(const Played& played, const Passage& passage, std::size_t hardest) {
  Made result{.played = played, .passage = passage, .plan = {}, .drill = {}};
  result.plan = plan_passage(played, passage, {}).front();
  result.drill = drill(played, passage, result.plan, hardest);
  return result;
}

const Played& toy() {
  static const Played made = toy_played(toy_instrument());
  return made;
}

/// A hard corner of the bassoon's low register, in flats.
Passage low_corner() {
  Passage passage = passage_of({"B1", "Db2", "Eb2", "Db2", "C#2", "F#2", "Bb2"}, {.each = ScoreTime(1, 4)});
  passage.title = "A low corner";
  passage.measures[0].key_fifths = -5;
  return passage;
}

std::vector<std::string> names_in_bar(const Drill& drill, std::size_t bar) {
  std::vector<std::string> names;
  for (const NoteEvent& note : drill.passage.notes) {
    if (note.place.measure == bar) names.push_back(name(note.spelling));
  }
  return names;
}

}  // namespace

TEST_CASE("a drill of one change goes back and forth, slow to target, in both rhythms, then with its surroundings") {
  // C4 to A3 moves three keys and is the hardest change; quarters at 60 leave a second, which an eighth is at 30.
  const Passage passage = passage_of({"C4", "A3", "Bb3"}, {.each = ScoreTime(1), .tempo = Qpm(60)});
  const Made toys = made(toy(), passage, 1);
  REQUIRE(toys.drill.exercises.size() == 1);
  const Exercise& exercise = toys.drill.exercises[0];
  CHECK(exercise.note == 1);
  CHECK(exercise.target.value() == Approx(30.0));
  CHECK(exercise.reaches_target());
  CHECK(exercise.top.value() == Approx(30.0));
  const std::vector<DrillStretch>& stretches = toys.drill.stretches;
  REQUIRE(stretches.size() == 7);
  const double tempos[] = {15, 19, 24, 30, 15, 15, 24};
  for (std::size_t s = 0; s < 7; ++s) CHECK(stretches[s].tempo.value() == tempos[s]);
  CHECK(stretches[4].kind == DrillKind::long_short);
  CHECK(stretches[5].kind == DrillKind::short_long);
  CHECK(names_in_bar(toys.drill, 0) == std::vector<std::string>{"C4", "A3", "C4", "A3", "C4", "A3", "C4", "A3"});
  CHECK(names_in_bar(toys.drill, 1) == std::vector<std::string>{"C4"});
  // Added notes: the change alone, then with the note after it, each twice.
  CHECK(stretches[6].first_bar == 12);
  CHECK(stretches[6].bars == 4);
  CHECK(names_in_bar(toys.drill, 12) == std::vector<std::string>{"C4", "A3"});
  CHECK(names_in_bar(toys.drill, 15) == std::vector<std::string>{"C4", "A3", "Bb3"});
  const auto length = [&](std::size_t bar, std::size_t of) {
    std::vector<ScoreTime> lengths;
    for (const NoteEvent& note : toys.drill.passage.notes) {
      if (note.place.measure == bar) lengths.push_back(note.length);
    }
    return lengths.at(of);
  };
  CHECK(length(8, 0) == ScoreTime(3, 4));
  CHECK(length(8, 1) == ScoreTime(1, 4));
  CHECK(length(10, 0) == ScoreTime(1, 4));
  CHECK(length(10, 1) == ScoreTime(3, 4));
  CHECK(length(1, 0) == ScoreTime(2));
}

TEST_CASE("a drill never asks for more than is predicted to go") {
  const Passage passage = passage_of({"C4", "A3", "C4"}, {.each = ScoreTime(1, 8), .tempo = Qpm(400)});
  const Made toys = made(toy(), passage, 1);
  REQUIRE_FALSE(toys.drill.exercises.empty());
  const Exercise& exercise = toys.drill.exercises[0];
  CHECK_FALSE(exercise.reaches_target());
  CHECK(exercise.top == exercise.limit);
  for (const DrillStretch& stretch : toys.drill.stretches) CHECK(stretch.tempo <= exercise.limit);
  CHECK(drill_text(toy(), passage, toys.plan, toys.drill).find("strain, not practice") != std::string::npos);
}

TEST_CASE("every change of a drill fits its tempo, the surroundings included") {
  const Made low = made(own_played("bassoon"), low_corner(), 3);
  REQUIRE(low.drill.exercises.size() == 3);
  const Passage& passage = low.drill.passage;
  const Plan& plan = low.drill.plan;
  for (std::size_t n = 1; n < passage.notes.size(); ++n) {
    const std::size_t source = low.drill.source[n];
    // Only changes of the passage itself in the stretches of added notes; the others are the exercise's own.
    const bool of_passage =
        low.drill.source[n - 1] + 1 == source && plan.notes[n].candidate && low.plan.notes[source].arrive.has_value();
    const StepContext context = step_context(passage, n - 1);
    if (of_passage && context.silence <= Ms(0)) {
      CHECK(low.plan.notes[source].arrive->step.time.count() <= context.available.count() * 1.0001);
    }
  }
}

TEST_CASE("the fingerings of a drill are those of the plan") {
  const Made low = made(own_played("bassoon"), low_corner(), 2);
  for (std::size_t n = 0; n < low.drill.passage.notes.size(); ++n) {
    REQUIRE(low.drill.plan.notes[n].candidate);
    CHECK(*low.drill.plan.notes[n].candidate == *low.plan.notes[low.drill.source[n]].candidate);
    CHECK(low.drill.passage.notes[n].pitch == low.passage.notes[low.drill.source[n]].pitch);
  }
}

TEST_CASE("where no finger has to move there is nothing to drill") {
  const Made still = made(toy(), passage_of({"C4", "C4", "C4"}), 3);
  CHECK(still.drill.exercises.empty());
  CHECK(drill_text(toy(), still.passage, still.plan, still.drill).find("nothing to drill") != std::string::npos);
}

TEST_CASE("the score of a drill reads back as the drill") {
  for (const char* instrument : {"bassoon", "bassoon+interlinked-low-keys"}) {
    const Made low = made(own_played(instrument), low_corner(), 3);
    const std::string text = drill_score(low.played, low.drill);
    const Passage read = parse_musicxml(text, "drill.musicxml", {});
    const Passage& meant = low.drill.passage;
    REQUIRE(read.notes.size() == meant.notes.size());
    for (std::size_t n = 0; n < meant.notes.size(); ++n) {
      CAPTURE(n);
      CHECK(read.notes[n].spelling == meant.notes[n].spelling);
      CHECK(read.notes[n].onset == meant.notes[n].onset);
      CHECK(read.notes[n].length == meant.notes[n].length);
      CHECK(read.notes[n].attack == meant.notes[n].attack);
    }
    REQUIRE(read.measures.size() == meant.measures.size());
    REQUIRE(read.tempo.changes().size() == meant.tempo.changes().size());
    for (std::size_t t = 0; t < meant.tempo.changes().size(); ++t) {
      CHECK(read.tempo.changes()[t].at == meant.tempo.changes()[t].at);
      CHECK(read.tempo.changes()[t].tempo == meant.tempo.changes()[t].tempo);
    }
    for (const Remark& remark : read.remarks) CHECK(remark.what == "");
  }
}

TEST_CASE("a drill for a transposing instrument says how it transposes") {
  for (const int interval : {-2, -9, -14, -21, 12, 5, -3}) {
    Instrument instrument = toy_instrument();
    instrument.transposition.interval = Semitones(interval);
    const Played low = toy_played(instrument);
    const Made done = made(low, passage_of({"C4", "A3", "B3"}), 1);
    const Passage read = parse_musicxml(drill_score(low, done.drill), "drill.musicxml", {});
    CHECK(read.transposition.interval.count == interval);
  }
}

TEST_CASE("the caution on strain stands over the first bar of a drill, and in its text") {
  const Made low = made(own_played("bassoon"), low_corner(), 1);
  pugi::xml_document document;
  REQUIRE(document.load_string(drill_score(low.played, low.drill).c_str()));
  const std::string words = document.select_node("//measure[1]/direction/direction-type/words").node().child_value();
  CHECK(words.find("stop on pain or numbness") != std::string::npos);
  CHECK(drill_text(low.played, low.passage, low.plan, low.drill).find("stop on pain") != std::string::npos);
}

TEST_CASE("marks stand in a drill as plan writes them, and come off again") {
  const Made low = made(own_played("bassoon"), low_corner(), 2);
  const std::string text = drill_score(low.played, low.drill);
  const Passage read = parse_musicxml(text, "drill.musicxml", {});
  const auto marked = std::ranges::count_if(read.notes, [](const NoteEvent& note) { return !note.marked.empty(); });
  CHECK(marked > 0);
  CHECK(static_cast<std::size_t>(marked) < read.notes.size());
  CHECK(without_marks(text).find("<fingering>") == std::string::npos);
  CHECK(parse_musicxml(without_marks(text), "drill.musicxml", {}).notes.size() == read.notes.size());
}

TEST_CASE("accidentals are written where the bar so far does not say them") {
  Passage passage = passage_of({"Db2", "Eb2", "D2"}, {.each = ScoreTime(1), .tempo = Qpm(60)});
  passage.measures[0].key_fifths = -2;
  const Made low = made(own_played("bassoon"), passage, 1);
  pugi::xml_document document;
  REQUIRE(document.load_string(drill_score(low.played, low.drill).c_str()));
  for (const pugi::xpath_node& bar : document.select_nodes("//measure")) {
    // Two flats: B and E. What a reader of the page would play must be what is meant.
    std::map<std::string, int> in_force = {{"B", -1}, {"E", -1}};
    for (const pugi::xml_node& note : bar.node().children("note")) {
      const pugi::xml_node pitch = note.child("pitch");
      if (!pitch) continue;
      const std::string step = pitch.child_value("step");
      const std::string accidental = note.child_value("accidental");
      if (!accidental.empty()) in_force[step] = accidental == "flat" ? -1 : accidental == "sharp" ? 1 : 0;
      CHECK(in_force[step] == pitch.child("alter").text().as_int());
    }
  }
}

TEST_CASE("the score of a drill is valid MusicXML 4.0") {
  const char* schema = std::getenv("FINGERWAY_MUSICXML_SCHEMA");
  if (schema == nullptr || std::system("command -v xmllint >/dev/null 2>&1") != 0) {
    WARN("not checked: FINGERWAY_MUSICXML_SCHEMA names no folder, or xmllint is not there");
    return;
  }
  const ScratchFolder scratch;
  Instrument transposing = toy_instrument();
  transposing.transposition.interval = Semitones(-14);
  const Played low_toy = toy_played(transposing);
  const Made toys = made(low_toy, passage_of({"C4", "A3", "B3"}), 2);
  const Made low = made(own_played("bassoon"), low_corner(), 3);
  const std::string folder(schema);
  for (const std::string& text : {drill_score(toys.played, toys.drill), drill_score(low.played, low.drill)}) {
    const auto file = scratch.write("drill.musicxml", text);
    const std::string command = "XML_CATALOG_FILES='" + folder + "/catalog.xml' xmllint --nonet --noout --schema '" +
                                folder + "/musicxml.xsd' '" + file.string() + "' 2>&1";
    INFO(output_of(command));
    CHECK(std::system((command + " >/dev/null").c_str()) == 0);
  }
}

TEST_CASE("an engraver draws the notes of a drill") {
  const char* const folder = std::getenv("FINGERWAY_NODE_CHECKS");
  if (folder == nullptr) {
    WARN("not checked: FINGERWAY_NODE_CHECKS names no folder with the node packages");
    return;
  }
  const ScratchFolder scratch;
  const Made low = made(own_played("bassoon"), low_corner(), 2);
  const auto file = scratch.write("drill.musicxml", drill_score(low.played, low.drill));
  const std::string drawn = output_of("cd '" + std::string(folder) + "' && node marks.mjs '" + file.string() + "'");
  std::size_t pitches = 0;
  for (std::size_t at = drawn.find("\"pitch\""); at != std::string::npos; at = drawn.find("\"pitch\"", at + 1))
    ++pitches;
  CHECK(pitches == low.drill.passage.notes.size());
}
