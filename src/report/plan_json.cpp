#include <algorithm>

#include "fingerway/decide/losses.hpp"
#include "fingerway/report/json.hpp"
#include "fingerway/report/view.hpp"
#include "json_parts.hpp"
#include "moments.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

Json plan_part(const Played& played, const Passage& passage, const Plan& plan) {
  Json json = Json::object();
  json.with("summary", summary_json(plan.summary)).with("notes", notes_json(played, passage, plan));
  return json;
}

Json differing_json(const DifferingNote& differing) {
  Json json = Json::object();
  json.with("index", differing.note)
      .with("fingering_differs", differing.fingering_differs)
      .with("arrival_differs", differing.arrival_differs);
  return json;
}

}  // namespace

std::string plan_json(const Played& played, const Passage& passage, const std::vector<Plan>& plans) {
  Json json = document("plan");
  json.with("instrument", instrument_json(played))
      .with("passage", passage_json(passage))
      .with("summary", summary_json(plans.front().summary))
      .with("notes", notes_json(played, passage, plans.front()));
  Json others = Json::list();
  for (std::size_t i = 1; i < plans.size(); ++i) others.add(plan_part(played, passage, plans[i]));
  json.with("alternatives", others)
      .with("assumed", assumptions(played, passage, plans.front()))
      .with("cautions", cautions());
  return text_of(json);
}

std::string compare_json(const Played& stock, const Played& converted, const Passage& passage,
                         const Comparison& comparison) {
  const auto fingerings = [](const Played& played, const std::vector<SoundedFingering>& list) {
    Json json = Json::list();
    for (const SoundedFingering& one : list) {
      Json entry = candidate_json(played.instrument, one.candidate);
      entry.with("written", name(chart_spelling(one.pitch)));
      json.add(entry);
    }
    return json;
  };
  Json differing = Json::list();
  for (const DifferingNote& note : comparison.differing) differing.add(differing_json(note));
  Json json = document("compare");
  json.with("passage", passage_json(passage))
      .with("stock", planned_side_json(stock, passage, comparison.stock))
      .with("converted", planned_side_json(converted, passage, comparison.converted))
      .with("differing", differing)
      .with("gained", fingerings(converted, comparison.here.gained))
      .with("lost", fingerings(stock, comparison.here.lost))
      .with("cautions", cautions());
  return text_of(json);
}

std::string price_json(const Played& played, const Passage& passage, const Plan& own, const Plan& best) {
  Json lost = Json::list();
  for (const Loss& loss : losses(own, best)) {
    const NoteEvent& note = passage.notes[loss.note];
    Json one = Json::object();
    one.with("index", loss.note)
        .with("measure", passage.measures[note.place.measure].name)
        .with("beat", beat_name(passage, note))
        .with("points", loss.points.value());
    lost.add(one);
  }
  Json json = document("price");
  json.with("instrument", instrument_json(played))
      .with("passage", passage_json(passage))
      .with("dearer", static_cast<double>(own.summary.weight - best.summary.weight) / 1e6)
      .with("losses", lost)
      .with("own", plan_part(played, passage, own))
      .with("best", plan_part(played, passage, best))
      .with("cautions", cautions());
  return text_of(json);
}

std::string explain_json(const Played& played, const Passage& passage, const Explanation& explanation) {
  Json options = Json::list();
  for (const Option& option : explanation.options) {
    Json elsewhere = Json::list();
    for (std::size_t note : option.elsewhere) elsewhere.add(note);
    Json terms = Json::object();
    for (std::size_t i = 0; i < note_term_count; ++i) {
      terms.with(std::string(words(static_cast<NoteTerm>(i))), option.here.cost.terms[i]);
    }
    Json steps = Json::object();
    if (option.here.arrive) {
      for (std::size_t i = 0; i < step_term_count; ++i) {
        steps.with(std::string(words(static_cast<StepTerm>(i))), option.here.arrive->cost.terms[i]);
      }
    }
    Json one = Json::object();
    one.with("dearer", option.dearer.value())
        .with("here", note_json(played, passage, option.here, explanation.note))
        .with("note_cost", terms)
        .with("arrive_cost", steps)
        .with("leave", arrival_json(played, option.leave))
        .with("elsewhere", elsewhere);
    options.add(one);
  }
  Json json = document("explain");
  json.with("instrument", instrument_json(played))
      .with("passage", passage_json(passage))
      .with("note", explanation.note)
      .with("options", options);
  return text_of(json);
}

}  // namespace fingerway
