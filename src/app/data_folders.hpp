// What this part answers: where instruments and the numbers of the motion model are looked for.
// It reads none of them.
#pragma once

#include <filesystem>

#include "fingerway/read/instrument_files.hpp"

namespace fingerway {

/// The working folder's instruments/, the user's data folder, the installed one, and the one beside the program; those
/// that exist, each once.
[[nodiscard]] InstrumentFolders data_folders();
/// motion.yaml of the first folder that has one. Throws FileError when there is none.
[[nodiscard]] std::filesystem::path motion_file(const InstrumentFolders& folders);

}  // namespace fingerway
