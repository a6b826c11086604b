// What scripts rely on of assign, drill, --player and --habits: exit codes, whole folders or none, the same result for
// any number of threads.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "app/program_run.hpp"
#include "fingerway/read/musicxml.hpp"
#include "fingerway/report/marks.hpp"
#include "support/scratch_folder.hpp"

using fingerway::run;
using fingerway::Run;
using fingerway::ScratchFolder;
using fingerway::text_of;
namespace fs = std::filesystem;

namespace {

/// Every file of a folder by its path within it.
std::map<std::string, std::string> files_of(const fs::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file())
      files[entry.path().lexically_relative(folder).generic_string()] = text_of(entry.path());
  }
  return files;
}

const std::string demo = "scores/lowland-round.musicxml";

std::string roster_of(const std::string& pupils) {
  const std::string scores = fs::absolute("scores").string();
  return "fingerway: roster\nversion: 1\ntitle: Two bassoons\npassages:\n  - {id: steps, score: " + scores +
         "/first-steps.musicxml}\n  - {id: corner, score: " + scores +
         "/lowland-round.musicxml, bars: \"10\"}\npupils:\n" + pupils;
}

const std::string two_pupils =
    "  - {name: Robin, instrument: bassoon, passages: [steps, corner]}\n"
    "  - {name: Sam, instrument: bassoon+interlinked-low-keys, level: professional, passages: [corner]}\n";

}  // namespace

TEST_CASE("assign writes a sheet three ways for every pupil and passage, and a summary three ways") {
  const ScratchFolder scratch;
  const auto roster = scratch.write("class.yaml", roster_of(two_pupils));
  const fs::path out = scratch.path() / "sheets";
  const Run done = run({"assign", roster.string(), "--out", out.string()});
  CHECK(done.code == 1);  // Robin's corner does not fit
  CHECK(done.out.find("Two bassoons") != std::string::npos);
  const auto files = files_of(out);
  std::vector<std::string> names;
  for (const auto& [name, text] : files) names.push_back(name);
  CHECK(names == std::vector<std::string>{"assign.json", "index.html", "robin/corner.html", "robin/corner.musicxml",
                                          "robin/corner.txt", "robin/steps.html", "robin/steps.musicxml",
                                          "robin/steps.txt", "sam/corner.html", "sam/corner.musicxml", "sam/corner.txt",
                                          "summary.txt"});
  CHECK(fingerway::without_marks(files.at("robin/steps.musicxml")) == text_of("scores/first-steps.musicxml"));
  CHECK(files.at("index.html").find("href=\"robin/corner.html\"") != std::string::npos);
  CHECK(files.at("robin/corner.txt").find("stop on pain") != std::string::npos);
  const auto json = nlohmann::json::parse(files.at("assign.json"));
  CHECK(json["format"] == "fingerway/assign");
  REQUIRE(json["pupils"].size() == 2);
  CHECK_FALSE(json["pupils"][0]["passages"][1]["too_fast"].empty());
  CHECK(json["pupils"][0]["passages"][1]["playable"] == false);
  CHECK(json["pupils"][1]["passages"][0]["playable"] == true);
}

TEST_CASE("assign gives the same folder for any number of threads, and replaces its own") {
  const ScratchFolder scratch;
  const auto roster = scratch.write("class.yaml", roster_of(two_pupils));
  const fs::path out = scratch.path() / "sheets";
  CHECK(run({"assign", roster.string(), "--out", out.string(), "--threads", "1"}).code == 1);
  const auto first = files_of(out);
  CHECK(run({"assign", roster.string(), "--out", out.string() + "/", "--threads", "4"}).code == 1);
  CHECK(files_of(out) == first);
}

TEST_CASE("assign writes nothing when one sheet cannot be made") {
  const ScratchFolder scratch;
  const auto roster =
      scratch.write("class.yaml", roster_of(two_pupils + "  - {name: Kim, instrument: bassoon, passages: "
                                                         "[gone]}\n"));
  std::string text = text_of(roster);
  text.replace(text.find("pupils:"), 0, "  - {id: gone, score: gone.musicxml}\n");
  const auto broken = scratch.write("broken.yaml", text);
  const fs::path out = scratch.path() / "sheets";
  const Run done = run({"assign", broken.string(), "--out", out.string()});
  CHECK(done.code == 4);
  CHECK(done.err.find("gone.musicxml") != std::string::npos);
  CHECK_FALSE(fs::exists(out));
  // A bar that is not there is a fault of the roster's, told for the pupil; nothing is left lying about.
  text.replace(text.find("score: gone.musicxml"), 20, "score: " + fs::absolute(demo).string() + ", bars: \"99\"");
  const auto no_bar = scratch.write("no-bar.yaml", text);
  const Run other = run({"assign", no_bar.string(), "--out", out.string()});
  CHECK(other.code == 2);
  CHECK(other.err.find("no bar '99' (for Kim)") != std::string::npos);
  CHECK(std::distance(fs::directory_iterator(scratch.path()), fs::directory_iterator()) == 3);
}

TEST_CASE("assign leaves a folder alone that holds anything else") {
  const ScratchFolder scratch;
  const auto roster = scratch.write("class.yaml", roster_of(two_pupils));
  scratch.write("sheets/letter.txt", "dear parents");
  const Run done = run({"assign", roster.string(), "--out", (scratch.path() / "sheets").string()});
  CHECK(done.code == 4);
  CHECK(done.err.find("letter.txt") != std::string::npos);
  CHECK(files_of(scratch.path() / "sheets").size() == 1);
}

