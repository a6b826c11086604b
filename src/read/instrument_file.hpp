// What this part answers: one instrument file as an instrument that remembers the line each part came from.
// It does not find files by id (instrument_files.cpp) and lays no conversion over it (conversion_file.hpp).
#pragma once

#include <array>
#include <filesystem>
#include <utility>
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
/// The same of a file that is parsed already.
[[nodiscard]] TracedInstrument read_instrument_file(const std::filesystem::path& file, YamlNode root);
/// What `check` finds, at the lines of the files it was read from. Throws InputError if there is anything.
void require_sound(TracedInstrument& traced);

/// Conversions change rules and rest states; the table goes on meaning what it says on the mechanism as it is now.
void remember_table_mechanism(Instrument& instrument);

/// Erases members of a list and their places alike.
template <class T, class Goes>
void erase_traced(std::vector<T>& list, std::vector<Place>& places, Goes goes) {
  std::size_t kept = 0;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (goes(list[i])) continue;
    if (kept != i) {
      list[kept] = std::move(list[i]);
      places[kept] = std::move(places[i]);
    }
    ++kept;
  }
  list.erase(list.begin() + static_cast<std::ptrdiff_t>(kept), list.end());
  places.erase(places.begin() + static_cast<std::ptrdiff_t>(kept), places.end());
}

/// Limits no instrument comes near; they bound time and memory on files that were not written in earnest.
inline constexpr std::size_t most_rules = 500;
inline constexpr std::size_t most_grips = 500;
inline constexpr std::size_t most_slides = 500;
inline constexpr std::size_t most_fingerings = 2000;

/// False when there are already `most` parts of a kind; that becomes a fault at `at`.
bool has_room(std::size_t count, std::size_t most, const char* parts, const YamlNode& at, FaultList& faults);

}  // namespace fingerway
