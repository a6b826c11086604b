#include "commands.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>

#include "data_folders.hpp"
#include "delivery.hpp"
#include "files.hpp"
#include "fingerway/decide/compare.hpp"
#include "fingerway/plan/explain.hpp"
#include "fingerway/plan/trills.hpp"
#include "fingerway/read/score_bytes.hpp"
#include "fingerway/report/choice_marks.hpp"
#include "fingerway/report/csv.hpp"
#include "fingerway/report/json.hpp"
#include "fingerway/report/page.hpp"
#include "fingerway/report/text.hpp"
#include "graph_dump.hpp"
#include "habits_command.hpp"
#include "parts_list.hpp"

namespace fingerway {
namespace {

/// The player of a request, with the latches that a choices file sets; and that file, if there is one.
struct PlayerAndChoices {
  Played played;
  std::optional<ChoicesFile> written;

  [[nodiscard]] Choices tied_to(const Passage& passage) const {
    return written ? resolve(*written, passage, played) : Choices{};
  }
};

PlayerAndChoices load_player(PlayedRequest request, const std::string& choices, const InstrumentFolders& folders) {
  std::optional<ChoicesFile> written;
  if (!choices.empty()) {
    written = read_choices_file(choices);
    request.latches.insert(request.latches.end(), written->latches.begin(), written->latches.end());
  }
  return {.played = load_played(request, folders), .written = std::move(written)};
}

/// The stock side first: what a conversion gains and loses does not depend on the order the two are named in.
bool more_converted(const Instrument& a, const Instrument& b) { return a.conversions.size() > b.conversions.size(); }

ExitCode tell_parts(const PlanCommand& command, const Console& console) {
  const Instrument instrument = read_instrument(command.played.instrument, data_folders());
  const std::vector<PartInfo> parts = list_parts(load_score(command.score.file).text, command.score.file);
  Outputs outputs;
  outputs.add(command.json, parts_json(command.score.file, parts));
  deliver(outputs, parts_text(command.score.file, parts, instrument), console);
  return ExitCode::done;
}

ExitCode take_marks_off(const PlanCommand& command, const Console& console) {
  if (command.musicxml.empty()) {
    throw InputError(Fault{{}, "--unmark needs to know where to write", "add --musicxml FILE"});
  }
  const ScoreFile original = load_score(command.score.file);
  Outputs outputs;
  outputs.add(command.musicxml, score_bytes(original, without_marks(original.text)));
  deliver(outputs, "", console);
  return ExitCode::done;
}

}  // namespace

ExitCode run(const PlanCommand& command, const Console& console) {
  if (command.list_parts) return tell_parts(command, console);
  if (command.unmark) return take_marks_off(command, console);
  if (!command.habits.empty()) return tell_habits(command, console);
  const PlayerAndChoices loaded = load_player(command.played, command.choices, data_folders());
  const Played* player = &loaded.played;
  Passage passage = load_passage(command.score, player->instrument);
  PlanRequest plan_request;
  plan_request.choices = loaded.tied_to(passage);
  if (command.keep_marked) keep_marked(passage, *player, plan_request.choices);
  plan_request.objective = command.smoothest ? Objective::smoothest : Objective::least_awkward;
  plan_request.alternatives = command.alternatives;
  note_transposition(passage, player->instrument);
  const std::vector<Plan> plans = plan_passage(*player, passage, plan_request);
  const Plan& best = plans.front();

  std::string text = plan_text(*player, passage, plans);
  Outputs outputs;
  if (!command.explain.empty()) {
    const Place place{.file = "--explain " + command.explain, .line = 0, .column = 0, .within = {}};
    const auto at = parse_bar_beat(command.explain);
    if (!at) throw InputError(Fault{place, "not a place in the score", "write BAR:BEAT, as 3:2 or 3:2.5"});
    constexpr std::size_t most_options = 5;
    const Explanation explanation =
        explain_note(*player, passage, plan_request.choices, note_at(passage, *at, place), most_options);
    text = explain_text(*player, passage, explanation);
    outputs.add(command.json, explain_json(*player, passage, explanation));
  } else if (!command.json.empty()) {
    outputs.add(command.json, plan_json(*player, passage, plans));
  }
  if (!command.csv.empty()) outputs.add(command.csv, plan_csv(*player, passage, best));
  if (!command.html.empty()) outputs.add(command.html, plan_page(*player, passage, plans));
  if (!command.graph.empty())
    outputs.add(command.graph, graph_dump(passage_graph(*player, passage, plan_request.choices)));
  if (!command.musicxml.empty()) {
    const auto marks = marks_for(*player, passage, best, command.mark_all ? MarkWhich::all : MarkWhich::choices);
    const ScoreFile original = load_score(command.score.file);
    outputs.add(command.musicxml, score_bytes(original, with_marks(original.text, passage.part_id, marks)));
  }
  deliver(outputs, text, console);
  tell(unplayable(passage, *player, best), console);
  return code_for(best.summary);
}

ExitCode run(const CompareCommand& command, const Console& console) {
  const InstrumentFolders folders = data_folders();
  PlayedRequest other = command.played;
  other.instrument = command.with;
  const Played stock = load_played(command.played, folders);
  const Played converted = load_played(other, folders);
  require_same_base(stock.instrument, converted.instrument);
  if (!command.html.empty() && command.scores.size() > 1) {
    throw InputError(Fault{{.file = command.html, .line = 0, .column = 0, .within = {}},
                           "a page shows one score",
                           "name one score, or leave --html out"});
  }
  Outputs outputs;
  std::string text;
  std::vector<std::string> all_json;
  ExitCode code = ExitCode::done;
  for (const std::string& score : command.scores) {
    ScoreRequest request = command.score;
    request.file = score;
    Passage passage = load_passage(request, stock.instrument);
    note_transposition(passage, stock.instrument);
    const Comparison comparison = compare(stock, converted, passage, {});
    if (!text.empty()) text += '\n';
    text += compare_text(stock, converted, passage, comparison);
    all_json.push_back(compare_json(stock, converted, passage, comparison));
    if (!command.html.empty()) outputs.add(command.html, compare_page(stock, converted, passage, comparison));
    code = std::max(code, code_for(comparison.converted.summary));
    tell(unplayable(passage, converted, comparison.converted), console);
  }
  if (all_json.size() == 1) {
    outputs.add(command.json, all_json.front());
  } else if (!command.json.empty()) {
    nlohmann::ordered_json list = {{"format", "fingerway/compare-list"}, {"version", 1}};
    for (const std::string& one : all_json) list["comparisons"].push_back(nlohmann::ordered_json::parse(one));
    outputs.add(command.json, list.dump(1) + "\n");
  }
  deliver(outputs, text, console);
  return code;
}

ExitCode run(const PriceCommand& command, const Console& console) {
  const PlayerAndChoices loaded = load_player(command.played, command.choices, data_folders());
  const Played* player = &loaded.played;
  Passage passage = load_passage(command.score, player->instrument);
  PlanRequest own;
  own.choices = loaded.tied_to(passage);
  note_transposition(passage, player->instrument);
  const Plan own_plan = plan_passage(*player, passage, own).front();
  const Plan best = plan_passage(*player, passage, {}).front();
  Outputs outputs;
  outputs.add(command.json, price_json(*player, passage, own_plan, best));
  deliver(outputs, price_text(*player, passage, own_plan, best), console);
  tell(unplayable(passage, *player, own_plan), console);
  return code_for(own_plan.summary);
}

namespace {

/// Notes are those of `asked`, which may have more than `player` has.
std::vector<Trill> trills_asked_for(const TrillsCommand& command, const Played& player, const Instrument& asked) {
  if (command.between.empty()) return all_trills(player, Semitones(12));
  const WrittenPitch from = pitch_named(command.between.at(0), asked);
  const WrittenPitch to = pitch_named(command.between.at(1), asked);
  if (from == to) throw InputError(Fault{{}, "a trill needs two different notes", "as C2 and D2"});
  return {best_trill(player, from, to)};
}

/// One instrument in two states of conversion, in whatever order they were named.
struct TwoStates {
  Played stock;
  Played converted;
};

TwoStates load_two_states(const PlayedRequest& request, const std::string& against) {
  const InstrumentFolders folders = data_folders();
  Played player = load_played(request, folders);
  PlayedRequest other_request = request;
  other_request.instrument = against;
  Played other = load_played(other_request, folders);
  if (player.instrument.id != other.instrument.id) {
    throw InputError(Fault{{},
                           player.instrument.name + " and " + other.instrument.name + " are different instruments",
                           "name a conversion of the same instrument"});
  }
  if (more_converted(player.instrument, other.instrument)) std::swap(player, other);
  return {.stock = std::move(player), .converted = std::move(other)};
}

}  // namespace

ExitCode run(const TrillsCommand& command, const Console& console) {
  Outputs outputs;
  std::vector<Trill> trills;
  if (command.against.empty()) {
    const Played player = load_played(command.played, data_folders());
    trills = trills_asked_for(command, player, player.instrument);
    outputs.add(command.json, trills_json(player, trills));
    outputs.add(command.csv, trills_csv(player, trills));
    deliver(outputs, trills_text(player, trills), console);
  } else {
    const TwoStates states = load_two_states(command.played, command.against);
    const Instrument& converted = states.converted.instrument;
    trills = trills_asked_for(command, states.converted, converted);
    const auto changes = trill_changes(trills_asked_for(command, states.stock, converted), trills);
    outputs.add(command.json, trill_changes_json(states.stock, states.converted, changes));
    outputs.add(command.csv, trill_changes_csv(states.stock, states.converted, changes));
    deliver(outputs, trill_changes_text(states.stock, states.converted, changes), console);
  }
  const bool missing = std::ranges::any_of(trills, [](const Trill& trill) { return !trill.best; });
  return missing ? ExitCode::does_not_fit : ExitCode::done;
}

ExitCode run(const ChartCommand& command, const Console& console) {
  Outputs outputs;
  if (command.against.empty()) {
    const Played player = load_played(command.played, data_folders());
    outputs.add(command.json, chart_json(player));
    deliver(outputs, chart_text(player), console);
    return ExitCode::done;
  }
  const TwoStates states = load_two_states(command.played, command.against);
  outputs.add(command.json, chart_against_json(states.stock, states.converted));
  deliver(outputs, chart_against_text(states.stock, states.converted), console);
  return ExitCode::done;
}

}  // namespace fingerway
