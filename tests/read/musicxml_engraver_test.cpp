#include <cstdlib>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "fingerway/read/musicxml.hpp"
#include "random_score.hpp"
#include "support/command_output.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;

namespace {

std::vector<std::string> scores() {
  std::vector<std::string> files;
  for (const char* folder : {"scores", "tests/melodies"}) {
    for (const auto& entry : std::filesystem::directory_iterator(project_folder() / folder)) {
      if (entry.path().extension() == ".musicxml") files.push_back(entry.path().string());
    }
  }
  return files;
}

bool is_grace(const Passage& passage, std::size_t i) { return i < passage.notes.size() && passage.notes[i].grace; }

/// The engraver lets grace notes take time from the note before, Fingerway from the note after: beside a grace note
/// only the end that neither moves is compared.
void compare(const Passage& passage, const nlohmann::json& played) {
  REQUIRE(passage.notes.size() == played.size());
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    const NoteEvent& note = passage.notes[i];
    const nlohmann::json& other = played[i];
    INFO("note " << i << ", " << name(note.spelling) << " in measure " << passage.measures[note.place.measure].name);
    CHECK(sounding(note.pitch, passage.transposition).key == other["pitch"].get<int>());
    CHECK(note.grace == other["grace"].get<bool>());
    if (note.grace) continue;
    const double onset = other["onset"].get<double>();
    const ScoreTime end = note.onset + note.length;
    const double onset_ms = other["onset_ms"].get<double>();
    CHECK(end.quarters() == Approx(onset + other["length"].get<double>()).margin(1e-6));
    // The engraver rounds every moment to a millisecond.
    CHECK(passage.tempo.at(end).count() == Approx(onset_ms + other["length_ms"].get<double>()).margin(2.0));
    if (i > 0 && is_grace(passage, i - 1)) continue;
    CHECK(note.onset.quarters() == Approx(onset).margin(1e-6));
    CHECK(passage.tempo.at(note.onset).count() == Approx(onset_ms).margin(1.0));
  }
}

/// The engraver's notes of every file; null where it is not there to ask.
nlohmann::json played_by_engraver(const std::vector<std::string>& files) {
  const char* checks = std::getenv("FINGERWAY_NODE_CHECKS");
  if (checks == nullptr) {
    WARN("not compared: FINGERWAY_NODE_CHECKS names no folder with the engraver (tools/test sets it)");
    return nullptr;
  }
  std::string command = "node '" + std::string(checks) + "/timemap.mjs'";
  for (const std::string& file : files) command += " '" + file + "'";
  const std::string printed = output_of(command);
  REQUIRE_FALSE(printed.empty());
  return nlohmann::json::parse(printed);
}

}  // namespace

TEST_CASE("an engraver plays the notes that are read, at the same times") {
  const std::vector<std::string> files = scores();
  REQUIRE(files.size() >= 6);
  const nlohmann::json played = played_by_engraver(files);
  if (played.is_null()) return;
  for (const std::string& file : files) {
    INFO(file);
    compare(read_musicxml(file, {.order = PlayOrder::as_written, .ornaments = Ornaments::main_note}), played.at(file));
  }
}

TEST_CASE("an engraver plays the notes of random scores as they are read") {
  const ScratchFolder scratch;
  std::vector<std::string> files;
  for (std::uint32_t seed = 1; seed <= 20; ++seed) {
    const test::RandomKind kind{.nested_tuplets = false, .second_voice = false, .repeats = false};
    files.push_back(
        scratch.write("random" + std::to_string(seed) + ".musicxml", test::RandomScoreMaker(seed, kind).make().text));
  }
  const nlohmann::json played = played_by_engraver(files);
  if (played.is_null()) return;
  for (const std::string& file : files) {
    INFO(file);
    const Passage passage = read_musicxml(file, {});
    compare(passage, played.at(file));
  }
}
