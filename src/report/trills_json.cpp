#include "fingerway/report/json.hpp"
#include "json_parts.hpp"

namespace fingerway {
namespace {

void add_result(Json& json, const Played& played, const Trill& trill) {
  json.with("notes_per_second", trill.best ? Json(trill.best->rate.value()) : Json())
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
}

Json pair_json(const Played& played, const Trill& trill) {
  const bool is_trill = (trill.to - trill.from).count <= 2;
  Json json = Json::object();
  json.with("from", name(chart_spelling(trill.from)))
      .with("to", name(chart_spelling(trill.to)))
      .with("kind", is_trill ? "trill" : "tremolo");
  add_result(json, played, trill);
  return json;
}

}  // namespace

std::string trills_json(const Played& played, const std::vector<Trill>& trills) {
  Json pairs = Json::list();
  for (const Trill& trill : trills) pairs.add(pair_json(played, trill));
  Json json = document("trills");
  json.with("instrument", instrument_json(played)).with("pairs", pairs);
  return text_of(json);
}

std::string trill_changes_json(const Played& stock, const Played& converted, const std::vector<TrillChange>& changes) {
  Json pairs = Json::list();
  for (const TrillChange& change : changes) {
    Json pair = pair_json(converted, change.converted);
    Json before = Json::object();
    add_result(before, stock, change.stock);
    pair.with("against", before);
    pairs.add(pair);
  }
  Json json = document("trills");
  json.with("instrument", instrument_json(converted)).with("against", instrument_json(stock)).with("pairs", pairs);
  return text_of(json);
}

}  // namespace fingerway
