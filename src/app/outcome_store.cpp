#include "outcome_store.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <limits>
#include <optional>
#include <type_traits>
#include <utility>

#include "files.hpp"
#include "fingerway/base/errors.hpp"

namespace fingerway {
namespace {

[[noreturn]] void fail(const std::string& folder, const std::string& problem) {
  throw FileError(folder, "a temporary file cannot be kept: " + problem, "name another folder with TMPDIR");
}

/// Values as they lie in memory, one after the other: nobody but this run reads them.
class Packed {
 public:
  template <class T>
  void put(const T& value) {
    static_assert(std::is_trivially_copyable_v<T>);
    bytes_.append(reinterpret_cast<const char*>(&value), sizeof value);
  }
  /// What a note often lacks takes a byte where it does.
  template <class T>
  void put(const std::optional<T>& value) {
    put(value.has_value());
    if (value) put(*value);
  }
  void put(const Fingering& fingering) {
    put(fingering.pressed.bits());
    put_rare(fingering.half);
    put_rare(fingering.flicked);
  }
  [[nodiscard]] const std::string& bytes() const { return bytes_; }

 private:
  void put_rare(TouchSet touches) { put(touches.empty() ? std::optional<std::uint64_t>() : touches.bits()); }

  std::string bytes_;
};

/// Takes them out again.
class Unpacked {
 public:
  explicit Unpacked(const std::string& bytes) : rest_(bytes.data()) {}

  template <class T>
  void take(T& value) {
    static_assert(std::is_trivially_copyable_v<T>);
    std::memcpy(&value, rest_, sizeof value);
    rest_ += sizeof value;
  }
  template <class T>
  void take(std::optional<T>& value) {
    bool there = false;
    take(there);
    if (there) take(value.emplace());
  }
  void take(Fingering& fingering) {
    std::uint64_t pressed = 0;
    take(pressed);
    fingering.pressed = TouchSet::from_bits(pressed);
    fingering.half = take_rare();
    fingering.flicked = take_rare();
  }

 private:
  TouchSet take_rare() {
    std::optional<std::uint64_t> bits;
    take(bits);
    return TouchSet::from_bits(bits.value_or(0));
  }

  const char* rest_;
};

/// All fields but the lists, in one order for both ways.
template <class Way, class Outcome>
void figures(const Way& way, Outcome& outcome) {
  way(outcome.micro_points);
  way(outcome.awkwardness);
  way(outcome.worst_load);
  way(outcome.complete);
  way(outcome.fits);
  way(outcome.ceiling);
  way(outcome.best_ceiling);
}

template <class Way, class Note>
void note_fields(const Way& way, Note& note) {
  way(note.fingering);
  way(note.other);
  way(note.rate);
  way(note.arrive);
}

}  // namespace

OutcomeStore::OutcomeStore(std::size_t count) : places_(count) {
  std::error_code error;
  folder_ = std::filesystem::temp_directory_path(error).string();
  if (error) fail("TMPDIR", error.message());
  std::string name = folder_ + "/fingerway-XXXXXX";
  file_ = ::mkostemp(name.data(), O_CLOEXEC);
  if (file_ < 0) fail(folder_, std::strerror(errno));
  ::unlink(name.c_str());
}

OutcomeStore::OutcomeStore(OutcomeStore&& other) noexcept
    : folder_(std::move(other.folder_)),
      file_(std::exchange(other.file_, -1)),
      end_(other.end_),
      places_(std::move(other.places_)) {}

OutcomeStore::~OutcomeStore() {
  if (file_ >= 0) ::close(file_);
}

void OutcomeStore::put(std::size_t number, const PassageOutcome& outcome) {
  Packed packed;
  const auto put = [&](const auto& value) { packed.put(value); };
  figures(put, outcome);
  put(outcome.verdicts.size());
  for (const Verdict verdict : outcome.verdicts) put(verdict);
  put(outcome.notes.size());
  for (const OutcomeNote& note : outcome.notes) note_fields(put, note);
  const std::string& bytes = packed.bytes();
  if (bytes.size() > std::numeric_limits<std::uint32_t>::max()) fail(folder_, "a passage is too long");
  // Reading does not move the place where the file is written.
  if (const int problem = write_whole(file_, bytes); problem != 0) fail(folder_, std::strerror(problem));
  places_[number] = {.start = end_, .bytes = static_cast<std::uint32_t>(bytes.size())};
  end_ += bytes.size();
}

PassageOutcome OutcomeStore::get(std::size_t number) const {
  std::string bytes(places_[number].bytes, '\0');
  for (std::size_t read = 0; read < bytes.size();) {
    const ssize_t some =
        ::pread(file_, bytes.data() + read, bytes.size() - read, static_cast<off_t>(places_[number].start + read));
    if (some < 0 && errno == EINTR) continue;
    if (some <= 0) fail(folder_, some < 0 ? std::strerror(errno) : "it was cut short");
    read += static_cast<std::size_t>(some);
  }
  PassageOutcome outcome;
  Unpacked unpacked(bytes);
  const auto take = [&](auto& value) { unpacked.take(value); };
  figures(take, outcome);
  std::size_t count = 0;
  take(count);
  outcome.verdicts.resize(count);
  for (Verdict& verdict : outcome.verdicts) take(verdict);
  take(count);
  outcome.notes.resize(count);
  for (OutcomeNote& note : outcome.notes) note_fields(take, note);
  return outcome;
}

}  // namespace fingerway
