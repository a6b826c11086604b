// What this part answers: writing several files so that all of them appear whole or none does.
#pragma once

#include <functional>
#include <iosfwd>
#include <string>
#include <string_view>
#include <vector>

#include "fingerway/base/text.hpp"

namespace fingerway {

/// Writes all of it to an open file, from where that stands. Returns 0, or as errno what stopped it.
[[nodiscard]] int write_whole(int file, std::string_view content);

/// Files to be written together. "-" stands for standard output.
class Outputs {
 public:
  /// Sends the text of an output.
  using Content = std::function<void(const TextSink& sink)>;

  /// Nothing is written yet. An empty path is no output.
  void add(const std::string& path, std::string content);
  /// One whose text is worked out while it is written.
  void add(const std::string& path, Content content);
  /// Writes every file beside its place (devices and pipes as they are), puts all in their places at the end, then
  /// prints what goes to standard output. Throws FileError, leaving what was there before.
  void write(std::ostream& standard_output) const;
  [[nodiscard]] bool to_standard_output() const { return to_standard_output_; }
  /// The paths written, in the order added.
  [[nodiscard]] std::vector<std::string> paths() const;

 private:
  struct Output {
    std::string path;
    Content content;
  };
  std::vector<Output> outputs_;
  bool to_standard_output_ = false;
};

}  // namespace fingerway
