#include "lesson_view.hpp"

#include <algorithm>
#include <utility>

#include "fingerway/report/choice_marks.hpp"
#include "moments.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

/// A saving smaller than this is not worth a lesson, points.
constexpr double telling_points = 1.0;

std::string note_words(const Passage& passage, std::size_t note) {
  const NoteEvent& event = passage.notes[note];
  std::string words = display_name(event.spelling);
  if (event.other) words += "~" + display_name(*event.other);
  return words;
}

std::string bars_words(const Passage& passage, const std::vector<std::size_t>& notes) {
  std::vector<std::string> bars;
  for (std::size_t note : notes) {
    const std::string& bar = passage.measures[passage.notes[note].place.measure].name;
    if (std::ranges::find(bars, bar) == bars.end()) bars.push_back(bar);
  }
  return (bars.size() == 1 ? "bar " : "bars ") + listed(bars);
}

std::string why_words(const AssignedPupil& pupil, Missing why) {
  switch (why) {
    case Missing::on_instrument:
      return "no fingering on the " + instrument_words(pupil.played.instrument);
    case Missing::for_hand:
      return "every fingering needs what this player must not use";
    case Missing::not_learned:
      break;
  }
  return "no fingering learned yet";
}

/// One line for each note and reason, with every bar it stands in.
void add_missing(const AssignedPupil& pupil, const AssignedPassage& assigned, LessonView& view) {
  std::vector<std::pair<std::string, Missing>> kinds;
  std::vector<std::vector<std::size_t>> places;
  for (const MissingNote& missing : assigned.lesson.missing) {
    const std::pair kind(note_words(assigned.passage, missing.note), missing.why);
    const auto known = std::ranges::find(kinds, kind);
    const auto k = static_cast<std::size_t>(known - kinds.begin());
    if (known == kinds.end()) {
      kinds.push_back(kind);
      places.emplace_back();
    }
    places[k].push_back(missing.note);
  }
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    auto& list = kinds[k].second == Missing::not_learned ? view.not_learned : view.not_possible;
    list.push_back(kinds[k].first + ": " + why_words(pupil, kinds[k].second) + "; " +
                   bars_words(assigned.passage, places[k]));
  }
}

std::string fresh_words(const AssignedPupil& pupil, const Passage& passage, const NewFingering& fresh) {
  PlannedNote planned;
  planned.candidate = fresh.candidate;
  std::string text = pitch_words(fresh.pitch) + ", “" + pencil_mark(pupil.played, planned) +
                     "”: " + compact(pupil.played.instrument, fresh.candidate.fingering) + "; " +
                     bars_words(passage, fresh.notes);
  if (fresh.saves) text += "; saves " + rounded(fresh.saves->value(), 0) + " points";
  if (fresh.saves && fresh.ceiling) {
    // Rounded down: a ceiling must not promise more than there is.
    text += "; the passage then goes up to " + std::to_string(static_cast<int>(fresh.ceiling->value())) +
            " quarter notes a minute";
  }
  return text;
}

std::string verdict_words(const Lesson& lesson, const LessonView& view) {
  if (!view.not_possible.empty()) {
    return "Cannot be played as written on this instrument at this tempo: " +
           counted(view.not_possible.size(), "place", "places") + ".";
  }
  if (!view.needed.empty()) {
    return "Needs " + counted(view.needed.size(), "new fingering", "new fingerings") + ".";
  }
  if (!lesson.plan.summary.fits) return "Too fast for the least awkward way with what is known.";
  return "Can be played with what is known.";
}

}  // namespace

LessonView lesson_view(const AssignedPupil& pupil, const AssignedPassage& assigned) {
  const Lesson& lesson = assigned.lesson;
  const Passage& passage = assigned.passage;
  LessonView view;
  add_missing(pupil, assigned, view);
  for (std::size_t note : lesson.trills_out_of_reach) {
    view.not_possible.push_back(place_words(passage, note) + ", " + note_words(passage, note) + ": out of reach, " +
                                rounded(lesson.open.notes[note].rate->value(), 1) + " notes a second at best");
  }
  for (std::size_t note : lesson.too_fast) {
    view.not_possible.push_back(place_words(passage, note) + ": too fast for any fingering here: " +
                                change_words(pupil.played, passage, lesson.fastest, note));
  }
  std::size_t untried = 0;
  for (const NewFingering& fresh : lesson.fresh) {
    if (fresh.needed) {
      view.needed.push_back(fresh_words(pupil, passage, fresh));
    } else if (!fresh.saves) {
      ++untried;
    } else if (fresh.saves->value() >= telling_points) {
      view.helpful.push_back(fresh_words(pupil, passage, fresh));
    }
  }
  if (untried > 0) {
    view.helpful.push_back(counted(untried, "more fingering", "more fingerings") +
                           " somebody who knows all would use here, not tried one by one");
  }
  view.ceiling = ceiling_words(lesson.plan.summary);
  view.verdict = verdict_words(lesson, view);
  return view;
}

std::string pupil_words(const AssignedPupil& pupil) {
  return pupil.name + ", " + instrument_words(pupil.played.instrument);
}

std::string title_words(const AssignedPassage& passage) {
  const std::string title = passage.passage.title.empty() ? passage.id : passage.passage.title;
  return passage.bars.empty() ? title : title + ", bars " + passage.bars;
}

}  // namespace fingerway
