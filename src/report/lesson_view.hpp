// What this part answers: a lesson in words, in the order a teacher reads it; sheets and summary share it.
// Private to report.
#pragma once

#include <string>
#include <vector>

#include "fingerway/report/assign.hpp"

namespace fingerway {

struct LessonView {
  std::string verdict;                    ///< one sentence
  std::vector<std::string> not_possible;  ///< on this instrument or in this hand, whatever is learned
  std::vector<std::string> not_learned;   ///< notes without a fingering among those learned
  std::vector<std::string> needed;        ///< fingerings to learn first
  std::vector<std::string> helpful;       ///< fingerings that would ease the passage
  std::string ceiling;                    ///< with what is known
};

[[nodiscard]] LessonView lesson_view(const AssignedPupil& pupil, const AssignedPassage& passage);

/// "Robin, German-system bassoon".
[[nodiscard]] std::string pupil_words(const AssignedPupil& pupil);
/// The passage's title, or its id where it has none.
[[nodiscard]] std::string title_words(const AssignedPassage& passage);

}  // namespace fingerway
