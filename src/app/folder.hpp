// What this part answers: a folder of files that is there whole or not at all.
// It does not know what the files are.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace fingerway {

/// A file by its path within the folder.
struct FolderFile {
  std::string path;
  std::string content;
};

/// Throws FileError where `folder` may not be written: it is there, and holds files that are not among `ours` (paths
/// within it), so that nothing of the user's is ever taken away.
void require_writable_folder(const std::filesystem::path& folder, const std::vector<std::string>& ours);

/// Writes all files into a new folder beside its place and then puts it there, in place of an earlier one. Throws
/// FileError, leaving what was there before.
void write_folder(const std::filesystem::path& folder, const std::vector<FolderFile>& files);

}  // namespace fingerway
