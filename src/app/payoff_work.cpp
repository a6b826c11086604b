#include "payoff_work.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <optional>

#include "files.hpp"
#include "fingerway/base/errors.hpp"
#include "payoff_json.hpp"

namespace fingerway {
namespace {

[[noreturn]] void fail(const std::string& path, const char* what, int problem = errno) {
  throw FileError(path, std::string(what) + ": " + std::strerror(problem));
}

void write_line(int file, const std::string& line, const std::string& path) {
  if (const int problem = write_whole(file, line); problem != 0) fail(path, "cannot be written", problem);
}

/// The lines that were written whole, one after the other: there may be more of them than memory should hold.
class WholeLines {
 public:
  explicit WholeLines(const std::string& path) : stream_(path, std::ios::binary) {
    if (!stream_) fail(path, "cannot be read");
  }
  /// The next, without its end; nothing after the last.
  [[nodiscard]] std::optional<std::string> next() {
    std::string line;
    // A line without an end was not written whole.
    if (!std::getline(stream_, line) || stream_.eof()) return std::nullopt;
    bytes_ += line.size() + 1;
    return line;
  }
  /// Of those told so far.
  [[nodiscard]] std::size_t bytes() const { return bytes_; }

 private:
  std::ifstream stream_;
  std::size_t bytes_ = 0;
};

}  // namespace

WorkFile::WorkFile(const std::string& path, const PayoffRequest& request) : path_(path) {
  file_ = ::open(path.c_str(), O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
  if (file_ < 0) fail(path, "cannot be written");
  try {
    if (::flock(file_, LOCK_EX | LOCK_NB) != 0) {
      throw FileError(path, "another run is working on it", "give each shard a work file of its own");
    }
    const std::optional<std::string> first = WholeLines(path).next();
    const std::string head = request_line(request);
    struct ::stat status {};
    if (::fstat(file_, &status) != 0) fail(path, "cannot be read");
    if (!first) {
      // Never truncate a file that is not ours: without one whole line it may only be the start of our own head.
      const auto size = static_cast<std::size_t>(status.st_size);
      std::string there(size < head.size() ? size : 0, '\0');
      if (size >= head.size() || ::pread(file_, there.data(), size, 0) != status.st_size || !head.starts_with(there)) {
        throw InputError(Fault{{.file = path, .line = 1, .column = 0, .within = {}},
                               "is no work file of a payoff",
                               "name a new file with --work"});
      }
      if (::ftruncate(file_, 0) != 0) fail(path, "cannot be written");
      write_line(file_, head, path);
      return;
    }
    static_cast<void>(parse_request_line(*first, path));
    if (*first + "\n" != head) {
      throw InputError(Fault{{.file = path, .line = 1, .column = 0, .within = {}},
                             "was started for another payoff",
                             "repeat the command it was started with, or name a new file with --work"});
    }
  } catch (...) {
    ::close(file_);
    throw;
  }
}

WorkFile::~WorkFile() { ::close(file_); }

void WorkFile::read(const UnitDone& unit) const {
  // What was not written whole goes only when the rest is sound.
  const std::size_t whole = read_units(path_, unit);
  if (::ftruncate(file_, static_cast<off_t>(whole)) != 0) fail(path_, "cannot be written");
}

void WorkFile::append(std::uint64_t key, const PassageOutcome& outcome) {
  write_line(file_, unit_line(key, outcome), path_);
}

PayoffRequest read_request(const std::string& path) {
  const std::optional<std::string> first = WholeLines(path).next();
  if (!first) {
    throw InputError(Fault{{.file = path, .line = 1, .column = 0, .within = {}},
                           "is no work file of a payoff",
                           "a work file is written by fingerway payoff --work"});
  }
  return parse_request_line(*first, path);
}

std::size_t read_units(const std::string& path, const UnitDone& unit) {
  WholeLines lines(path);
  static_cast<void>(lines.next());  // says for which payoff it is
  int number = 1;
  while (const std::optional<std::string> line = lines.next()) {
    const auto [key, outcome] = parse_unit_line(*line, path, ++number);
    unit(key, outcome);
  }
  return lines.bytes();
}

}  // namespace fingerway
