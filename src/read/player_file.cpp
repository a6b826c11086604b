#include "fingerway/read/player_file.hpp"

#include "player_parts.hpp"

namespace fingerway {
namespace {

/// A player file's tree with what was read from it; the tree must stay where it is.
struct ReadPlayer {
  YamlNode root;
  FaultList faults;
  WrittenPlayer written;
  const YamlNode* instrument = nullptr;

  ReadPlayer(YamlNode tree, const std::string& file) : root(std::move(tree)), faults(file) {
    YamlMap top(root, "the player file", faults);
    top.file_kind("player");
    instrument = top.find("instrument");
    if (instrument != nullptr) static_cast<void>(yaml_text(*instrument, "'instrument'", faults));
    written = read_written_player(top, faults);
    top.finish();
    if (instrument == nullptr && written.names_touches()) {
      faults.add(root, "touches and fingerings are named, but not of which instrument",
                 "instrument: the one they are on, as bassoon");
    }
    faults.throw_if_any();
  }
  explicit ReadPlayer(const std::filesystem::path& file) : ReadPlayer(load_yaml(file), file.string()) {}
  ReadPlayer(const ReadPlayer&) = delete;
  ReadPlayer& operator=(const ReadPlayer&) = delete;
};

/// The instrument the names are on; faults of its name are told at the player file's line.
Instrument home_of(ReadPlayer& read, const InstrumentFolders& where) {
  try {
    return read_instrument(read.instrument->text, where);
  } catch (const InputError& error) {
    for (const Fault& fault : error.faults()) {
      const bool of_a_file = fault.place.line > 0;
      read.faults.add(of_a_file ? fault : Fault{read.faults.place(*read.instrument), fault.what, fault.hint});
    }
  } catch (const FileError& error) {
    read.faults.add(*read.instrument, error.fault().what, error.fault().hint);
  }
  read.faults.throw_if_any();
  return {};
}

Player resolved(ReadPlayer& read, const Instrument& instrument, const InstrumentFolders& where) {
  if (!read.written.names_touches()) return resolve_player(read.written, instrument, instrument, read.faults);
  if (read.instrument->text == stacked_id(instrument)) {
    Player player = resolve_player(read.written, instrument, instrument, read.faults);
    read.faults.throw_if_any();
    return player;
  }
  const Instrument home = home_of(read, where);
  if (!same_family(home, instrument)) {
    read.faults.add(*read.instrument,
                    "the touches named are those of " + home.name + ", and " + instrument.name + " is played",
                    "write a player file for that instrument, or one with level, rates and span only");
  }
  read.faults.throw_if_any();
  Player player = resolve_player(read.written, home, instrument, read.faults);
  read.faults.throw_if_any();
  return player;
}

}  // namespace

Player read_player(const std::filesystem::path& file, const Instrument& instrument, const InstrumentFolders& where) {
  ReadPlayer read(file);
  return resolved(read, instrument, where);
}

Player parse_player(const std::string& text, const std::string& name, const Instrument& instrument,
                    const InstrumentFolders& where) {
  ReadPlayer read(parse_yaml(text, name), name);
  return resolved(read, instrument, where);
}

std::string parse_player_instrument(const std::string& text, const std::string& name) {
  const ReadPlayer read(parse_yaml(text, name), name);
  return read.instrument == nullptr ? std::string() : read.instrument->text;
}

std::string player_instrument(const std::filesystem::path& file) {
  const ReadPlayer read(file);
  return read.instrument == nullptr ? std::string() : read.instrument->text;
}

void check_player_file(const std::filesystem::path& file, const InstrumentFolders& where) {
  ReadPlayer read(file);
  if (read.instrument == nullptr) return;
  const Instrument home = home_of(read, where);
  static_cast<void>(resolve_player(read.written, home, home, read.faults));
  read.faults.throw_if_any();
}

}  // namespace fingerway
