#include <cstdlib>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "fingerway/read/musicxml.hpp"
#include "fingerway/report/marks.hpp"
#include "report/marked_scores.hpp"
#include "support/command_output.hpp"

using namespace fingerway;

namespace {

/// The pitch and the fingerings of each pitched note element, as the file has them.
nlohmann::json notes_of(const std::string& text) {
  pugi::xml_document document;
  REQUIRE(document.load_buffer(text.data(), text.size()));
  nlohmann::json notes = nlohmann::json::array();
  for (const pugi::xpath_node& found : document.select_nodes("//note[pitch]")) {
    const pugi::xml_node pitch = found.node().child("pitch");
    Spelling spelling;
    spelling.step = *pitch.child_value("step");
    spelling.alter = pitch.child("alter").text().as_int();
    spelling.octave = pitch.child("octave").text().as_int();
    nlohmann::json fingerings = nlohmann::json::array();
    for (const pugi::xpath_node& mark : found.node().select_nodes("notations/technical/fingering")) {
      fingerings.push_back(mark.node().child_value());
    }
    notes.push_back({{"pitch", name(spelling)}, {"fingerings", fingerings}});
  }
  return notes;
}

}  // namespace

TEST_CASE("an engraver draws each mark at the note it was made for") {
  const char* const folder = std::getenv("FINGERWAY_NODE_CHECKS");
  if (folder == nullptr) {
    WARN("not checked: FINGERWAY_NODE_CHECKS names no folder with the node packages");
    return;
  }
  const ScratchFolder scratch;
  std::string files;
  std::vector<std::pair<std::string, std::string>> texts;
  for (const std::filesystem::path& file : all_scores()) {
    const std::string text = bytes_of(file);
    const Passage passage = parse_musicxml(text, "score", {});
    std::vector<ScoreMark> marks;
    for (std::size_t i = 0; i < passage.notes.size(); ++i) {
      // Every third note goes without, and each mark is another: one at the wrong note cannot go unseen.
      if (i % 3 == 2) continue;
      marks.push_back({passage.notes[i].place.element, "R4 Ab +" + std::to_string(i), "R4.aflat"});
    }
    const std::string marked = with_marks(text, passage.part_id, marks);
    const std::string path = scratch.write(file.filename().string(), marked).string();
    files += " '" + path + "'";
    texts.emplace_back(path, marked);
  }
  const nlohmann::json drawn =
      nlohmann::json::parse(output_of("cd '" + std::string(folder) + "' && node marks.mjs" + files), nullptr, false);
  REQUIRE(drawn.is_object());
  for (const auto& [path, text] : texts) {
    INFO(path);
    REQUIRE(drawn.contains(path));
    const nlohmann::json expected = notes_of(text);
    CHECK(drawn[path].size() == expected.size());
    for (std::size_t i = 0; i < std::min(drawn[path].size(), expected.size()); ++i) {
      INFO("note " << i);
      CHECK(drawn[path][i] == expected[i]);
    }
  }
}
