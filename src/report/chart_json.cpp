#include "fingerway/report/json.hpp"
#include "json_parts.hpp"

namespace fingerway {
namespace {

Json chart(const Played& played) {
  Json notes = Json::list();
  for (const auto& [pitch, candidates] : played.derivation.by_pitch) {
    Json fingerings = Json::list();
    for (const Candidate& candidate : candidates) {
      Json fingering = candidate_json(played.instrument, candidate);
      const TouchSet stay = may_stay_down(played.instrument, played.derivation, pitch, candidate);
      fingering.with("may_stay_down", full_names_json(played.instrument, stay));
      fingerings.add(fingering);
    }
    Json note = Json::object();
    note.with("written", name(chart_spelling(pitch)))
        .with("sounding_midi", sounding(pitch, played.instrument.transposition).key)
        .with("fingerings", fingerings);
    notes.add(note);
  }
  Json json = document("chart");
  json.with("instrument", instrument_json(played)).with("notes", notes);
  return json;
}

Json sounded(const Instrument& instrument, const std::vector<SoundedFingering>& list) {
  Json json = Json::list();
  for (const SoundedFingering& one : list) {
    Json entry = candidate_json(instrument, one.candidate);
    entry.with("written", name(chart_spelling(one.pitch)));
    json.add(entry);
  }
  return json;
}

Json trill_json(const Played& played, const Trill& trill) {
  const bool is_trill = (trill.to - trill.from).count <= 2;
  Json json = Json::object();
  json.with("from", name(chart_spelling(trill.from)))
      .with("to", name(chart_spelling(trill.to)))
      .with("kind", is_trill ? "trill" : "tremolo")
      .with("notes_per_second", trill.best ? Json(trill.best->rate.value()) : Json())
      .with("verdict", verdict_id(trill.verdict));
  const auto half_of = [&](const std::string& side, const Candidate* candidate) {
    const Instrument& instrument = played.instrument;
    json.with(side + "_pressed", candidate == nullptr ? Json() : pressed_json(instrument, candidate->fingering.pressed))
        .with(side + "_half",
              full_names_json(instrument, candidate == nullptr ? TouchSet() : candidate->fingering.half))
        .with(side + "_origin",
              candidate == nullptr ? Json() : Json(candidate->origin == Origin::table ? "table" : "derived"));
  };
  half_of("from", trill.best ? &trill.best->from : nullptr);
  half_of("to", trill.best ? &trill.best->to : nullptr);
  json.with("moves", trill.best
                         ? moves_json(played.instrument,
                                      finger_moves(played.hand, trill.best->from_posture, trill.best->to_posture), true)
                         : Json::list());
  return json;
}

}  // namespace

std::string chart_json(const Played& played) {
  Json json = chart(played);
  json.with("gained", Json::list()).with("lost", Json::list());
  return text_of(json);
}

std::string chart_against_json(const Played& played, const Played& other) {
  const Difference change = difference(played.instrument, played.derivation, other.instrument, other.derivation);
  Json json = chart(other);
  json.with("against", instrument_json(played))
      .with("gained", sounded(other.instrument, change.gained))
      .with("lost", sounded(played.instrument, change.lost));
  return text_of(json);
}

std::string trills_json(const Played& played, const std::vector<Trill>& trills) {
  Json pairs = Json::list();
  for (const Trill& trill : trills) pairs.add(trill_json(played, trill));
  Json json = document("trills");
  json.with("instrument", instrument_json(played)).with("pairs", pairs);
  return text_of(json);
}

}  // namespace fingerway
