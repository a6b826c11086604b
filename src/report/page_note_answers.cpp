#include <algorithm>

#include "fingerway/report/choice_marks.hpp"
#include "fingerway/report/page_answers.hpp"
#include "json_parts.hpp"
#include "moments.hpp"
#include "player_words.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

/// Smaller shares than this do not decide anything, points.
constexpr double telling_points = 0.05;

Json fingering_json(const Instrument& instrument, const Fingering& fingering) {
  Json json = Json::object();
  return json.with("press", full_names_json(instrument, fingering.pressed - fingering.half))
      .with("half", full_names_json(instrument, fingering.half))
      .with("flick", full_names_json(instrument, fingering.flicked));
}

Json words_json(const Instrument& instrument, const Fingering& fingering) {
  Json list = Json::list();
  for (const FingerWords& one : fingering_words(instrument, fingering)) {
    Json finger = Json::object();
    list.add(finger.with("finger", one.finger_words).with("holds", one.holds));
  }
  return list;
}

template <class TermOf, class Terms>
void add_terms(Json& list, const Terms& terms, const std::string& when) {
  for (std::size_t i = 0; i < terms.size(); ++i) {
    if (terms[i] <= telling_points) continue;
    Json term = Json::object();
    list.add(term.with("when", when).with("term", words(static_cast<TermOf>(i))).with("points", terms[i]));
  }
}

/// How the line sounds beside the plain note: by its traits, and in cents where somebody measured.
std::string tendency(const TableFingering& line) {
  std::vector<std::string> parts;
  for (Trait trait : line.traits) parts.emplace_back(words(trait));
  if (line.cents) parts.push_back(rounded(line.cents->value(), 0) + " cents");
  return joined(parts, ", ");
}

void add_line(Json& option, const Instrument& instrument, const Candidate& candidate) {
  const TableFingering& line = instrument.table[candidate.line];
  std::vector<std::string> traits;
  for (Trait trait : line.traits) traits.emplace_back(words(trait));
  option.with("origin", words(candidate.origin))
      .with("standing", words(line.standing))
      .with("way", words(line.way))
      .with("traits", traits)
      .with("tendency", tendency(line))
      .with("source", joined(line.evidence.sources, "; "))
      .with("confidence", words(line.evidence.confidence))
      .with("remark", line.remark);
}

Json option_json(const AnswerSide& side, const Passage& passage, const Option& option) {
  const Instrument& instrument = side.played.instrument;
  const auto& candidate = option.here.candidate;
  const Fingering fingering = candidate ? candidate->fingering : Fingering{};
  Json json = Json::object();
  json.with("pin", candidate ? fingering_json(instrument, fingering) : Json())
      .with("words", words_json(instrument, fingering))
      .with("compact", candidate ? compact(instrument, fingering) : std::string("no fingering"));
  if (option.here.other) json.with("other_compact", compact(instrument, option.here.other->fingering));
  if (candidate) add_line(json.with("mark", pencil_mark(side.played, option.here)), instrument, *candidate);
  Json here = Json::list();
  add_terms<NoteTerm>(here, option.here.cost.terms, "by itself");
  if (option.here.arrive) add_terms<StepTerm>(here, option.here.arrive->cost.terms, "arriving");
  if (option.leave) add_terms<StepTerm>(here, option.leave->cost.terms, "leaving");
  Json elsewhere = Json::list();
  for (std::size_t note : option.elsewhere) {
    Json one = Json::object();
    elsewhere.add(
        one.with("note", note)
            .with("where", place_words(passage, note) + " (" + display_name(passage.notes[note].spelling) + ")"));
  }
  if (option.here.arrive) {
    json.with("needs", option.here.arrive->step.time.count())
        .with("there_is", option.here.arrive->context.available.count())
        .with("fits", fits(*option.here.arrive));
  }
  return json.with("dearer", option.dearer.value()).with("here", here).with("elsewhere", elsewhere);
}

std::string kind_of(const Trill& trill) { return (trill.to - trill.from).count <= 2 ? "trill" : "tremolo"; }

Json pair_json(const Trill& trill) {
  Json pair = Json::object();
  return pair.with("from", pitch_words(trill.from))
      .with("to", pitch_words(trill.to))
      .with("semitones", (trill.to - trill.from).count)
      .with("kind", kind_of(trill))
      .with("rate", trill.best ? Json(trill.best->rate.value()) : Json())
      .with("verdict", verdict_id(trill.verdict));
}

}  // namespace

std::string note_answer(const AnswerSide& side, const Passage& passage, const Explanation& explanation,
                        const std::vector<std::string>& pictures) {
  Json options = Json::list();
  for (std::size_t i = 0; i < explanation.options.size(); ++i) {
    Json option = option_json(side, passage, explanation.options[i]);
    if (i < pictures.size()) option.with("svg", pictures[i]);
    options.add(option);
  }
  Json json = Json::object();
  return short_text_of(json.with("note", explanation.note)
                           .with("where", place_words(passage, explanation.note))
                           .with("name", display_name(passage.notes[explanation.note].spelling))
                           .with("options", options));
}

std::string trills_answer(const Played& played, const std::vector<Trill>& trills) {
  std::vector<std::string> notes;
  Json pairs = Json::list();
  for (const Trill& trill : trills) {
    const std::string from = pitch_words(trill.from);
    if (notes.empty() || notes.back() != from) notes.push_back(from);
    pairs.add(pair_json(trill));
  }
  if (!trills.empty()) notes.push_back(pitch_words(trills.back().to));
  Json json = Json::object();
  return short_text_of(json.with("instrument", stacked_id(played.instrument))
                           .with("name", instrument_words(played.instrument))
                           .with("player", player_line(played))
                           .with("notes", notes)
                           .with("pairs", pairs)
                           .with("cautions", cautions()));
}

std::string trill_answer(const Played& played, const Trill& trill, const std::string& picture) {
  Json json = pair_json(trill);
  const Instrument& instrument = played.instrument;
  if (trill.best) {
    std::vector<std::string> moves;
    for (const FingerMove& move : finger_moves(played.hand, trill.best->from_posture, trill.best->to_posture)) {
      moves.push_back(move_words(instrument, move));
    }
    json.with("words", rounded(trill.best->rate.value(), 1) + " notes a second, " + std::string(words(trill.verdict)))
        .with("from_compact", compact(instrument, trill.best->from.fingering))
        .with("to_compact", compact(instrument, trill.best->to.fingering))
        .with("from_words", words_json(instrument, trill.best->from.fingering))
        .with("to_words", words_json(instrument, trill.best->to.fingering))
        .with("moves", moves);
  } else {
    json.with("words", "one of the notes has no fingering");
  }
  return short_text_of(json.with("svg", picture).with("cautions", cautions()));
}

std::string choices_answer(const Instrument& instrument, const Choices& choices) {
  Json pins = Json::list();
  for (const Pin& pin : choices.pins) {
    Json one = fingering_json(instrument, pin.fingering);
    pins.add(one.with("note", pin.note).with("whole", pin.whole));
  }
  const auto stretches = [&](const auto& all) {
    Json list = Json::list();
    for (const auto& stretch : all) {
      Json one = Json::object();
      list.add(one.with("first", stretch.first)
                   .with("last", stretch.last)
                   .with("touches", full_names_json(instrument, stretch.touches)));
    }
    return list;
  };
  Json inner = Json::object();
  inner.with("pins", pins).with("bans", stretches(choices.bans)).with("holds", stretches(choices.holds));
  Json json = Json::object();
  return short_text_of(json.with("choices", inner));
}

}  // namespace fingerway
