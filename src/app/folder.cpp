#include "folder.hpp"

#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <system_error>

#include "fingerway/base/errors.hpp"

namespace fingerway {
namespace {

namespace fs = std::filesystem;

/// A folder under another name until it is whole; gone again unless it was put in its place.
class PendingFolder {
 public:
  explicit PendingFolder(const fs::path& target) : target_(target) {
    // A path may end in a slash; its name is then that of the folder before it.
    if (target_.filename().empty()) target_ = target_.parent_path();
    path_ = target_.string() + ".part" + std::to_string(::getpid());
    std::error_code error;
    if (!fs::create_directory(path_, error)) {
      throw FileError(target.string(), "cannot be written: " + (error ? error.message() : "a folder is in the way"));
    }
  }
  PendingFolder(const PendingFolder&) = delete;
  PendingFolder& operator=(const PendingFolder&) = delete;
  ~PendingFolder() {
    std::error_code ignored;
    if (!placed_) fs::remove_all(path_, ignored);
  }

  void write(const FolderFile& file) const {
    const fs::path path = path_ / file.path;
    std::error_code error;
    fs::create_directories(path.parent_path(), error);
    std::FILE* stream = std::fopen(path.c_str(), "wbx");
    if (stream == nullptr) fail(file);
    const bool written = std::fwrite(file.content.data(), 1, file.content.size(), stream) == file.content.size() &&
                         std::fflush(stream) == 0 && ::fsync(::fileno(stream)) == 0;
    const bool closed = std::fclose(stream) == 0;
    if (!written || !closed) fail(file);
  }

  void place() {
    const fs::path earlier = target_.string() + ".old" + std::to_string(::getpid());
    std::error_code error;
    const bool replaces = fs::exists(target_, error);
    if (replaces) {
      fs::rename(target_, earlier, error);
      if (error) throw FileError(target_.string(), "cannot be replaced: " + error.message());
    }
    fs::rename(path_, target_, error);
    if (error) {
      std::error_code ignored;
      if (replaces) fs::rename(earlier, target_, ignored);
      throw FileError(target_.string(), "cannot be written: " + error.message());
    }
    placed_ = true;
    if (replaces) fs::remove_all(earlier, error);
  }

 private:
  [[noreturn]] void fail(const FolderFile& file) const {
    throw FileError((target_ / file.path).string(), "cannot be written: " + std::string(std::strerror(errno)));
  }

  fs::path target_;
  fs::path path_;
  bool placed_ = false;
};

}  // namespace

void require_writable_folder(const fs::path& folder, const std::vector<std::string>& ours) {
  std::error_code error;
  if (!fs::exists(folder, error)) return;
  if (!fs::is_directory(folder, error)) throw FileError(folder.string(), "is not a folder", "name a new one");
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder, error)) {
    if (entry.is_directory(error)) continue;
    const std::string path = entry.path().lexically_relative(folder).generic_string();
    if (std::ranges::find(ours, path) == ours.end()) {
      throw FileError(folder.string(), "holds a file that was not written here: " + path, "name a new folder");
    }
  }
  if (error) throw FileError(folder.string(), "cannot be read: " + error.message());
}

void write_folder(const fs::path& folder, const std::vector<FolderFile>& files) {
  PendingFolder pending(folder);
  for (const FolderFile& file : files) pending.write(file);
  pending.place();
}

}  // namespace fingerway
