#include "habits_command.hpp"

#include "data_folders.hpp"
#include "delivery.hpp"
#include "fingerway/report/borrowed.hpp"

namespace fingerway {

ExitCode tell_habits(const PlanCommand& command, const Console& console) {
  const InstrumentFolders folders = data_folders();
  const Played borrowed = load_played(command.played, folders);
  PlayedRequest at_home = command.played;
  at_home.instrument = command.habits;
  at_home.latches.clear();
  const Played own = load_played(at_home, folders);
  const bool same = own.instrument.id == borrowed.instrument.id ||
                    (!own.instrument.family.empty() && own.instrument.family == borrowed.instrument.family);
  if (!same) {
    throw InputError(Fault{{},
                           own.instrument.name + " and " + borrowed.instrument.name + " are different instruments",
                           "habits carry over within one family, conversions included"});
  }
  Passage passage = load_passage(command.score, borrowed.instrument);
  note_transposition(passage, borrowed.instrument);
  const Borrowed result = borrow(own, borrowed, passage);
  Outputs outputs;
  outputs.add(command.json, borrowed_json(own, borrowed, passage, result));
  deliver(outputs, borrowed_text(own, borrowed, passage, result), console);
  tell(unplayable(passage, borrowed, result.plan), console);
  return code_for(result.plan.summary);
}

}  // namespace fingerway
