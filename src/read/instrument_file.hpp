// What this part answers: one instrument file as an instrument that remembers the line each part came from.
// It does not find files by id (instrument_files.cpp) and lays no conversion over it (conversion_file.hpp).
#pragma once

#include <array>
#include <filesystem>
#include <vector>

#include "fingerway/instrument/check.hpp"
#include "fingerway/instrument/instrument.hpp"
#include "yaml_tree.hpp"

namespace fingerway {

/// An instrument being put together. `places` runs parallel to its lists, so that what `check` finds can be told
/// with file and line.
struct TracedInstrument {
  static constexpr std::size_t subject_count = 8;

  Instrument instrument;
  std::array<std::vector<Place>, subject_count> places;

  [[nodiscard]] std::vector<Place>& places_of(Finding::Subject subject) {
    return places[static_cast<std::size_t>(subject)];
  }
};

/// Reads a stock instrument and applies `check`. Throws InputError with every fault, or FileError.
[[nodiscard]] TracedInstrument read_instrument_file(const std::filesystem::path& file);
/// What `check` finds, at the lines of the files it was read from. Throws InputError if there is anything.
void require_sound(TracedInstrument& traced);

/// Limits no instrument comes near; they bound time and memory on files that were not written in earnest.
inline constexpr std::size_t most_rules = 500;
inline constexpr std::size_t most_grips = 500;
inline constexpr std::size_t most_slides = 500;
inline constexpr std::size_t most_fingerings = 2000;

/// False when there are already `most` parts of a kind; that becomes a fault at `at`.
bool has_room(std::size_t count, std::size_t most, const char* parts, const YamlNode& at, FaultList& faults);

}  // namespace fingerway