TEST_CASE("a file that only looks like a summary of assign is nobody's to replace") {
  const ScratchFolder scratch;
  const auto roster = scratch.write("class.yaml", roster_of(two_pupils));
  for (const char* text : {"{\"format\": 3, \"pupils\": 5}", "{\"format\": \"fingerway/assign\"}", "[1, 2", ""}) {
    scratch.write("sheets/assign.json", text);
    CHECK(run({"assign", roster.string(), "--out", (scratch.path() / "sheets").string()}).code == 4);
    CHECK(text_of(scratch.path() / "sheets/assign.json") == text);
  }
}

TEST_CASE("assign without a folder only tells the summary") {
  const ScratchFolder scratch;
  const auto roster = scratch.write("class.yaml", roster_of(two_pupils));
  CHECK(run({"assign", roster.string()}).out.find("Sam") != std::string::npos);
  CHECK(std::distance(fs::directory_iterator(scratch.path()), fs::directory_iterator()) == 1);
}

TEST_CASE("drill writes a score that the program reads again") {
  const ScratchFolder scratch;
  const fs::path file = scratch.path() / "practice.musicxml";
  const Run done = run({"drill", demo, "-i", "bassoon", "--bars", "10", "--hardest", "1", "-o", file.string()});
  CHECK(done.code == 1);
  CHECK(done.out.find("Take care") != std::string::npos);
  const auto passage = fingerway::read_musicxml(file, {});
  CHECK(passage.title == "Lowland Round: practice");
  CHECK(run({"plan", file.string(), "-i", "bassoon", "--keep-marked"}).code <= 1);
  const auto json =
      nlohmann::json::parse(run({"drill", demo, "-i", "bassoon", "--bars", "10", "--hardest", "1", "--json", "-"}).out);
  CHECK(json["notes"].size() == passage.notes.size());
  CHECK(json["exercises"].size() == 1);
}

TEST_CASE("habits of a converted instrument are told where they fail on the stock one") {
  const std::vector<std::string> words = {"plan",   demo, "-i", "bassoon", "--habits", "bassoon+interlinked-low-keys",
                                          "--bars", "10"};
  CHECK(run(words).out.find("What fails, and what to use instead") != std::string::npos);
  std::vector<std::string> as_json = words;
  as_json.insert(as_json.end(), {"--json", "-"});
  const auto json = nlohmann::json::parse(run(as_json).out);
  CHECK(json["format"] == "fingerway/habits");
  CHECK(json["failing_notes"] > 0);
  CHECK(run({"plan", demo, "-i", "bassoon", "--habits", "flute"}).code == 2);
}

TEST_CASE("a player file is taken by every command that plans") {
  const ScratchFolder scratch;
  const auto player = scratch.write("me.yaml",
                                    "fingerway: player\nversion: 1\nname: Robin\ninstrument: bassoon\n"
                                    "cannot_use: [LT.low-bflat]\n");
  const std::string file = player.string();
  CHECK(run({"check", file}).out == file + ": sound\n");
  for (const auto& words : std::vector<std::vector<std::string>>{
           {"plan", demo, "-i", "bassoon", "--bars", "9", "--player", file},
           {"compare", demo, "-i", "bassoon", "--with", "bassoon+low-key-rollers", "--bars", "9", "--player", file},
           {"price", demo, "-i", "bassoon", "--choices", "scores/own-way.yaml", "--player", file},
           {"trills", "-i", "bassoon", "--between", "F2", "G2", "--player", file},
           {"drill", demo, "-i", "bassoon", "--bars", "9", "--player", file}}) {
    INFO(words.front());
    const Run done = run(words);
    CHECK(done.code <= 1);
    CHECK(done.out.find("Robin") != std::string::npos);
  }
  CHECK(run({"plan", demo, "-i", "bassoon", "--player", file, "--level", "beginner"}).code == 3);
}

TEST_CASE("a player's own fingering that does not sound its note is a fault") {
  const ScratchFolder scratch;
  const auto player = scratch.write("me.yaml",
                                    "fingerway: player\nversion: 1\ninstrument: bassoon\n"
                                    "preferred: [{note: F2, press: [L1.hole]}]\n");
  const Run checked = run({"check", player.string()});
  CHECK(checked.code == 2);
  CHECK(checked.err.find("do not sound F2 on bassoon") != std::string::npos);
  CHECK(run({"plan", demo, "-i", "bassoon", "--player", player.string()}).code == 2);
}

TEST_CASE("a pin on what the player has not learned is refused, with its place") {
  const ScratchFolder scratch;
  const auto player = scratch.write("me.yaml",
                                    "fingerway: player\nversion: 1\ninstrument: bassoon\n"
                                    "not_learned: [{note: G#2, mark: \"RT Ab\"}]\n");
  const Run done =
      run({"price", demo, "-i", "bassoon", "--choices", "scores/own-way.yaml", "--player", player.string()});
  CHECK(done.code == 2);
  CHECK(done.err.find("scores/own-way.yaml:6:5: the player file rules this fingering out") != std::string::npos);
}

TEST_CASE("the demo players and rosters are sound") {
  for (const char* folder : {"scores/players", "scores/rosters"}) {
    for (const auto& entry : fs::directory_iterator(folder)) {
      if (entry.path().extension() != ".yaml") continue;
      INFO(entry.path());
      CHECK(run({"check", entry.path().string()}).code == 0);
    }
  }
}
