#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "musicxml_score.hpp"
#include "random_score.hpp"

using namespace fingerway;
using namespace fingerway::test;

TEST_CASE("random scores are read as the events they were made of") {
  std::size_t events = 0;
  for (std::uint32_t seed = 1; seed <= 300; ++seed) {
    const RandomScore score = RandomScoreMaker(seed, {}).make();
    if (score.events.empty()) continue;  // rests alone
    INFO("seed " << seed << "\n" << score.text);
    const Passage passage = parsed(score.text, {.voice = "1"});
    std::vector<RandomEvent> read;
    for (const NoteEvent& note : passage.notes) {
      read.push_back({name(note.spelling), note.onset, note.length, note.attack, note.place.element});
    }
    REQUIRE(read.size() == score.events.size());
    for (std::size_t i = 0; i < read.size(); ++i) {
      INFO("event " << i << ": " << read[i].name << " read, " << score.events[i].name << " made");
      REQUIRE(read[i] == score.events[i]);
    }
    events += read.size();
  }
  // The property says nothing unless there was something to read.
  CHECK(events > 5000);
}

TEST_CASE("a random score turned into timewise is read the same") {
  for (std::uint32_t seed = 1; seed <= 30; ++seed) {
    const RandomScore score = RandomScoreMaker(seed, {}).make();
    if (score.events.empty()) continue;
    INFO("seed " << seed);
    // One part: its measures become the score's, and the part stands inside each of them.
    std::string text = score.text;
    const auto replace_all = [&](const std::string& from, const std::string& to) {
      for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
        text.replace(at, from.size(), to);
      }
    };
    replace_all("<part id=\"P1\">", "");
    replace_all("</part></score-partwise>", "</score-timewise>");
    replace_all("</measure>", "</part></measure>");
    replace_all("<score-partwise", "<score-timewise");
    for (std::size_t at = text.find("<measure"); at != std::string::npos; at = text.find("<measure", at)) {
      at = text.find('>', at) + 1;
      text.insert(at, "<part id=\"P1\">");
    }
    const Passage one = parsed(score.text, {.voice = "1"});
    const Passage other = parsed(text, {.voice = "1"});
    CHECK(one.notes == other.notes);
    CHECK(one.measures == other.measures);
  }
}
