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
      .with("lost", sounded(played.instrument, change.lost))
      .with("altered", sounded(other.instrument, change.altered));
  return text_of(json);
}

}  // namespace fingerway
