#include "data_folders.hpp"

#include <algorithm>
#include <cstdlib>
#include <system_error>

#include "app/build_info.hpp"
#include "fingerway/base/errors.hpp"

namespace fingerway {
namespace {

namespace fs = std::filesystem;

fs::path user_data_folder() {
  if (const char* data = std::getenv("XDG_DATA_HOME"); data != nullptr && *data != '\0') return data;
  if (const char* home = std::getenv("HOME"); home != nullptr && *home != '\0') return fs::path(home) / ".local/share";
  return {};
}

/// Where the program's own data may be.
std::vector<fs::path> own_data() {
  std::vector<fs::path> all;
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  for (std::string_view data : data_folders_from_program) {
    if (!program.empty()) all.push_back(program.parent_path() / data);
  }
  all.emplace_back(installed_data_folder);
  return all;
}

}  // namespace

std::optional<fs::path> own_data_folder(const std::string& name) {
  std::error_code error;
  for (const fs::path& data : own_data()) {
    if (fs::is_directory(data / name, error)) return data / name;
  }
  return std::nullopt;
}

InstrumentFolders data_folders() {
  std::vector<fs::path> wanted = {"instruments"};
  if (const fs::path user = user_data_folder(); !user.empty()) wanted.push_back(user / "fingerway/instruments");
  for (const fs::path& data : own_data()) wanted.push_back(data / "instruments");
  std::error_code error;
  InstrumentFolders folders;
  std::vector<fs::path> seen;
  for (const fs::path& folder : wanted) {
    if (!fs::is_directory(folder, error)) continue;
    const fs::path real = fs::canonical(folder, error);
    if (std::ranges::find(seen, real) != seen.end()) continue;
    seen.push_back(real);
    folders.folders.push_back(folder.lexically_normal());
  }
  return folders;
}

fs::path motion_file(const InstrumentFolders& folders) {
  for (const fs::path& folder : folders.folders) {
    std::error_code error;
    if (fs::is_regular_file(folder / "motion.yaml", error)) return folder / "motion.yaml";
  }
  throw FileError("motion.yaml", "not found in any instruments folder",
                  "install fingerway, or run it where an instruments/ folder is");
}

}  // namespace fingerway
