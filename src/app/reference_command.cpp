#include "reference_command.hpp"

#include <ostream>

#include "data_folders.hpp"

namespace fingerway {
namespace {

/// Ids of instruments; behind a plus sign, what was typed with each conversion that fits.
void tell_instruments(const std::string& typed, std::ostream& out) {
  const InstrumentFolders folders = data_folders();
  const std::size_t plus = typed.rfind('+');
  if (plus == std::string::npos) {
    for (const std::string& id : instrument_ids(folders)) out << id << '\n';
    return;
  }
  for (const std::string& id : conversion_ids(typed.substr(0, typed.find('+')), folders)) {
    out << typed.substr(0, plus + 1) << id << '\n';
  }
}

}  // namespace

ExitCode run(const ReferenceCommand& command, const CLI::App& app, const Console& console) {
  if (command.what == "instruments") {
    tell_instruments(command.typed, console.out);
    return ExitCode::done;
  }
  const std::vector<CommandWords> commands = command_words(app);
  if (command.what == "man") console.out << man_page(commands);
  if (command.what == "bash") console.out << bash_completion(commands);
  if (command.what == "zsh") console.out << zsh_completion(commands);
  if (command.what == "fish") console.out << fish_completion(commands);
  return ExitCode::done;
}

}  // namespace fingerway
