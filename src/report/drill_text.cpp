#include "drill_view.hpp"
#include "fingerway/report/drill.hpp"
#include "json_parts.hpp"
#include "moments.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {

std::string drill_text(const Played& played, const Passage& passage, const Plan& plan, const Drill& drill) {
  const PlanView seen = view(played, passage, plan);
  std::vector<Labelled> read = seen.read;
  read.push_back({"Speed ceiling", ceiling_words(plan.summary)});
  std::string text = heading("Practice: " + seen.title, '=') + labelled_lines(read);
  if (drill.exercises.empty()) text += "\n" + paragraph("", "No finger has to move: there is nothing to drill.");
  for (std::size_t e = 0; e < drill.exercises.size(); ++e) {
    const Exercise& exercise = drill.exercises[e];
    text += "\n" + heading(std::to_string(e + 1) + ". " + exercise_notes(drill, e) + ", from " +
                           place_words(passage, exercise.note));
    text += paragraph("", change_words(played, passage, plan, exercise.note) + ".");
    text += paragraph("", target_words(exercise) + ".");
    Table table({{.head = "bars"}, {.head = "quarter =", .align = Align::right}, {.head = "what"}});
    for (const DrillStretch& stretch : drill.stretches) {
      if (stretch.exercise != e) continue;
      const std::string words = stretch_words(drill, stretch);
      table.row({stretch_bars(stretch), rounded(stretch.tempo.value(), 0), words.substr(words.find(": ") + 2)});
    }
    text += table.text();
  }
  text += bullets("Cannot be played as written", seen.not_playable);
  text += bullets("Assumed", seen.assumed);
  text += bullets("Left out or changed when the score was read", seen.remarks);
  return text + foot();
}

std::string drill_json(const Played& played, const Passage& passage, const Plan& plan, const Drill& drill) {
  Json exercises = Json::list();
  for (std::size_t e = 0; e < drill.exercises.size(); ++e) {
    const Exercise& exercise = drill.exercises[e];
    Json stretches = Json::list();
    for (const DrillStretch& stretch : drill.stretches) {
      if (stretch.exercise != e) continue;
      Json one = Json::object();
      one.with("kind", stretch_id(stretch.kind))
          .with("first_bar", stretch.first_bar + 1)
          .with("bars", stretch.bars)
          .with("qpm", stretch.tempo.value());
      stretches.add(one);
    }
    Json one = Json::object();
    one.with("note", exercise.note)
        .with("measure", passage.measures[passage.notes[exercise.note].place.measure].name)
        .with("beat", beat_name(passage, passage.notes[exercise.note]))
        .with("from", name(passage.notes[exercise.note - 1].spelling))
        .with("to", name(passage.notes[exercise.note].spelling))
        .with("arrive", arrival_json(played, plan.notes[exercise.note].arrive))
        .with("target_qpm", exercise.target.value())
        .with("limit_qpm", exercise.limit.value())
        .with("top_qpm", exercise.top.value())
        .with("reaches_target", exercise.reaches_target())
        .with("stretches", stretches);
    exercises.add(one);
  }
  Json notes = Json::list();
  for (std::size_t n = 0; n < drill.passage.notes.size(); ++n) {
    const NoteEvent& note = drill.passage.notes[n];
    Json one = Json::object();
    one.with("bar", static_cast<std::size_t>(note.place.measure) + 1)
        .with("written", name(note.spelling))
        .with("quarters", note.length.quarters())
        .with("slurred", note.attack == Attack::slurred)
        .with("source", drill.source[n]);
    notes.add(one);
  }
  Json json = document("drill");
  json.with("instrument", instrument_json(played))
      .with("passage", passage_json(passage))
      .with("summary", summary_json(plan.summary))
      .with("exercises", exercises)
      .with("notes", notes)
      .with("cautions", cautions());
  return text_of(json);
}

}  // namespace fingerway
