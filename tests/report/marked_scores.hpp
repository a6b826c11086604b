// What this part answers: the scores tests write marks into, and marks for all their notes.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "fingerway/report/marks.hpp"
#include "support/scratch_folder.hpp"

namespace fingerway {

[[nodiscard]] inline std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// The demo scores and the melodies of the tests.
[[nodiscard]] inline std::vector<std::filesystem::path> all_scores() {
  std::vector<std::filesystem::path> files;
  for (const char* folder : {"scores", "tests/melodies"}) {
    for (const auto& entry : std::filesystem::directory_iterator(project_folder() / folder)) {
      if (entry.path().extension() == ".musicxml") files.push_back(entry.path());
    }
  }
  return files;
}

[[nodiscard]] inline std::vector<ScoreMark> mark_each_note(const Passage& passage, const std::string& text) {
  std::vector<ScoreMark> marks;
  for (const NoteEvent& note : passage.notes) marks.push_back({note.place.element, text, "L1.hole"});
  return marks;
}

/// A score of two parts; the notes given stand in the second, P1.
[[nodiscard]] inline std::string score_with(const std::string& notes) {
  return "<score-partwise><part-list/><part id=\"P0\"><measure number=\"1\"><note><pitch><step>A</step><octave>4"
         "</octave></pitch></note></measure></part><part id=\"P1\"><measure number=\"1\"><attributes><divisions>1"
         "</divisions></attributes>" +
         notes + "</measure></part></score-partwise>";
}

inline const std::string c3 = "<pitch><step>C</step><octave>3</octave></pitch><duration>1</duration>";

}  // namespace fingerway
