#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "fingerway/read/musicxml.hpp"
#include "fingerway/report/marks.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;

namespace {

std::string demo_score() {
  std::ifstream in(project_folder() / "scores" / "lowland-round.musicxml", std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Notes in order, none over another, each of some length and known measure: what the rest of Fingerway relies on.
bool is_sound(const Passage& passage) {
  ScoreTime end;
  for (const NoteEvent& note : passage.notes) {
    if (note.onset < end || note.length <= ScoreTime(0)) return false;
    if (note.place.measure >= passage.measures.size()) return false;
    if (note.pitch != written(note.spelling)) return false;
    end = note.onset + note.length;
  }
  return !passage.notes.empty();
}

/// Reads a text, marks every note and reads it again. Counts what was readable; a fault is as good.
void read_and_mark(const std::string& text, int& readable) {
  try {
    const Passage passage = parse_musicxml(text, "damaged", {});
    CHECK(is_sound(passage));
    std::vector<ScoreMark> marks;
    for (const NoteEvent& note : passage.notes) marks.push_back({note.place.element, "RT"});
    const std::string marked = with_marks(text, passage.part_id, marks);
    CHECK(parse_musicxml(marked, "damaged", {}).notes.size() == passage.notes.size());
    CHECK(without_marks(marked) == text);
    CHECK(with_marks(marked, passage.part_id, marks) == marked);
    ++readable;
  } catch (const InputError& error) {
    CHECK_FALSE(error.faults().empty());
  }
}

}  // namespace

TEST_CASE("a score with bytes changed is read soundly or refused") {
  const std::string score = demo_score();
  REQUIRE(score.size() > 10000);
  std::mt19937 random(20);
  int readable = 0;
  for (int round = 0; round < 400; ++round) {
    std::string damaged = score;
    const auto changes = 1 + random() % 3;
    for (std::size_t i = 0; i < changes; ++i) {
      const std::size_t place = random() % damaged.size();
      // Mostly digits and markup: other bytes seldom get past the XML parser.
      constexpr char likely[] = "0123456789-.<>/\"ABG x";
      damaged[place] = random() % 8 == 0 ? static_cast<char>(random() % 256) : likely[random() % (sizeof likely - 1)];
    }
    INFO("round " << round);
    read_and_mark(damaged, readable);
  }
  CHECK(readable > 50);
  CHECK(readable < 400);
}

TEST_CASE("a score with lines left out or doubled is read soundly or refused") {
  std::vector<std::string> lines;
  std::ifstream in(project_folder() / "scores" / "lowland-round.musicxml");
  for (std::string line; std::getline(in, line);) lines.push_back(line + "\n");
  std::mt19937 random(21);
  int readable = 0;
  for (int round = 0; round < 400; ++round) {
    const std::size_t place = random() % lines.size();
    const bool doubled = random() % 2 == 0;
    std::string damaged;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const int times = i != place ? 1 : doubled ? 2 : 0;
      for (int k = 0; k < times; ++k) damaged += lines[i];
    }
    INFO("round " << round);
    read_and_mark(damaged, readable);
  }
  CHECK(readable > 50);
  CHECK(readable < 400);
}
