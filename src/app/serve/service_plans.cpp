#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/delivery.hpp"
#include "fingerway/base/errors.hpp"
#include "fingerway/read/player_file.hpp"
#include "fingerway/report/lane_pictures.hpp"
#include "fingerway/report/page_answers.hpp"
#include "service.hpp"

namespace fingerway {
namespace {

Place at_field(const std::string& field) { return {.file = "request", .line = 0, .column = 0, .within = field}; }

/// The page's choices as touches of the instrument.
class ChoiceReader {
 public:
  ChoiceReader(const Passage& passage, const Played& played, std::string field)
      : passage_(passage), played_(played), field_(std::move(field)) {}

  Choices read(const AskedChoices& asked) {
    Choices choices;
    for (std::size_t i = 0; i < asked.pins.size(); ++i) {
      const Place place = at_field(field_ + ".pins[" + std::to_string(i) + "]");
      const AskedPin& pin = asked.pins[i];
      if (!in_passage(pin.note, place)) continue;
      Pin read{.note = pin.note, .fingering = {}, .whole = pin.whole};
      const std::size_t before = faults_.size();
      read.fingering.half = touches(pin.half, place);
      read.fingering.pressed = touches(pin.press, place) | read.fingering.half;
      read.fingering.flicked = touches(pin.flick, place);
      if (faults_.size() > before) continue;
      if (auto fault = pin_fault(read, passage_, played_, place)) faults_.push_back(std::move(*fault));
      choices.pins.push_back(read);
    }
    stretches(asked.bans, ".bans[", choices.bans);
    stretches(asked.holds, ".holds[", choices.holds);
    if (!faults_.empty()) throw InputError(faults_);
    return choices;
  }

 private:
  TouchSet touches(const std::vector<std::string>& names, const Place& place) {
    return touches_named(names, played_.instrument, place, faults_);
  }

  bool in_passage(std::size_t note, const Place& place) {
    if (note < passage_.notes.size()) return true;
    faults_.push_back({place, "no note " + std::to_string(note),
                       "the passage has " + std::to_string(passage_.notes.size()) + ", counted from 0"});
    return false;
  }

  template <class Stretch>
  void stretches(const std::vector<AskedStretch>& asked, const std::string& name, std::vector<Stretch>& into) {
    for (std::size_t i = 0; i < asked.size(); ++i) {
      const Place place = at_field(field_ + name + std::to_string(i) + "]");
      if (!in_passage(asked[i].last, place)) continue;
      into.push_back({.first = asked[i].first, .last = asked[i].last, .touches = touches(asked[i].touches, place)});
    }
  }

