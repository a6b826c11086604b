#include "json_parts.hpp"

#include <algorithm>

#include "fingerway/report/choice_marks.hpp"
#include "fingerway/report/view.hpp"
#include "player_words.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string_view source_id(TempoSource source) {
  switch (source) {
    case TempoSource::metronome_mark:
      return "metronome-mark";
    case TempoSource::sound_element:
      return "sound-element";
    case TempoSource::request:
      return "request";
    case TempoSource::assumed:
      break;
  }
  return "assumed";
}

std::string_view kind_id(NoteKind kind) {
  return kind == NoteKind::trill ? "trill" : kind == NoteKind::tremolo ? "tremolo" : "note";
}

/// What a finger is on in a state: the touches it holds, the touch it flicks or waits over.
Json state_json(const Instrument& instrument, const FingerState& state) {
  if (state.nowhere) return {};
  if (state.kind != FingerState::Kind::holding) return Json(instrument.touches[state.over.index].name);
  std::vector<std::string> names;
  for (TouchId touch : state.hold.touches) {
    std::string name = instrument.touches[touch.index].name;
    names.push_back(state.hold.half.contains(touch) ? name + " (half)" : name);
  }
  return Json(joined(names, "+"));
}

template <class Terms>
Json terms_json(const Terms& terms, auto term_of) {
  Json object = Json::object();
  for (std::size_t i = 0; i < terms.size(); ++i) object.with(std::string(term_of(i)), terms[i]);
  return object;
}

}  // namespace

Json document(std::string_view format) {
  Json json = Json::object();
  json.with("format", "fingerway/" + std::string(format)).with("version", 1);
  return json;
}

Json number_or_null(const std::optional<Qpm>& tempo) { return tempo ? Json(tempo->value()) : Json(); }

Json instrument_json(const Played& played) {
  std::vector<std::string> conversions;
  for (const ConversionSheet& sheet : played.instrument.conversions) conversions.push_back(sheet.id);
  Json json = Json::object();
  json.with("id", played.instrument.id)
      .with("name", played.instrument.name)
      .with("conversions", conversions)
      .with("level", words(played.hand.level()))
      .with("player", player_json(played));
  return json;
}

Json passage_json(const Passage& passage) {
  Json tempo = Json::list();
  for (const TempoChange& change : passage.tempo.changes()) {
    Json one = Json::object();
    one.with("at_quarters", change.at.quarters())
        .with("qpm", change.tempo.value())
        .with("source", source_id(change.source));
    tempo.add(one);
  }
  Json remarks = Json::list();
  for (const Remark& remark : passage.remarks) {
    Json one = Json::object();
    one.with("within", remark.within).with("what", remark.what);
    remarks.add(one);
  }
  Json json = Json::object();
  json.with("file", passage.file)
      .with("title", passage.title)
      .with("part", passage.part_id)
      .with("part_name", passage.part_name)
      .with("voice", passage.voice)
      .with("notes", passage.notes.size())
      .with("tempo", tempo)
      .with("remarks", remarks);
  return json;
}

Json pressed_json(const Instrument& instrument, TouchSet touches) {
  Json json = Json::object();
  for (Finger finger : all_fingers) {
    Json names = Json::list();
    const TouchSet own = held_by(instrument, touches, finger);
    for (TouchId touch : own) names.add(instrument.touches[touch.index].name);
    if (!own.empty()) json.with(std::string(code(finger)), names);
  }
  return json;
}

Json full_names_json(const Instrument& instrument, TouchSet touches) {
  Json names = Json::list();
  for (TouchId touch : touches) names.add(full_name(instrument.touches[touch.index]));
  return names;
}

void add_fingering(Json& object, const Instrument& instrument, const Candidate* candidate) {
  const Fingering fingering = candidate == nullptr ? Fingering{} : candidate->fingering;
  object.with("pressed", candidate == nullptr ? Json() : pressed_json(instrument, fingering.pressed))
      .with("half", full_names_json(instrument, fingering.half))
      .with("flicked", full_names_json(instrument, fingering.flicked));
}

Json candidate_json(const Instrument& instrument, const Candidate& candidate) {
  const TableFingering& line = instrument.table[candidate.line];
  std::vector<std::string> traits;
  for (Trait trait : line.traits) traits.emplace_back(words(trait));
  Json json = Json::object();
  add_fingering(json, instrument, &candidate);
  json.with("origin", words(candidate.origin))
      .with("standing", standing_id(line.standing))
      .with("mark", line.mark)
      .with("way", words(line.way))
      .with("cents", line.cents ? Json(line.cents->value()) : Json())
      .with("source", line.evidence.sources)
      .with("confidence", words(line.evidence.confidence))
      .with("confirmed_whole", line.confirmed_whole)
      .with("traits", traits)
      .with("disputed", line.evidence.disputed)
      .with("remark", line.remark)
      .with("spare", full_names_json(instrument, candidate.spare));
  return json;
}

