#include "drill_command.hpp"

#include "data_folders.hpp"
#include "delivery.hpp"
#include "fingerway/report/drill.hpp"

namespace fingerway {

ExitCode run(const DrillCommand& command, const Console& console) {
  PlayedRequest request = command.played;
  std::optional<ChoicesFile> written;
  if (!command.choices.empty()) {
    written = read_choices_file(command.choices);
    request.latches.insert(request.latches.end(), written->latches.begin(), written->latches.end());
  }
  const Played player = load_played(request, data_folders());
  Passage passage = load_passage(command.score, player.instrument);
  note_transposition(passage, player.instrument);
  PlanRequest plan_request;
  if (written) plan_request.choices = resolve(*written, passage, player);
  const Plan plan = plan_passage(player, passage, plan_request).front();
  const Drill material = drill(player, passage, plan, command.hardest);
  Outputs outputs;
  if (!material.exercises.empty()) outputs.add(command.musicxml, drill_score(player, material));
  outputs.add(command.json, drill_json(player, passage, plan, material));
  deliver(outputs, drill_text(player, passage, plan, material), console);
  tell(unplayable(passage, player, plan), console);
  return code_for(plan.summary);
}

}  // namespace fingerway