  const Passage& passage_;
  const Played& played_;
  std::string field_;
  std::vector<Fault> faults_;
};

/// Everything of a request that the passage and its players depend on, in one line.
std::string key_of(const PlanAsk& ask) {
  const ScoreChoice& choice = ask.passage.choice;
  const nlohmann::json parts = {ask.score,
                                choice.part,
                                choice.voice,
                                choice.staff.value_or(0),
                                static_cast<int>(choice.divisi),
                                static_cast<int>(choice.concert),
                                static_cast<int>(choice.order),
                                static_cast<int>(choice.ornaments),
                                ask.passage.bars,
                                ask.passage.tempo.value_or(0.0),
                                ask.played.instrument,
                                static_cast<int>(ask.played.level),
                                ask.played.player_text,
                                ask.played.latches,
                                ask.with};
  return parts.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::vector<LanePlan> lane_plans(const KeptPlan& plan) {
  std::vector<LanePlan> plans;
  for (const KeptSide& side : plan.sides) plans.push_back({*side.played, side.plan, side.hardest});
  return plans;
}

}  // namespace

std::shared_ptr<const Played> Service::played(const PlayedRequest& request, const std::string& field) {
  catalogue_.require_known(request.instrument, field);
  // A player's text may name the instrument its touches are on: by id too, never by a path.
  if (!request.player_text.empty()) {
    const std::string named = parse_player_instrument(request.player_text, "player");
    if (!named.empty()) catalogue_.require_known(named, "player");
  }
  std::string key = request.instrument + "\n" + std::to_string(static_cast<int>(request.level)) + "\n";
  for (const std::string& latch : request.latches) key += latch + "\n";
  key += request.player_text;
  if (auto known = played_.find(key)) return known;
  auto made = std::make_shared<const Played>(load_played(request, catalogue_.folders()));
  constexpr std::size_t about = 4'000'000;
  played_.put(key, made, about);
  return made;
}

std::shared_ptr<const PreparedPassage> Service::prepared(const PlanAsk& ask, const KeptScore& score) {
  const std::string key = key_of(ask);
  if (auto known = prepared_.find(key)) return known;
  auto made = std::make_shared<PreparedPassage>();
  made->desks.push_back(std::make_unique<PreparedPassage::Desk>(played(ask.played, "instrument")));
  if (!ask.with.empty()) {
    PlayedRequest other = ask.played;
    other.instrument = ask.with;
    made->desks.push_back(std::make_unique<PreparedPassage::Desk>(played(other, "with")));
    require_same_base(made->desks[0]->played->instrument, made->desks[1]->played->instrument);
  }
  ScoreRequest request = ask.passage;
  request.file = score.name;
  made->passage = passage_of(score.file.text, request, made->desks[0]->played->instrument);
  note_transposition(made->passage, made->desks[0]->played->instrument);
  if (made->passage.notes.size() > limits_.notes) {
    throw InputError(Fault{{.file = score.name, .line = 0, .column = 0, .within = {}},
                           "has " + std::to_string(made->passage.notes.size()) + " notes; at most " +
                               std::to_string(limits_.notes) + " are planned at once",
                           "choose some bars"});
  }
  prepared_.put(key, made, bytes_of(*made));
  return made;
}

Answer Service::plan(std::string_view body) {
  const PlanAsk ask = parse_plan_ask(body);
  auto plan = std::make_shared<KeptPlan>();
  plan->score = kept_score(ask.score);
  const TurnOnCore turn(working_);
  plan->prepared = prepared(ask, *plan->score);
  const Passage& passage = plan->passage();
  const Objective objective = ask.smoothest ? Objective::smoothest : Objective::least_awkward;
  for (std::size_t s = 0; s < plan->prepared->desks.size(); ++s) {
    KeptSide side{.played = plan->prepared->desks[s]->played, .choices = {}, .plan = {}, .hardest = {}};
    const std::string field = s == 0 ? "choices" : "sides[0]";
    side.choices = ChoiceReader(passage, *side.played, field).read(s == 0 ? ask.choices : ask.second_choices);
    side.plan = plan_under(*plan->prepared, s, side.choices, objective);
    require_possible(passage, *side.played, "request",
                     [&](std::size_t note) { return side.plan.notes[note].candidate.has_value(); });
    side.hardest = hardest_notes(*side.played, passage, side.plan);
    plan->sides.push_back(std::move(side));
  }
  if (plan->sides.size() == 2) {
    plan->comparison =
        compared(*plan->sides[0].played, *plan->sides[1].played, passage, plan->sides[0].plan, plan->sides[1].plan);
    plan->differing = differing_notes(*plan->comparison);
  }
  std::vector<AnswerSide> sides;
  for (const KeptSide& side : plan->sides) sides.push_back({*side.played, side.plan, side.choices});
  const std::string token = plans_.add(plan, bytes_of(*plan));
  return {.body = plan_answer(token, passage, sides, plan->comparison ? &*plan->comparison : nullptr)};
}

std::shared_ptr<const KeptPlan> Service::kept_plan(const std::string& token) {
  if (auto plan = plans_.find(token)) return plan;
  throw Gone("the plan is no longer kept: ask for it again");
}

const KeptSide& Service::kept_side(const KeptPlan& plan, std::size_t side) const {
  if (side < plan.sides.size()) return plan.sides[side];
  throw InputError(Fault{at_field("side"), "the plan has one instrument only", "0"});
}

void Service::require_notes(const KeptPlan& plan, const LaneSpan& span, const std::string& field) const {
  const std::size_t notes = plan.passage().notes.size();
  if (span.last < notes) return;
  throw InputError(Fault{at_field(field + ".last"), "no note " + std::to_string(span.last),
                         "the passage has " + std::to_string(notes) + ", counted from 0"});
}

Answer Service::lanes(std::string_view body) {
  const LanesAsk ask = parse_lanes_ask(body);
  const auto plan = kept_plan(ask.plan);
  std::size_t notes = 0;
  for (std::size_t i = 0; i < ask.spans.size(); ++i) {
    require_notes(*plan, ask.spans[i], "spans[" + std::to_string(i) + "]");
    notes += ask.spans[i].last - ask.spans[i].first + 1;
  }
  if (notes > limits_.lanes_notes) {
    throw InputError(Fault{at_field("spans"), "ask for " + std::to_string(notes) + " notes at once",
                           "at most " + std::to_string(limits_.lanes_notes)});
  }
  const TurnOnCore turn(working_);
  const std::vector<LanePlan> plans = lane_plans(*plan);
  nlohmann::json pictures = nlohmann::json::array();
  for (const LaneSpan& span : ask.spans) {
    pictures.push_back(lanes_picture(plan->passage(), plans, plan->differing, span));
  }
  return {.body = nlohmann::json({{"svg", pictures}}).dump()};
}

Answer Service::note(std::string_view body) {
  const NoteAsk ask = parse_note_ask(body);
  const auto plan = kept_plan(ask.plan);
  const KeptSide& side = kept_side(*plan, ask.side);
  const Passage& passage = plan->passage();
  if (ask.note >= passage.notes.size()) {
    throw InputError(Fault{at_field("note"), "no note " + std::to_string(ask.note),
                           "the passage has " + std::to_string(passage.notes.size()) + ", counted from 0"});
  }
  const TurnOnCore turn(working_);
  const Explanation explanation = explain_under(*plan->prepared, ask.side, side.choices, ask.note, ask.most);
  std::vector<std::string> pictures;
  for (const Option& option : explanation.options) {
    pictures.push_back(option_picture(*side.played, passage, option, ask.width));
  }
  return {.body = note_answer({*side.played, side.plan, side.choices}, passage, explanation, pictures)};
}

Answer Service::read_choices(std::string_view body) {
  const ChoicesAsk ask = parse_choices_ask(body);
  const auto plan = kept_plan(ask.plan);
  const KeptSide& side = kept_side(*plan, ask.side);
  const ChoicesFile file = parse_choices_file(ask.text, "choices");
  const TurnOnCore turn(working_);
  return {.body = choices_answer(side.played->instrument, resolve(file, plan->passage(), *side.played))};
}

}  // namespace fingerway
