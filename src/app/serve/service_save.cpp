#include "fingerway/report/choice_marks.hpp"
#include "fingerway/report/csv.hpp"
#include "fingerway/report/json.hpp"
#include "fingerway/report/page.hpp"
#include "fingerway/report/page_answers.hpp"
#include "service.hpp"

namespace fingerway {
namespace {

/// The score's name without its ending, for files made from it.
std::string stem(const std::string& name) {
  const std::size_t dot = name.find_last_of('.');
  return dot == std::string::npos || dot == 0 ? name : name.substr(0, dot);
}

Answer marked_score(const KeptPlan& plan, const KeptSide& side, MarkWhich which) {
  const ScoreFile& file = plan.score->file;
  const auto marks = marks_for(*side.played, plan.passage(), side.plan, which);
  Answer answer;
  answer.type = file.container ? "application/vnd.recordare.musicxml" : "application/vnd.recordare.musicxml+xml";
  answer.body = score_bytes(file, with_marks(file.text, plan.passage().part_id, marks));
  answer.file_name = stem(plan.score->name) + (file.container ? "-fingered.mxl" : "-fingered.musicxml");
  return answer;
}

std::string page_of(const KeptPlan& plan, const KeptSide& side, const std::vector<EngravedSystem>& systems) {
  std::vector<PageSystem> engraved;
  for (const EngravedSystem& system : systems) engraved.push_back({.svg = system.svg, .span = system.span});
  if (plan.comparison) {
    return compare_page(*plan.sides[0].played, *plan.sides[1].played, plan.passage(), *plan.comparison, engraved);
  }
  return plan_page(*side.played, plan.passage(), {side.plan}, engraved);
}

}  // namespace

Answer Service::save(std::string_view body) {
  const SaveAsk ask = parse_save_ask(body);
  const auto plan = kept_plan(ask.plan);
  const KeptSide& side = kept_side(*plan, ask.side);
  for (const EngravedSystem& system : ask.systems) require_notes(*plan, system.span, "systems");
  const TurnOnCore turn(working_);
  const std::string name = stem(plan->score->name);
  const Passage& passage = plan->passage();
  if (ask.kind == "musicxml") return marked_score(*plan, side, ask.marks);
  if (ask.kind == "choices") {
    return {.type = "application/yaml",
            .body = choices_text(*side.played, passage, side.choices),
            .file_name = name + "-choices.yaml"};
  }
  if (ask.kind == "json") {
    const bool both = plan->comparison.has_value();
    return {.body = both ? compare_json(*plan->sides[0].played, *plan->sides[1].played, passage, *plan->comparison)
                         : plan_json(*side.played, passage, {side.plan}),
            .file_name = name + (both ? "-compared.json" : "-fingered.json")};
  }
  if (ask.kind == "csv") {
    return {.type = "text/csv; charset=utf-8",
            .body = plan_csv(*side.played, passage, side.plan),
            .file_name = name + "-fingered.csv"};
  }
  return {.type = "text/html; charset=utf-8",
          .body = page_of(*plan, side, ask.systems),
          .file_name = name + (plan->comparison ? "-compared.html" : "-fingered.html")};
}

}  // namespace fingerway
