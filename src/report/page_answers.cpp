#include "fingerway/report/page_answers.hpp"

#include "compare_view.hpp"
#include "fingerway/report/choice_marks.hpp"
#include "fingerway/report/view.hpp"
#include "json_parts.hpp"
#include "moments.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

constexpr std::size_t hardest_told = 5;

Json bars_json(const Passage& passage) {
  Json bars = Json::list();
  std::size_t note = 0;
  for (std::size_t m = 0; m < passage.measures.size(); ++m) {
    while (note < passage.notes.size() && passage.notes[note].place.measure < m) ++note;
    Json bar = Json::object();
    bar.with("name", passage.measures[m].name)
        .with("start_ms", passage.tempo.at(passage.measures[m].start).count())
        .with("first_note", note)
        .with("pass", passage.measures[m].pass);
    bars.add(bar);
  }
  return bars;
}

Json event_json(const Passage& passage, Transposition transposition, std::size_t i, Ms end_before) {
  const NoteEvent& event = passage.notes[i];
  const Ms onset = passage.tempo.at(event.onset);
  Json note = Json::object();
  note.with("i", i)
      .with("bar", passage.measures[event.place.measure].name)
      .with("beat", beat_name(passage, event))
      .with("name", display_name(event.spelling));
  if (event.other) note.with("other", display_name(*event.other));
  return note.with("midi", sounding(event.pitch, transposition).key)
      .with("onset_ms", onset.count())
      .with("length_ms", (passage.tempo.at(event.onset + event.length) - onset).count())
      .with("slurred", event.attack == Attack::slurred)
      .with("rest_before", onset - end_before > Ms(1e-6));
}

Json heard_json(const Passage& passage, Transposition transposition) {
  Json notes = Json::list();
  const Ms start = passage.measures.empty() ? Ms(0) : passage.tempo.at(passage.measures.front().start);
  Ms end = start;
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    notes.add(event_json(passage, transposition, i, end));
    end = passage.tempo.at(passage.notes[i].onset + passage.notes[i].length);
  }
  Json json = Json::object();
  return json.with("title", passage.title.empty() ? "Untitled passage" : passage.title)
      .with("part", passage.part_id)
      .with("part_name", passage.part_name)
      .with("voice", passage.voice)
      .with("bars", bars_json(passage))
      .with("tempo_qpm", passage.tempo.changes().front().tempo.value())
      .with("start_ms", start.count())
      .with("length_ms", (end - start).count())
      .with("notes", notes);
}

Json planned_json(const AnswerSide& side, const Passage& passage, std::size_t i, bool pinned) {
  const PlannedNote& planned = side.plan.notes[i];
  const Instrument& instrument = side.played.instrument;
  Json note = Json::object();
  note.with("compact", planned.candidate ? compact(instrument, planned.candidate->fingering) : std::string());
  if (planned.other) note.with("other_compact", compact(instrument, planned.other->fingering));
  const bool matters = choice_matters(side.played, passage.notes[i], planned);
  if (matters) note.with("mark", pencil_mark(side.played, planned));
  note.with("matters", matters).with("choices", planned.choices);
  bool fit = planned.candidate.has_value();
  if (planned.arrive) {
    note.with("needs", planned.arrive->step.time.count())
        .with("there_is", planned.arrive->context.available.count())
        .with("load", planned.arrive->load());
    fit = fit && fits(*planned.arrive);
  }
  note.with("fits", fit);
  if (planned.rate) note.with("rate", planned.rate->value());
  const std::vector<std::string> warnings = warnings_of(side.played, passage, side.plan, i);
  if (!warnings.empty()) note.with("warnings", warnings);
  if (pinned) note.with("pinned", true);
  return note;
}

Json moments_json(const std::vector<Moment>& moments) {
  Json list = Json::list();
  for (const Moment& moment : moments) {
    Json one = Json::object();
    list.add(
        one.with("note", moment.note).with("where", moment.where).with("what", moment.what).with("fits", moment.fits));
  }
  return list;
}

Json facts_json(const PlanView& seen) {
  Json facts = Json::list();
  for (const auto* lines : {&seen.read, &seen.key_numbers}) {
    for (const Labelled& line : *lines) {
      Json fact = Json::object();
      facts.add(fact.with("label", line.label).with("text", line.text));
    }
  }
  return facts;
}