Json moves_json(const Instrument& instrument, const std::vector<FingerMove>& moves, bool back_and_forth) {
  Json list = Json::list();
  for (const FingerMove& m : moves) {
    const Ms time = std::max(back_and_forth ? m.move.busy_again : m.move.busy, m.move.travel);
    Json one = Json::object();
    one.with("finger", code(m.finger))
        .with("move", words(m.move.kind))
        .with("from", state_json(instrument, m.from))
        .with("to", state_json(instrument, m.to))
        .with("ms", time.count())
        .with("gap_ms", m.move.gap.count());
    list.add(one);
  }
  return list;
}

Json arrival_json(const Played& played, const Shared<Arrival>& arrival) {
  if (!arrival) return {};
  Json passing = Json::list();
  for (const PassingNote& note : arrival->passing) {
    Json one = Json::object();
    one.with("written", name(chart_spelling(note.pitch))).with("chance", note.chance).with("semitones", note.semitones);
    passing.add(one);
  }
  Json json = Json::object();
  json.with("possible", arrival->step.possible)
      .with("time_ms", arrival->step.time.count())
      .with("available_ms", arrival->context.available.count())
      .with("silence_ms", arrival->context.silence.count())
      .with("slurred", !arrival->context.tongued)
      .with("gap_ms", arrival->step.gap.count())
      .with("load", arrival->load())
      .with("awkwardness", arrival->step.awkwardness().value())
      .with("awkwardness_terms",
            terms_json(arrival->step.terms, [](std::size_t i) { return words(static_cast<Term>(i)); }))
      .with("moves", moves_json(played.instrument, moves_into(played, *arrival), arrival->context.back_and_forth))
      .with("passing", passing);
  return json;
}

Json summary_json(const PlanSummary& summary) {
  Json json = Json::object();
  json.with("complete", summary.complete)
      .with("fits", summary.fits)
      .with("awkwardness", summary.awkwardness.value())
      .with("worst_load", summary.worst_load)
      .with("worst_note", summary.worst_note ? Json(*summary.worst_note) : Json())
      .with("ceiling_qpm", number_or_null(summary.ceiling))
      .with("best_ceiling_qpm", number_or_null(summary.best_ceiling));
  return json;
}

Json note_json(const Played& played, const Passage& passage, const PlannedNote& planned, std::size_t index) {
  const NoteEvent& event = passage.notes[index];
  const Instrument& instrument = played.instrument;
  const Candidate* candidate = planned.candidate ? &*planned.candidate : nullptr;
  Json json = Json::object();
  json.with("index", index)
      .with("measure", passage.measures[event.place.measure].name)
      .with("beat", beat_name(passage, event))
      .with("written", name(event.spelling))
      .with("sounding_midi", sounding(event.pitch, instrument.transposition).key)
      .with("onset_ms", passage.tempo.at(event.onset).count())
      .with("length_ms", (passage.tempo.at(event.onset + event.length) - passage.tempo.at(event.onset)).count())
      .with("kind", kind_id(event.kind));
  add_fingering(json, instrument, candidate);
  json.with("origin", candidate == nullptr ? Json() : Json(words(candidate->origin)))
      .with("standing", candidate == nullptr ? Json() : Json(standing_id(instrument.table[candidate->line].standing)))
      .with("mark", pencil_mark(played, planned))
      .with("choice_matters", choice_matters(played, event, planned))
      .with("choices", planned.choices);
  if (event.other) {
    Json with = Json::object();
    with.with("written", name(*event.other));
    add_fingering(with, instrument, planned.other ? &*planned.other : nullptr);
    json.with("with", with);
    json.with("notes_per_second", planned.rate ? Json(planned.rate->value()) : Json());
  }
  json.with("arrive", arrival_json(played, planned.arrive));
  return json;
}

Json notes_json(const Played& played, const Passage& passage, const Plan& plan) {
  Json list = Json::list();
  for (std::size_t i = 0; i < plan.notes.size(); ++i) list.add(note_json(played, passage, plan.notes[i], i));
  return list;
}

Json planned_side_json(const Played& played, const Passage& passage, const Plan& plan) {
  Json json = Json::object();
  json.with("instrument", instrument_json(played))
      .with("summary", summary_json(plan.summary))
      .with("notes", notes_json(played, passage, plan));
  return json;
}

std::string_view verdict_id(Verdict verdict) {
  return verdict == Verdict::out_of_reach ? std::string_view("out-of-reach") : words(verdict);
}

std::string_view standing_id(Standing standing) {
  return standing == Standing::trill_only ? std::string_view("trill-only") : words(standing);
}

}  // namespace fingerway
