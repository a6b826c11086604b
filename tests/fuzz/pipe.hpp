// What this part answers: the small pipe of instruments/README.md and its conversion, beside the file a driver tries.
#pragma once

#include <string>

#include "fingerway/read/instrument_files.hpp"
#include "fuzz.hpp"

namespace fingerway::fuzz {

/// Writes them into the folder; FINGERWAY_FUZZ_SEEDS (the folder tests/fuzz/seeds) is where they stand.
[[nodiscard]] inline InstrumentFolders with_pipe(const Folder& folder) {
  const std::filesystem::path seeds = FINGERWAY_FUZZ_SEEDS;
  std::filesystem::create_directories(folder.path() / "conversions");
  const auto copy = std::filesystem::copy_options::overwrite_existing;
  std::filesystem::copy_file(seeds / "instrument" / "pipe.yaml", folder.path() / "pipe.yaml", copy);
  std::filesystem::copy_file(seeds / "conversion" / "trill-hole.yaml", folder.path() / "conversions/trill-hole.yaml",
                             copy);
  return {{folder.path()}};
}

}  // namespace fingerway::fuzz
