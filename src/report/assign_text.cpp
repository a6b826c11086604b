#include "fingerway/report/text.hpp"
#include "json_parts.hpp"
#include "lesson_view.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string before_the_lesson(const LessonView& seen) {
  return bullets("Cannot be played on this instrument as written", seen.not_possible) +
         bullets("Not learned yet", seen.not_learned) + bullets("New, and needed", seen.needed) +
         bullets("New, and a help", seen.helpful);
}

std::string_view why_id(Missing why) {
  switch (why) {
    case Missing::on_instrument:
      return "not-on-instrument";
    case Missing::for_hand:
      return "not-for-this-hand";
    case Missing::not_learned:
      break;
  }
  return "not-learned";
}

Json place_json(const Passage& passage, std::size_t note) {
  Json json = Json::object();
  json.with("index", note)
      .with("measure", passage.measures[passage.notes[note].place.measure].name)
      .with("beat", beat_name(passage, passage.notes[note]));
  return json;
}

Json places_json(const Passage& passage, const std::vector<std::size_t>& notes) {
  Json json = Json::list();
  for (std::size_t note : notes) json.add(place_json(passage, note));
  return json;
}

Json passage_of_pupil(const AssignedPupil& pupil, const AssignedPassage& assigned) {
  const Lesson& lesson = assigned.lesson;
  Json missing = Json::list();
  for (const MissingNote& note : lesson.missing) {
    Json one = place_json(assigned.passage, note.note);
    one.with("written", name(assigned.passage.notes[note.note].spelling)).with("why", why_id(note.why));
    missing.add(one);
  }
  Json fresh = Json::list();
  for (const NewFingering& fingering : lesson.fresh) {
    Json way = candidate_json(pupil.played.instrument, fingering.candidate);
    way.with("written", name(chart_spelling(fingering.pitch)));
    Json one = Json::object();
    one.with("fingering", way)
        .with("needed", fingering.needed)
        .with("saves", fingering.saves ? Json(fingering.saves->value()) : Json())
        .with("ceiling_qpm", number_or_null(fingering.ceiling))
        .with("notes", places_json(assigned.passage, fingering.notes));
    fresh.add(one);
  }
  Json json = Json::object();
  json.with("id", assigned.id)
      .with("passage", passage_json(assigned.passage))
      .with("playable", lesson.playable())
      .with("summary", summary_json(lesson.plan.summary))
      .with("everything_learned", summary_json(lesson.open.summary))
      .with("missing", missing)
      .with("trills_out_of_reach", places_json(assigned.passage, lesson.trills_out_of_reach))
      .with("too_fast", places_json(assigned.passage, lesson.too_fast))
      .with("new", fresh)
      .with("files", assigned.files);
  return json;
}

}  // namespace

std::string sheet_text(const AssignedPupil& pupil, const AssignedPassage& assigned) {
  const LessonView seen = lesson_view(pupil, assigned);
  std::string text = heading("For " + pupil.name, '=') + paragraph("", seen.verdict) + before_the_lesson(seen);
  return text + "\n\n" + plan_text(pupil.played, assigned.passage, {assigned.lesson.plan});
}

std::string assign_text(const Assignment& assignment) {
  std::string text = heading(assignment.title, '=');
  Table table({{.head = "pupil"},
               {.head = "passage", .widest = 24},
               {.head = "fits"},
               {.head = "ceiling", .align = Align::right},
               {.head = "what is to be said", .widest = 44}});
  for (const AssignedPupil& pupil : assignment.pupils) {
    for (const AssignedPassage& assigned : pupil.passages) {
      const PlanSummary& summary = assigned.lesson.plan.summary;
      const bool fits = summary.fits && summary.complete;
      table.row({pupil.name, title_words(assigned), fits ? "yes" : "no",
                 summary.ceiling ? std::to_string(static_cast<int>(summary.ceiling->value())) : "-",
                 lesson_view(pupil, assigned).verdict});
    }
  }
  text += table.text();
  text += paragraph("", "Ceilings in quarter notes a minute, with what is known.");
  for (const AssignedPupil& pupil : assignment.pupils) {
    for (const AssignedPassage& assigned : pupil.passages) {
      const std::string more = before_the_lesson(lesson_view(pupil, assigned));
      if (more.empty()) continue;
      text += "\n" + heading(pupil_words(pupil) + ": " + title_words(assigned), '=') + more;
    }
  }
  return text + foot();
}

std::string assign_json(const Assignment& assignment) {
  Json pupils = Json::list();
  for (const AssignedPupil& pupil : assignment.pupils) {
    Json passages = Json::list();
    for (const AssignedPassage& assigned : pupil.passages) passages.add(passage_of_pupil(pupil, assigned));
    Json one = Json::object();
    one.with("id", pupil.id)
        .with("name", pupil.name)
        .with("instrument", instrument_json(pupil.played))
        .with("passages", passages);
    pupils.add(one);
  }
  Json json = document("assign");
  json.with("title", assignment.title)
      .with("roster", assignment.file)
      .with("pupils", pupils)
      .with("cautions", cautions());
  return text_of(json);
}

}  // namespace fingerway
