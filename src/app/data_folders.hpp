// What this part answers: where instruments and the numbers of the motion model are looked for.
// It reads none of them.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "fingerway/read/instrument_files.hpp"

namespace fingerway {

/// The working folder's instruments/, the user's data folder, the installed one, and the one beside the program; those
/// that exist, each once.
[[nodiscard]] InstrumentFolders data_folders();
/// The program's own data folder of that name ("page", "engraver", "guide"), beside the program or installed; nothing
/// when it is not there. The working folder is not asked: what is served is the program's.
[[nodiscard]] std::optional<std::filesystem::path> own_data_folder(const std::string& name);
/// motion.yaml of the first folder that has one. Throws FileError when there is none.
[[nodiscard]] std::filesystem::path motion_file(const InstrumentFolders& folders);

}  // namespace fingerway
