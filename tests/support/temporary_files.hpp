// What this part answers: temporary files of the program put elsewhere, for as long as a test needs that.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <string>

namespace fingerway {

/// Where temporary files go, while it lives.
class TemporaryFilesIn {
 public:
  explicit TemporaryFilesIn(const std::filesystem::path& folder) {
    if (const char* before = std::getenv("TMPDIR")) before_ = before;
    ::setenv("TMPDIR", folder.c_str(), 1);
  }
  ~TemporaryFilesIn() { before_.empty() ? ::unsetenv("TMPDIR") : ::setenv("TMPDIR", before_.c_str(), 1); }
  TemporaryFilesIn(const TemporaryFilesIn&) = delete;
  TemporaryFilesIn& operator=(const TemporaryFilesIn&) = delete;

 private:
  std::string before_;
};

}  // namespace fingerway
