#include <set>
#include <utility>

#include "drill_view.hpp"
#include "fingerway/report/choice_marks.hpp"
#include "fingerway/report/drill.hpp"
#include "fingerway/report/marks.hpp"
#include "passage_score.hpp"

namespace fingerway {
namespace {

/// The caution in words that no program takes for a tempo, as "fast" or "slow" would be.
constexpr const char* caution = "Rest often, and stop on pain or numbness. This is no medical advice.";

/// What stands over the bars: the caution first, then what each stretch is.
std::vector<BarWords> words_over_bars(const Drill& drill) {
  std::vector<BarWords> words;
  if (!drill.passage.measures.empty()) words.push_back({.measure = 0, .text = caution});
  std::pair<std::size_t, DrillKind> said = {drill.exercises.size(), DrillKind::steps};
  for (const DrillStretch& stretch : drill.stretches) {
    if (said == std::pair(stretch.exercise, stretch.kind)) continue;
    said = {stretch.exercise, stretch.kind};
    words.push_back({.measure = stretch.first_bar, .text = stretch_words(drill, stretch)});
  }
  return words;
}

/// Notes that may carry a mark: each one the first time it comes in a kind of stretch.
std::vector<bool> may_be_marked(const Drill& drill) {
  std::vector<bool> may(drill.passage.notes.size(), false);
  std::set<std::size_t> seen;
  std::size_t note = 0;
  std::pair<std::size_t, DrillKind> before = {drill.exercises.size(), DrillKind::steps};
  for (const DrillStretch& stretch : drill.stretches) {
    if (before != std::pair(stretch.exercise, stretch.kind)) seen.clear();
    before = {stretch.exercise, stretch.kind};
    const std::size_t end = stretch.first_bar + stretch.bars;
    for (; note < may.size() && drill.passage.notes[note].place.measure < end; ++note) {
      may[note] = seen.insert(drill.source[note]).second;
    }
  }
  return may;
}

}  // namespace

std::string drill_score(const Played& played, const Drill& drill) {
  Passage placed = drill.passage;
  placed.title = placed.title.empty() ? "Practice" : placed.title + ": practice";
  const PassageScore score = passage_score(placed, words_over_bars(drill));
  for (std::size_t n = 0; n < placed.notes.size(); ++n) placed.notes[n].place.element = score.elements[n];
  const std::vector<bool> may = may_be_marked(drill);
  std::set<std::uint32_t> elements;
  for (std::size_t n = 0; n < placed.notes.size(); ++n) {
    if (may[n]) elements.insert(placed.notes[n].place.element);
  }
  std::vector<ScoreMark> marks = marks_for(played, placed, drill.plan, MarkWhich::choices);
  std::erase_if(marks, [&](const ScoreMark& mark) { return !elements.contains(mark.element); });
  return with_marks(score.text, placed.part_id, marks);
}

}  // namespace fingerway
