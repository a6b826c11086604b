// What this part answers: a YAML file as a tree that knows its lines, and a list that collects the file's faults.
// It does not know what the file should hold (yaml_strict.hpp). Sizes are bounded; anchors and aliases are refused.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "fingerway/base/errors.hpp"

namespace fingerway {

/// What YAML files are held to before anything of them is believed.
inline constexpr std::size_t largest_yaml_file = std::size_t{8} * 1024 * 1024;
inline constexpr std::size_t most_yaml_nodes = 200'000;
inline constexpr std::size_t deepest_yaml = 32;
/// The parser looks ahead to the end of a line and keeps what it finds there, so lines bound its memory.
inline constexpr std::size_t longest_yaml_line = 10'000;
/// Further faults of one file are counted, not listed.
inline constexpr std::size_t most_listed_faults = 50;

/// One value of a YAML file and where it starts (1-based).
struct YamlNode {
  enum class Kind : std::uint8_t { null, scalar, sequence, map };
  Kind kind = Kind::null;
  std::string text;     ///< of a scalar
  bool quoted = false;  ///< a scalar in quotes or a block: always text
  int line = 0;
  int column = 0;
  std::vector<YamlNode> keys;   ///< of a map: keys[i] belongs to items[i]; doubles are kept
  std::vector<YamlNode> items;  ///< of a sequence or a map
};

/// The faults of one file, collected before they are thrown.
class FaultList {
 public:
  explicit FaultList(std::string file) : file_(std::move(file)) {}

  [[nodiscard]] const std::string& file() const { return file_; }
  [[nodiscard]] bool empty() const { return faults_.empty(); }
  [[nodiscard]] Place place(const YamlNode& at) const { return {file_, at.line, at.column, {}}; }
  void add(const YamlNode& at, std::string what, std::string hint = {}) {
    add(Fault{place(at), std::move(what), std::move(hint)});
  }
  void add(Fault fault);
  /// Throws InputError with all faults collected so far, if there are any.
  void throw_if_any() const;

 private:
  std::string file_;
  std::vector<Fault> faults_;
  std::size_t unlisted_ = 0;
};

/// The text of a file. Throws FileError, or InputError when it is larger than `largest_yaml_file`.
[[nodiscard]] std::string read_text_file(const std::filesystem::path& file);
/// The single document of a YAML text; `file` is for messages. Throws InputError.
[[nodiscard]] YamlNode parse_yaml(const std::string& text, const std::string& file);
/// Both: throws FileError or InputError.
[[nodiscard]] YamlNode load_yaml(const std::filesystem::path& file);

}  // namespace fingerway
