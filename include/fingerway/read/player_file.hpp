// What this part answers: a player file (YAML) as a player of one instrument.
// It does not check that fingerings sound (whoever has a mechanism does) and plans nothing.
#pragma once

#include <filesystem>
#include <string>

#include "fingerway/motion/player.hpp"
#include "fingerway/read/instrument_files.hpp"

namespace fingerway {

/// Reads a player file for an instrument of the family it is written for. Names are looked up on the file's own
/// instrument; what the played one has not got is told in Player::left_out. Throws InputError with every fault, or
/// FileError.
[[nodiscard]] Player read_player(const std::filesystem::path& file, const Instrument& instrument,
                                 const InstrumentFolders& where);

/// The same from text already in memory; `name` is only for messages. The instrument the text names is still looked up
/// in `where`, or opened where it is a path: see parse_player_instrument before text of strangers is read.
[[nodiscard]] Player parse_player(const std::string& text, const std::string& name, const Instrument& instrument,
                                  const InstrumentFolders& where);
[[nodiscard]] std::string parse_player_instrument(const std::string& text, const std::string& name);

/// The instrument the file names touches of, as it is named there; empty where it names none. Throws as read_player.
[[nodiscard]] std::string player_instrument(const std::filesystem::path& file);

/// Reads a player file only to find its faults.
void check_player_file(const std::filesystem::path& file, const InstrumentFolders& where);

}  // namespace fingerway
