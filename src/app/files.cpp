#include "files.hpp"

#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <ostream>
#include <system_error>

#include "fingerway/base/errors.hpp"

namespace fingerway {
namespace {

namespace fs = std::filesystem;

/// Temporary files that disappear again unless they were renamed.
class Pending {
 public:
  Pending() = default;
  Pending(const Pending&) = delete;
  Pending& operator=(const Pending&) = delete;
  ~Pending() {
    std::error_code ignored;
    for (const Item& item : items_) {
      if (!item.renamed) fs::remove(item.temporary, ignored);
    }
  }

  void write(const std::string& path, const std::string& content) {
    std::error_code error;
    fs::path target(path);
    if (fs::is_directory(target, error)) throw FileError(path, "is a folder", "name a file in it");
    // Through a link, the file it leads to is replaced, not the link.
    if (fs::is_symlink(target, error)) target = fs::weakly_canonical(target, error);
    const fs::path temporary = target.string() + ".part" + std::to_string(::getpid());
    items_.push_back({temporary, target, false});
    std::FILE* file = std::fopen(temporary.c_str(), "wbx");
    if (file == nullptr) throw FileError(path, "cannot be written: " + std::string(std::strerror(errno)));
    const bool written = std::fwrite(content.data(), 1, content.size(), file) == content.size() &&
                         std::fflush(file) == 0 && ::fsync(::fileno(file)) == 0;
    const int problem = errno;
    const bool closed = std::fclose(file) == 0;
    if (!written || !closed) throw FileError(path, "cannot be written: " + std::string(std::strerror(problem)));
  }

  void rename() {
    for (Item& item : items_) {
      std::error_code error;
      fs::rename(item.temporary, item.target, error);
      if (error) throw FileError(item.target.string(), "cannot be written: " + error.message());
      item.renamed = true;
    }
  }

 private:
  struct Item {
    fs::path temporary;
    fs::path target;
    bool renamed = false;
  };
  std::vector<Item> items_;
};

}  // namespace

void Outputs::add(const std::string& path, std::string content) {
  if (path.empty()) return;
  if (path == "-") to_standard_output_ = true;
  outputs_.push_back({path, std::move(content)});
}

void Outputs::write(std::ostream& standard_output) const {
  Pending pending;
  for (const Output& output : outputs_) {
    if (output.path != "-") pending.write(output.path, output.content);
  }
  pending.rename();
  for (const Output& output : outputs_) {
    if (output.path == "-") standard_output << output.content;
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
