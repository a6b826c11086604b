#include "files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <optional>
#include <ostream>
#include <system_error>
#include <utility>

#include "fingerway/base/errors.hpp"

namespace fingerway {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const std::string& path, int problem) {
  throw FileError(path, "cannot be written: " + std::string(std::strerror(problem)));
}

/// A name beside the target that no other run, and no other thread of this one, uses.
fs::path name_beside(const fs::path& target) {
  static std::atomic<unsigned> count = 0;
  return target.string() + ".part" + std::to_string(::getpid()) + "-" + std::to_string(++count);
}

/// One file on its way: written beside its place, nameless where the system can do that, so that nothing of it is left
/// whatever stops the program; then given a name; then put in its place. Devices and pipes are written as they are.
class PendingFile {
 public:
  PendingFile(const std::string& path, const Outputs::Content& content) : path_(path), content_(&content) {
    find_target();
  }
  PendingFile(const PendingFile&) = delete;
  PendingFile& operator=(const PendingFile&) = delete;
  PendingFile(PendingFile&& other) noexcept
      : path_(std::move(other.path_)),
        content_(other.content_),
        target_(std::move(other.target_)),
        mode_(other.mode_),
        goes_straight_(other.goes_straight_),
        file_(std::exchange(other.file_, -1)),
        temporary_(std::exchange(other.temporary_, {})) {}
  PendingFile& operator=(PendingFile&&) = delete;
  ~PendingFile() {
    if (file_ >= 0) ::close(file_);
    if (!temporary_.empty()) ::unlink(temporary_.c_str());
  }

  [[nodiscard]] const fs::path& target() const { return target_; }

  void write() {
    if (goes_straight_) return;
    open();
    if (mode_) static_cast<void>(::fchmod(file_, *mode_));  // not ours to change on some file systems: then it stays
    write_content();
    if (::fsync(file_) != 0) fail(path_, errno);
  }

  void give_name() {
    if (goes_straight_ || !temporary_.empty()) return;
    const fs::path name = name_beside(target_);
    const std::string nameless = "/proc/self/fd/" + std::to_string(file_);
    if (::linkat(AT_FDCWD, nameless.c_str(), AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW) != 0) fail(path_, errno);
    temporary_ = name;
  }

  void put_in_place() {
    if (goes_straight_) {
      write_straight();
      return;
    }
    if (::rename(temporary_.c_str(), target_.c_str()) != 0) fail(path_, errno);
    temporary_.clear();
  }

 private:
  void find_target() {
    target_ = fs::absolute(path_).lexically_normal();
    std::error_code error;
    // Through a link, the file it leads to is replaced, not the link; it may not be there yet.
    constexpr int most_links = 40;
    for (int links = 0; fs::is_symlink(target_, error); ++links) {
      if (links == most_links) fail(path_, ELOOP);
      target_ = (target_.parent_path() / fs::read_symlink(target_)).lexically_normal();
    }
    struct ::stat there {};
    if (::stat(target_.c_str(), &there) != 0) return;
    if (S_ISDIR(there.st_mode)) throw FileError(path_, "is a folder", "name a file in it");
    // What somebody has protected is not replaced, although the folder would allow it.
    if (::access(target_.c_str(), W_OK) != 0) fail(path_, errno);
    goes_straight_ = !S_ISREG(there.st_mode);
    mode_ = there.st_mode & 07777U;
  }

  void open() {
    const fs::path folder = target_.parent_path();
    constexpr mode_t usual = 0666;
    if (::access("/proc/self/fd", F_OK) == 0) file_ = ::open(folder.c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, usual);
    if (file_ >= 0) return;
    const fs::path name = name_beside(target_);
    file_ = ::open(name.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, usual);
    if (file_ < 0) fail(path_, errno);
    temporary_ = name;
  }

  void write_straight() {
    file_ = ::open(target_.c_str(), O_WRONLY | O_CLOEXEC);
    if (file_ < 0) fail(path_, errno);
    write_content();
  }

  void write_content() const {
    (*content_)([this](std::string_view part) {
      if (const int problem = write_whole(file_, part); problem != 0) fail(path_, problem);
    });
  }

  std::string path_;
  const Outputs::Content* content_;
  fs::path target_;
  std::optional<mode_t> mode_;  ///< of the file that is replaced
  bool goes_straight_ = false;
  int file_ = -1;
  fs::path temporary_;
};

}  // namespace

int write_whole(int file, std::string_view content) {
  while (!content.empty()) {
    const ssize_t written = ::write(file, content.data(), content.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return written < 0 ? errno : ENOSPC;
    content.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

void Outputs::add(const std::string& path, std::string content) {
  add(path, [text = std::move(content)](const TextSink& sink) { sink(text); });
}

void Outputs::add(const std::string& path, Content content) {
  if (path.empty()) return;
  if (path == "-") to_standard_output_ = true;
  outputs_.push_back({path, std::move(content)});
}

void Outputs::write(std::ostream& standard_output) const {
  std::vector<PendingFile> files;
  constexpr const char* named_twice = "is named for two outputs";
  if (std::ranges::count(outputs_, "-", &Output::path) > 1) throw FileError("standard output", named_twice);
  for (const Output& output : outputs_) {
    if (output.path == "-") continue;
    PendingFile file(output.path, output.content);
    for (const PendingFile& earlier : files) {
      if (earlier.target() == file.target()) {
        throw FileError(output.path, named_twice, "give each a file of its own");
      }
    }
    files.push_back(std::move(file));
  }
  for (PendingFile& file : files) file.write();
  for (PendingFile& file : files) file.give_name();
  for (PendingFile& file : files) file.put_in_place();
  for (const Output& output : outputs_) {
    if (output.path == "-") output.content([&](std::string_view part) { standard_output << part; });
  }
  standard_output.flush();
  if (!standard_output) throw FileError("standard output", "cannot be written");
}

std::vector<std::string> Outputs::paths() const {
  std::vector<std::string> paths;
  for (const Output& output : outputs_) {
    if (output.path != "-") paths.push_back(output.path);
  }
  return paths;
}

}  // namespace fingerway
