// What this part answers: the values a YAML map must hold, read strictly: missing, unknown and duplicate keys, wrong
// types and values out of range become faults at their place. It knows no instrument; every YAML reader uses it.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "fingerway/base/text.hpp"
#include "yaml_tree.hpp"

namespace fingerway {

/// Inclusive bounds of a number.
struct Bounds {
  double least = 0.0;
  double most = 0.0;
};

/// A map being read. Ask for every key the map may have, then call `finish`, which reports the keys nobody asked for.
/// A value that is wrong is reported and replaced by a default, so that reading goes on to the next fault.
/// The node and the fault list must outlive it.
class YamlMap {
 public:
  /// `what` is how messages call it: "a pad", "the instrument file".
  YamlMap(const YamlNode& node, std::string what, FaultList& faults);

  [[nodiscard]] const YamlNode& node() const { return node_; }
  /// False when the node is not a map at all; that has been reported, and no key of it will be.
  [[nodiscard]] bool usable() const { return node_.kind == YamlNode::Kind::map; }

  /// The value of a key that may be missing (then nullptr).
  const YamlNode* find(std::string_view key);
  /// The value of a key that must be there; nullptr after reporting.
  const YamlNode* need(std::string_view key);

  std::string text(std::string_view key);
  std::string text_or(std::string_view key, std::string fallback);
  int whole(std::string_view key, Bounds bounds);
  int whole_or(std::string_view key, Bounds bounds, int fallback);
  double number(std::string_view key, Bounds bounds);
  double number_or(std::string_view key, Bounds bounds, double fallback);
  std::optional<double> number_if(std::string_view key, Bounds bounds);
  bool flag_or(std::string_view key, bool fallback);
  /// A list of texts; a missing key gives an empty list.
  std::vector<std::string> texts(std::string_view key);
  /// The items of a list; a missing key gives an empty list.
  std::vector<const YamlNode*> items(std::string_view key);
  /// One word of several that stand for values; the first is the default after a fault.
  template <class T>
  T word(std::string_view key, std::initializer_list<std::pair<const char*, T>> meanings) {
    const YamlNode* value = need(key);
    return value == nullptr ? meanings.begin()->second : meaning_of(*value, key, meanings);
  }
  template <class T>
  T word_or(std::string_view key, std::initializer_list<std::pair<const char*, T>> meanings, T fallback) {
    const YamlNode* value = find(key);
    return value == nullptr ? fallback : meaning_of(*value, key, meanings);
  }
  /// `fingerway: kind` and `version: 1`, which open every file of ours.
  void file_kind(std::string_view kind);

  /// Reports unknown keys. Duplicate keys were reported when the map was taken up.
  void finish();

 private:
  template <class T>
  T meaning_of(const YamlNode& value, std::string_view key, std::initializer_list<std::pair<const char*, T>> meanings) {
    std::vector<std::string> words;
    for (const auto& [word, meaning] : meanings) {
      if (value.kind == YamlNode::Kind::scalar && value.text == word) return meaning;
      words.emplace_back(word);
    }
    not_one_of(value, key, words);
    return meanings.begin()->second;
  }
  void not_one_of(const YamlNode& value, std::string_view key, const std::vector<std::string>& words);

  const YamlNode& node_;
  std::string what_;
  FaultList& faults_;
  std::vector<std::string> asked_;
};

/// The text of a scalar; reports and gives nothing for other kinds. `what` names it: "'label'".
[[nodiscard]] std::optional<std::string> yaml_text(const YamlNode& node, const std::string& what, FaultList& faults);
/// A number within bounds; reports otherwise.
[[nodiscard]] std::optional<double> yaml_number(const YamlNode& node, const std::string& what, Bounds bounds,
                                                FaultList& faults);
/// A whole number within bounds; reports otherwise, also for leading zeros, which YAML readers disagree about.
[[nodiscard]] std::optional<int> yaml_whole(const YamlNode& node, const std::string& what, Bounds bounds,
                                            FaultList& faults);
/// The items of a sequence; reports other kinds.
[[nodiscard]] std::vector<const YamlNode*> yaml_items(const YamlNode& node, const std::string& what, FaultList& faults);

/// The text in single quotes, shortened and on one line, for messages.
[[nodiscard]] std::string in_quotes(std::string_view text);
/// True for an id of ours: lower-case letters, digits and single hyphens, starting with a letter, at most 64 long.
[[nodiscard]] bool is_id(std::string_view text);

}  // namespace fingerway
