// A player's choices file: what it says, and every fault in it, on the exact text a user reads.
#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "fingerway/read/choices_file.hpp"
#include "read/told.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;

namespace {

const std::string head = "fingerway: choices\nversion: 1\n";

ChoicesFile read(const std::string& text) {
  const ScratchFolder folder;
  return read_choices_file(folder.write("mine.yaml", head + text));
}

std::string faults(const std::string& text) {
  const ScratchFolder folder;
  const auto file = folder.write("mine.yaml", head + text);
  return told(folder, [&] { static_cast<void>(read_choices_file(file)); });
}

}  // namespace

TEST_CASE("pins, bans, holds and latches are read as written") {
  const ChoicesFile file = read(
      "pins:\n"
      "  - at: \"3:2\"\n"
      "    fingering: {press: [L1.one], half: [L1.two], flick: [LT.vent]}\n"
      "  - {at: \"4:1+1/3\", with: [R4.f]}\n"
      "bans:\n"
      "  - {touches: [RT.fsharp], from: \"1\", to: \"8\"}\n"
      "holds:\n"
      "  - touches: [L4.low-dflat]\n"
      "latches: [whisper-lock]\n");
  REQUIRE(file.pins.size() == 2);
  CHECK(file.pins[0].whole);
  CHECK(file.pins[0].at == BarBeat{.bar = "3", .beat = ScoreTime(2)});
  CHECK(file.pins[0].touches.press == std::vector<std::string>{"L1.one"});
  CHECK(file.pins[0].touches.half == std::vector<std::string>{"L1.two"});
  CHECK(file.pins[0].touches.flick == std::vector<std::string>{"LT.vent"});
  CHECK(file.pins[0].place.line == 4);
  CHECK_FALSE(file.pins[1].whole);
  CHECK(file.pins[1].at.beat == ScoreTime(4, 3));
  CHECK(file.pins[1].touches.press == std::vector<std::string>{"R4.f"});
  REQUIRE(file.bans.size() == 1);
  CHECK(file.bans[0].from == BarBeat{.bar = "1", .beat = {}});
  CHECK(file.bans[0].to == BarBeat{.bar = "8", .beat = {}});
  REQUIRE(file.holds.size() == 1);
  CHECK_FALSE(file.holds[0].from);
  CHECK(file.holds[0].touches == std::vector<std::string>{"L4.low-dflat"});
  CHECK(file.latches == std::vector<std::string>{"whisper-lock"});
}

TEST_CASE("a choices file without choices is one") {
  CHECK(faults("") == "read");
  CHECK(read("").pins.empty());
}

TEST_CASE("bars and beats are read in every form") {
  CHECK(parse_bar_beat("3:2") == BarBeat{.bar = "3", .beat = ScoreTime(2)});
  CHECK(parse_bar_beat("12a:1+1/2") == BarBeat{.bar = "12a", .beat = ScoreTime(3, 2)});
  CHECK(parse_bar_beat("4") == BarBeat{.bar = "4", .beat = {}});
  CHECK(parse_bar_beat("4:2.25") == BarBeat{.bar = "4", .beat = ScoreTime(9, 4)});
  CHECK(parse_bar_beat("3:2 time 2") == BarBeat{.bar = "3", .beat = ScoreTime(2), .time = 2});
  CHECK(parse_bar_beat("4 time 3") == BarBeat{.bar = "4", .beat = {}, .time = 3});
  CHECK_FALSE(parse_bar_beat("3:2 time 0"));
  CHECK_FALSE(parse_bar_beat("3:2 time two"));
  CHECK_FALSE(parse_bar_beat("3:2 time 100"));
  CHECK(parse_bar_beat("a:b:2") == BarBeat{.bar = "a:b", .beat = ScoreTime(2)});
}

TEST_CASE("what is no bar and beat is refused") {
  for (const char* text : {"", ":", ":1", "3:", "3:x", "3:-1", "3:1+", "3:1+1", "3:1+1/0", "3:1.", "3:1.23456",
                           "3:999999999999999999999", "3:1e3", "3:1 "}) {
    INFO("'" << text << "'");
    CHECK_FALSE(parse_bar_beat(text));
  }
}

TEST_CASE("a place that is none is told with the forms there are") {
  CHECK(
      faults("bans:\n  - {touches: [R4.f], from: \"2:z\"}\n") ==
      "mine.yaml:4:29: '2:z' is not a place (bar:beat, as \"3:2\", \"3:2.5\" or \"3:2+1/3\"; a bar alone is the whole "
      "bar; \"3:2 time 2\" is the repeat's)");
}

TEST_CASE("a pin needs a place and either a fingering or touches") {
  CHECK(faults("pins:\n  - {with: [R4.f]}\n") == "mine.yaml:4:5: a pin needs the key 'at'");
  const std::string hint = " (fingering: {press: [...], half: [...], flick: [...]} or with: [touch, ...])";
  CHECK(faults("pins:\n  - {at: \"1\"}\n") == "mine.yaml:4:5: a pin needs either 'fingering' or 'with'" + hint);
  CHECK(faults("pins:\n  - {at: \"1\", with: [R4.f], fingering: {press: [R4.f]}}\n") ==
        "mine.yaml:4:5: a pin needs either 'fingering' or 'with'" + hint);
}

TEST_CASE("a ban or a hold needs touches") {
  CHECK(faults("bans:\n  - {from: \"1\"}\n") == "mine.yaml:4:5: a ban needs the key 'touches'");
  CHECK(faults("holds:\n  - {touches: []}\n") == "mine.yaml:4:5: 'touches' is empty (touches: [touch, ...])");
}

TEST_CASE("unknown keys are told with the key that was probably meant") {
  CHECK(faults("pinz: []\n") == "mine.yaml:3:1: unknown key 'pinz' in the choices file (did you mean 'pins'?)");
  CHECK(faults("pins:\n  - {at: \"1\", with: [R4.f], beat: 2}\n").find("unknown key 'beat' in a pin") !=
        std::string::npos);
  CHECK(faults("pins:\n  - {at: \"1\", fingering: {pres: [R4.f]}}\n").find("unknown key 'pres' in a fingering") !=
        std::string::npos);
}

TEST_CASE("things of the wrong kind are told, all at once") {
  CHECK(faults("pins: 3\n") ==
        "mine.yaml:3:7: 'pins' must be a list, not '3' ([a, b], or one item a line behind '- ')");
  CHECK(faults("pins:\n  - 5\nbans:\n  - 6\n") ==
        "mine.yaml:4:5: a pin must be a map of keys and values, not '5'\n"
        "mine.yaml:6:5: a ban must be a map of keys and values, not '6'");
}

TEST_CASE("a choices file that is not there is a file error") {
  const ScratchFolder folder;
  CHECK_THROWS_AS(read_choices_file(folder.path() / "none.yaml"), FileError);
}
