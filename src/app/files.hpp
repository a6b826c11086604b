// What this part answers: writing several files so that all of them appear whole or none does.
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace fingerway {

/// Files to be written together. "-" stands for standard output.
class Outputs {
 public:
  /// Nothing is written yet. An empty path is no output.
  void add(const std::string& path, std::string content);
  /// Writes every file beside its place (devices and pipes as they are), puts all in their places at the end, then
  /// prints what goes to standard output. Throws FileError, leaving what was there before.
  void write(std::ostream& standard_output) const;
  [[nodiscard]] bool to_standard_output() const { return to_standard_output_; }
  /// The paths written, in the order added.
  [[nodiscard]] std::vector<std::string> paths() const;

 private:
  struct Output {
    std::string path;
    std::string content;
  };
  std::vector<Output> outputs_;
  bool to_standard_output_ = false;
};

}  // namespace fingerway
