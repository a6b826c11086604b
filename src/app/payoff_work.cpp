#include "payoff_work.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <iterator>

#include "fingerway/base/errors.hpp"
#include "payoff_json.hpp"

namespace fingerway {
namespace {

[[noreturn]] void fail(const std::string& path, const char* what) {
  throw FileError(path, std::string(what) + ": " + std::strerror(errno));
}

/// Writes all of it, or throws.
void write_whole(int file, const std::string& text, const std::string& path) {
  std::size_t written = 0;
  while (written < text.size()) {
    const ssize_t some = ::write(file, text.data() + written, text.size() - written);
    if (some < 0 && errno == EINTR) continue;
    if (some <= 0) fail(path, "cannot be written");
    written += static_cast<std::size_t>(some);
  }
}

/// The lines that were written whole, and how long they are together.
struct WholeLines {
  std::vector<std::string> lines;
  std::size_t bytes = 0;
};

WholeLines whole_lines(const std::string& path) {
  std::ifstream stream(path, std::ios::binary);
  if (!stream) fail(path, "cannot be read");
  const std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  WholeLines result;
  for (std::size_t start = 0, end = 0; (end = text.find('\n', start)) != std::string::npos; start = end + 1) {
    result.lines.push_back(text.substr(start, end - start));
    result.bytes = end + 1;
  }
  return result;
}

DoneUnits units_of(const WholeLines& whole, const std::string& path) {
  DoneUnits done;
  for (std::size_t i = 1; i < whole.lines.size(); ++i) {
    done.insert(parse_unit_line(whole.lines[i], path, static_cast<int>(i + 1)));
  }
  return done;
}

}  // namespace

WorkFile::WorkFile(const std::string& path, const PayoffRequest& request) : path_(path) {
  file_ = ::open(path.c_str(), O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
  if (file_ < 0) fail(path, "cannot be written");
  try {
    if (::flock(file_, LOCK_EX | LOCK_NB) != 0) {
      throw FileError(path, "another run is working on it", "give each shard a work file of its own");
    }
    const WholeLines whole = whole_lines(path);
    const std::string head = request_line(request);
    struct ::stat status {};
    if (::fstat(file_, &status) != 0) fail(path, "cannot be read");
    if (whole.lines.empty()) {
      // Never truncate a file that is not ours: without one whole line it may only be the start of our own head.
      const auto size = static_cast<std::size_t>(status.st_size);
      std::string there(size < head.size() ? size : 0, '\0');
      if (size >= head.size() || ::pread(file_, there.data(), size, 0) != status.st_size || !head.starts_with(there)) {
        throw InputError(Fault{{.file = path, .line = 1, .column = 0, .within = {}},
                               "is no work file of a payoff",
                               "name a new file with --work"});
      }
      if (::ftruncate(file_, 0) != 0) fail(path, "cannot be written");
      write_whole(file_, head, path);
      return;
    }
    static_cast<void>(parse_request_line(whole.lines.front(), path));
    if (whole.lines.front() + "\n" != head) {
      throw InputError(Fault{{.file = path, .line = 1, .column = 0, .within = {}},
                             "was started for another payoff",
                             "repeat the command it was started with, or name a new file with --work"});
    }
    done_ = units_of(whole, path);
    if (::ftruncate(file_, static_cast<off_t>(whole.bytes)) != 0) fail(path, "cannot be written");
  } catch (...) {
    ::close(file_);
    throw;
  }
}

WorkFile::~WorkFile() { ::close(file_); }

void WorkFile::append(std::uint64_t key, const PassageOutcome& outcome) {
  write_whole(file_, unit_line(key, outcome), path_);
}

ReadWork read_work(const std::string& path) {
  const WholeLines whole = whole_lines(path);
  if (whole.lines.empty()) {
    throw InputError(Fault{{.file = path, .line = 1, .column = 0, .within = {}},
                           "is no work file of a payoff",
                           "a work file is written by fingerway payoff --work"});
  }
  return {.request = parse_request_line(whole.lines.front(), path), .done = units_of(whole, path)};
}

}  // namespace fingerway
