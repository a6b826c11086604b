// What this part answers: how a fault in somebody's input is carried to where it is told.
// It does not print, and it is not for our own mistakes (assert) or for "no answer" (a value in the result).
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace fingerway {

/// Where a fault lies. Either line and column (1-based; 0 = not known), or words such as "part P1 measure 3".
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
  std::string within;

  friend bool operator==(const Place&, const Place&) = default;
};

/// One fault: where, what, and what to do about it (may be empty).
struct Fault {
  Place place;
  std::string what;
  std::string hint;

  friend bool operator==(const Fault&, const Fault&) = default;
};

/// `file:line:col: what (hint)` or `file: part P1 measure 3: what (hint)`; parts that are not known are left out.
[[nodiscard]] std::string message(const Fault& fault);

/// Bad input: one or many faults, collected before it is thrown. `what()` is all messages, one a line.
class InputError : public std::runtime_error {
 public:
  explicit InputError(std::vector<Fault> faults);
  explicit InputError(Fault fault);
  [[nodiscard]] const std::vector<Fault>& faults() const { return faults_; }

 private:
  std::vector<Fault> faults_;
};

/// A file that cannot be read or written at all (missing, no permission, disk full).
class FileError : public std::runtime_error {
 public:
  FileError(std::string file, std::string what, std::string hint = {});
  [[nodiscard]] const Fault& fault() const { return fault_; }

 private:
  Fault fault_;
};

/// The known word nearest to `word` by edit distance, or empty when none is near enough to be meant.
[[nodiscard]] std::string nearest_word(std::string_view word, const std::vector<std::string>& known);

}  // namespace fingerway