Json side_json(const AnswerSide& side, const Passage& passage, const PlanView& seen) {
  std::vector<bool> pinned(passage.notes.size(), false);
  for (const Pin& pin : side.choices.pins) pinned[pin.note] = true;
  Json notes = Json::list();
  for (std::size_t i = 0; i < side.plan.notes.size(); ++i) notes.add(planned_json(side, passage, i, pinned[i]));
  const PlanSummary& summary = side.plan.summary;
  Json json = Json::object();
  return json.with("instrument", stacked_id(side.played.instrument))
      .with("name", instrument_words(side.played.instrument))
      .with("fits", summary.fits)
      .with("complete", summary.complete)
      .with("ceiling_qpm", number_or_null(summary.ceiling))
      .with("best_ceiling_qpm", number_or_null(summary.best_ceiling))
      .with("awkwardness", summary.awkwardness.value())
      .with("worst_load", summary.worst_load)
      .with("worst_note", summary.worst_note ? Json(*summary.worst_note) : Json())
      .with("facts", facts_json(seen))
      .with("decides", seen.decides)
      .with("notes", notes)
      .with("hardest", moments_json(seen.hardest))
      .with("not_playable", seen.not_playable)
      .with("assumed", seen.assumed);
}

Json changed_json(const std::vector<ChangedNote>& notes) {
  Json list = Json::list();
  for (const ChangedNote& note : notes) {
    Json one = Json::object();
    list.add(one.with("note", note.note).with("fingerings", note.fingerings));
  }
  return list;
}

Json compare_answer(const CompareView& seen) {
  Json totals = Json::list();
  for (const TotalView& total : seen.totals) {
    Json one = Json::object();
    totals.add(one.with("label", total.label).with("stock", total.stock).with("converted", total.converted));
  }
  const auto side_words = [](const NoteView& note, bool fingering_differs) {
    const std::string fingering = note.compact.empty() ? "no fingering" : note.compact;
    return fingering_differs ? fingering + "; " + arrival_words(note) : arrival_words(note);
  };
  Json differing = Json::list();
  for (const DifferenceView& row : seen.differing) {
    Json one = Json::object();
    differing.add(one.with("note", row.note)
                      .with("where", row.where)
                      .with("stock", side_words(row.stock, row.fingering_differs))
                      .with("converted", side_words(row.converted, row.fingering_differs)));
  }
  Json json = Json::object();
  return json.with("verdict", seen.verdict)
      .with("totals", totals)
      .with("differing", differing)
      .with("gained", changed_json(seen.gained))
      .with("lost", changed_json(seen.lost));
}

}  // namespace

std::string plan_answer(const std::string& token, const Passage& passage, const std::vector<AnswerSide>& sides,
                        const Comparison* comparison) {
  Json json = Json::object();
  json.with("plan", token).with("passage", heard_json(passage, sides[0].played.instrument.transposition));
  Json answers = Json::list();
  if (comparison != nullptr) {
    const CompareView both = view(sides[0].played, sides[1].played, passage, *comparison);
    answers.add(side_json(sides[0], passage, both.stock)).add(side_json(sides[1], passage, both.converted));
    json.with("sides", answers).with("remarks", both.stock.remarks).with("compare", compare_answer(both));
  } else {
    const PlanView one = view(sides[0].played, passage, sides[0].plan);
    answers.add(side_json(sides[0], passage, one));
    json.with("sides", answers).with("remarks", one.remarks);
  }
  return short_text_of(json.with("cautions", cautions()));
}

std::vector<std::size_t> hardest_notes(const Played& played, const Passage& passage, const Plan& plan) {
  std::vector<std::size_t> notes;
  for (const Moment& moment : hardest_moments(played, passage, plan, hardest_told)) notes.push_back(moment.note);
  return notes;
}

std::vector<std::size_t> differing_notes(const Comparison& comparison) {
  std::vector<std::size_t> notes;
  for (const DifferingNote& differing : comparison.differing) notes.push_back(differing.note);
  return notes;
}

}  // namespace fingerway
