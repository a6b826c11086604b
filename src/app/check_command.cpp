#include <nlohmann/json.hpp>
#include <ostream>

#include "commands.hpp"
#include "data_folders.hpp"
#include "files.hpp"
#include "fingerway/read/file_kind.hpp"
#include "fingerway/read/motion_file.hpp"
#include "fingerway/read/player_file.hpp"
#include "fingerway/read/repertoire_file.hpp"
#include "fingerway/read/roster_file.hpp"

namespace fingerway {
namespace {

/// Reads one file in full, only to find its faults.
void check_file(const std::string& file, const InstrumentFolders& folders) {
  const std::string kind = file_kind(file);
  if (kind == "instrument" || kind == "conversion") {
    check_instrument_file(file, folders);
  } else if (kind == "motion") {
    static_cast<void>(read_motion_numbers(file));
  } else if (kind == "choices") {
    static_cast<void>(read_choices_file(file));
  } else if (kind == "repertoire") {
    static_cast<void>(read_repertoire_file(file));
  } else if (kind == "player") {
    check_player_file(file, folders);
    // Whether fingerings sound only the mechanism knows.
    PlayedRequest request;
    request.instrument = player_instrument(file);
    request.player = file;
    if (!request.instrument.empty()) static_cast<void>(load_played(request, folders));
  } else if (kind == "roster") {
    static_cast<void>(read_roster(file, folders));
  } else {
    const std::vector<std::string> known = {"instrument", "conversion", "choices", "motion",
                                            "player",     "repertoire", "roster"};
    const std::string near = nearest_word(kind, known);
    throw InputError(
        Fault{{.file = file, .line = 1, .column = 1, .within = {}},
              kind.empty() ? "does not say what it is" : "'" + kind.substr(0, 60) + "' is no kind of file known here",
              near.empty() ? "fingerway: instrument, conversion, choices, motion, player, repertoire or roster"
                           : "did you mean 'fingerway: " + near + "'?"});
  }
}

struct Checked {
  std::string file;
  std::vector<Fault> faults;
  bool readable = true;
};

Checked check_one(const std::string& file, const InstrumentFolders& folders) {
  Checked result{.file = file, .faults = {}, .readable = true};
  try {
    check_file(file, folders);
  } catch (const InputError& error) {
    result.faults = error.faults();
  } catch (const FileError& error) {
    result.faults = {error.fault()};
    result.readable = false;
  }
  return result;
}

std::string as_json(const std::vector<Checked>& files) {
  nlohmann::ordered_json json = {{"format", "fingerway/check"}, {"version", 1}, {"files", nlohmann::json::array()}};
  for (const Checked& checked : files) {
    nlohmann::ordered_json faults = nlohmann::json::array();
    for (const Fault& fault : checked.faults) {
      faults.push_back(
          {{"line", fault.place.line}, {"column", fault.place.column}, {"what", fault.what}, {"hint", fault.hint}});
    }
    json["files"].push_back({{"file", checked.file}, {"sound", checked.faults.empty()}, {"faults", faults}});
  }
  return json.dump(1, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace

ExitCode run(const CheckCommand& command, const Console& console) {
  const InstrumentFolders folders = data_folders();
  std::vector<Checked> files;
  ExitCode code = ExitCode::done;
  std::string text;
  for (const std::string& file : command.files) {
    files.push_back(check_one(file, folders));
    const Checked& checked = files.back();
    if (!checked.readable) {
      code = ExitCode::cannot_read_or_write;
    } else if (!checked.faults.empty() && code == ExitCode::done) {
      code = ExitCode::bad_input;
    }
    for (const Fault& fault : checked.faults) console.err << message(fault) << '\n';
    if (checked.faults.empty()) text += file + ": sound\n";
  }
  Outputs outputs;
  outputs.add(command.json, as_json(files));
  outputs.write(console.out);
  if (!outputs.to_standard_output()) console.out << text;
  return code;
}

}  // namespace fingerway
