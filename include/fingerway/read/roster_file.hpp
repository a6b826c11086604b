// What this part answers: a teacher's roster (YAML): pupils with instrument and player, and the passages they work on.
// It reads no scores; instruments and player files it does read, so that a roster is sound or refused as a whole.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "fingerway/base/errors.hpp"
#include "fingerway/motion/player.hpp"
#include "fingerway/read/instrument_files.hpp"

namespace fingerway {

/// A passage of the roster: which score, which part of it, from where to where, how fast.
struct RosterPassage {
  Place place;
  std::string id;
  std::string score;  ///< a path as the program can open it
  std::string part;   ///< empty: the one that fits the pupil's instrument
  std::string voice;
  std::string bars;             ///< "3-8"; empty: all
  std::optional<double> tempo;  ///< quarter notes a minute; nothing: the score's
};

struct RosterPupil {
  Place place;
  std::string id;  ///< names the pupil's folder
  std::string name;
  Instrument instrument;              ///< with its conversions
  std::vector<std::string> latches;   ///< set before playing
  Player player;                      ///< of the pupil's player file, or as written in the roster
  std::vector<std::size_t> passages;  ///< into Roster::passages, in the order written
};

struct Roster {
  std::string file;
  std::string title;
  std::vector<RosterPassage> passages;
  std::vector<RosterPupil> pupils;
};

/// Paths in a roster are relative to its own folder. Throws InputError with every fault of it and of the player files
/// and instruments it names, or FileError.
[[nodiscard]] Roster read_roster(const std::filesystem::path& file, const InstrumentFolders& where);

}  // namespace fingerway
