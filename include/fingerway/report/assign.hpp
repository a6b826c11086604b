// What this part answers: a pupil's sheet and the teacher's summary of a roster, as text, pages and JSON.
// It decides nothing (decide/lesson.hpp) and writes no files.
#pragma once

#include <string>
#include <vector>

#include "fingerway/decide/lesson.hpp"

namespace fingerway {

/// One passage of one pupil, with the files of its sheet as paths within the folder (none where none is written).
struct AssignedPassage {
  std::string id;
  Passage passage;
  Lesson lesson;
  std::vector<std::string> files = {};
  std::string bars = {};  ///< as asked for; empty: all
};

/// A pupil with what there is to play.
struct AssignedPupil {
  std::string id;
  std::string name;
  Played played;
  std::vector<AssignedPassage> passages;
};

/// All pupils of a roster.
struct Assignment {
  std::string title;
  std::string file;
  std::vector<AssignedPupil> pupils;
};

/// A pupil's sheet: what cannot be played, what is new, then the plan with what is there and known.
[[nodiscard]] std::string sheet_text(const AssignedPupil& pupil, const AssignedPassage& passage);
/// The same as a page with finger lanes.
[[nodiscard]] std::string sheet_page(const AssignedPupil& pupil, const AssignedPassage& passage);

/// The teacher's summary: a line a sheet, then what to see to before the lesson, pupil by pupil.
[[nodiscard]] std::string assign_text(const Assignment& assignment);
/// The same as a page that leads to the sheets.
[[nodiscard]] std::string assign_page(const Assignment& assignment);
/// Format "fingerway/assign".
[[nodiscard]] std::string assign_json(const Assignment& assignment);

}  // namespace fingerway
