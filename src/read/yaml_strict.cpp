#include "yaml_strict.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "fingerway/base/text.hpp"

namespace fingerway {

namespace {

std::string kind_of(const YamlNode& node) {
  switch (node.kind) {
    case YamlNode::Kind::null:
      return "nothing";
    case YamlNode::Kind::scalar:
      return in_quotes(node.text);
    case YamlNode::Kind::sequence:
      return "a list";
    case YamlNode::Kind::map:
      break;
  }
  return "a map";
}

std::string plain(double value) {
  char buffer[32];
  const std::to_chars_result end = std::to_chars(buffer, buffer + sizeof buffer, value);
  return {buffer, end.ptr};
}

std::string between(Bounds bounds) { return "from " + plain(bounds.least) + " to " + plain(bounds.most); }

/// "010": eight to some readers of YAML, ten to others and to people.
bool leading_zero(std::string_view text) {
  if (!text.empty() && text.front() == '-') text.remove_prefix(1);
  return text.size() > 1 && text[0] == '0' && text[1] != '.';
}

template <class Number>
std::optional<Number> parse_number(std::string_view text) {
  if (leading_zero(text)) return std::nullopt;
  Number value{};
  const std::from_chars_result end = std::from_chars(text.data(), text.data() + text.size(), value);
  if (end.ec != std::errc{} || end.ptr != text.data() + text.size()) return std::nullopt;
  return value;
}

template <class Number>
std::optional<Number> number_of(const YamlNode& node, const std::string& what, const char* kind, Bounds bounds,
                                FaultList& faults) {
  std::optional<Number> value;
  if (node.kind == YamlNode::Kind::scalar && !node.quoted) value = parse_number<Number>(node.text);
  if (!value || !std::isfinite(static_cast<double>(*value))) {
    const bool zero = node.kind == YamlNode::Kind::scalar && leading_zero(node.text);
    const bool text = node.kind == YamlNode::Kind::scalar && node.quoted;
    faults.add(node, what + " must be " + kind + ", not " + kind_of(node),
               zero   ? "no leading zeros"
               : text ? "a number stands without quotes"
                      : between(bounds));
    return std::nullopt;
  }
  if (static_cast<double>(*value) < bounds.least || static_cast<double>(*value) > bounds.most) {
    faults.add(node, what + " is out of range: " + node.text, between(bounds));
    return std::nullopt;
  }
  return value;
}

std::string key_name(std::string_view key) { return "'" + std::string(key) + "'"; }

}  // namespace

std::optional<std::string> yaml_text(const YamlNode& node, const std::string& what, FaultList& faults) {
  if (node.kind == YamlNode::Kind::scalar) return node.text;
  faults.add(node, what + " must be a text, not " + kind_of(node),
             node.kind == YamlNode::Kind::null ? "write \"\" for an empty text" : "");
  return std::nullopt;
}

std::optional<double> yaml_number(const YamlNode& node, const std::string& what, Bounds bounds, FaultList& faults) {
  return number_of<double>(node, what, "a number", bounds, faults);
}

std::optional<int> yaml_whole(const YamlNode& node, const std::string& what, Bounds bounds, FaultList& faults) {
  return number_of<int>(node, what, "a whole number", bounds, faults);
}

std::vector<const YamlNode*> yaml_items(const YamlNode& node, const std::string& what, FaultList& faults) {
  std::vector<const YamlNode*> items;
  if (node.kind != YamlNode::Kind::sequence) {
    faults.add(node, what + " must be a list, not " + kind_of(node), "[a, b], or one item a line behind '- '");
    return items;
  }
  for (const YamlNode& item : node.items) items.push_back(&item);
  return items;
}

std::string in_quotes(std::string_view text) {
  constexpr std::size_t longest = 60;
  std::string shown(text.substr(0, longest));
  if (text.size() > longest) {
    while (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0xC0) == 0x80) shown.pop_back();
    if (!shown.empty() && static_cast<unsigned char>(shown.back()) >= 0xC0) shown.pop_back();
    shown += "...";
  }
  return "'" + one_line(shown) + "'";
}

bool is_id(std::string_view text) {
  if (text.empty() || text.size() > 64 || text.front() < 'a' || text.front() > 'z' || text.back() == '-') return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool plain_sign = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (!plain_sign && (c != '-' || text[i - 1] == '-')) return false;
  }
  return true;
}

YamlMap::YamlMap(const YamlNode& node, std::string what, FaultList& faults)
    : node_(node), what_(std::move(what)), faults_(faults) {
  if (!usable()) {
    faults_.add(node_, what_ + " must be a map of keys and values, not " + kind_of(node_));
    return;
  }
  std::vector<std::string_view> seen;
  for (const YamlNode& key : node_.keys) {
    if (key.kind != YamlNode::Kind::scalar) {
      faults_.add(key, "a key of " + what_ + " must be a word, not " + kind_of(key));
    } else if (std::find(seen.begin(), seen.end(), key.text) != seen.end()) {
      faults_.add(key, "the key " + in_quotes(key.text) + " stands twice in " + what_, "keep one");
    } else if (seen.size() < 1000) {  // A longer list of distinct keys is none of ours; `finish` reports it.
      seen.push_back(key.text);
    }
  }
}

const YamlNode* YamlMap::find(std::string_view key) {
  if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) asked_.emplace_back(key);
  for (std::size_t i = 0; i < node_.keys.size(); ++i) {
    if (node_.keys[i].kind == YamlNode::Kind::scalar && node_.keys[i].text == key) return &node_.items[i];
  }
  return nullptr;
}

const YamlNode* YamlMap::need(std::string_view key) {
  const YamlNode* value = find(key);
  if (value == nullptr && usable()) faults_.add(node_, what_ + " needs the key " + key_name(key));
  return value;
}

std::string YamlMap::text(std::string_view key) {
  const YamlNode* value = need(key);
  if (value == nullptr) return {};
  std::optional<std::string> text = yaml_text(*value, key_name(key), faults_);
  if (text && text->empty()) faults_.add(*value, key_name(key) + " is empty");
  return text.value_or(std::string());
}

std::string YamlMap::text_or(std::string_view key, std::string fallback) {
  const YamlNode* value = find(key);
  if (value == nullptr) return fallback;
  return yaml_text(*value, key_name(key), faults_).value_or(std::move(fallback));
}

int YamlMap::whole(std::string_view key, Bounds bounds) {
  const YamlNode* value = need(key);
  const int fallback = static_cast<int>(bounds.least);
  return value == nullptr ? fallback : yaml_whole(*value, key_name(key), bounds, faults_).value_or(fallback);
}

int YamlMap::whole_or(std::string_view key, Bounds bounds, int fallback) {
  const YamlNode* value = find(key);
  return value == nullptr ? fallback : yaml_whole(*value, key_name(key), bounds, faults_).value_or(fallback);
}

double YamlMap::number(std::string_view key, Bounds bounds) {
  const YamlNode* value = need(key);
  return value == nullptr ? bounds.least : yaml_number(*value, key_name(key), bounds, faults_).value_or(bounds.least);
}

double YamlMap::number_or(std::string_view key, Bounds bounds, double fallback) {
  return number_if(key, bounds).value_or(fallback);
}

std::optional<double> YamlMap::number_if(std::string_view key, Bounds bounds) {
  const YamlNode* value = find(key);
  if (value == nullptr) return std::nullopt;
  return yaml_number(*value, key_name(key), bounds, faults_);
}

bool YamlMap::flag_or(std::string_view key, bool fallback) {
  const YamlNode* value = find(key);
  if (value == nullptr) return fallback;
  if (value->kind == YamlNode::Kind::scalar && !value->quoted) {
    if (value->text == "true") return true;
    if (value->text == "false") return false;
  }
  faults_.add(*value, key_name(key) + " must be true or false, not " + kind_of(*value));
  return fallback;
}

std::vector<std::string> YamlMap::texts(std::string_view key) {
  std::vector<std::string> texts;
  for (const YamlNode* item : items(key)) {
    if (std::optional<std::string> text = yaml_text(*item, "an item of " + key_name(key), faults_)) {
      texts.push_back(std::move(*text));
    }
  }
  return texts;
}

std::vector<const YamlNode*> YamlMap::items(std::string_view key) {
  const YamlNode* value = find(key);
  if (value == nullptr) return {};
  return yaml_items(*value, key_name(key), faults_);
}

void YamlMap::file_kind(std::string_view kind) {
  if (!usable()) return;
  const std::string found = text("fingerway");
  if (!found.empty() && found != kind) {
    faults_.add(*find("fingerway"), "this is not '" + std::string(kind) + "' but " + in_quotes(found),
                "the first line says what the file is: fingerway: " + std::string(kind));
  }
  whole("version", {1, 1});
}

void YamlMap::finish() {
  for (const YamlNode& key : node_.keys) {
    if (key.kind != YamlNode::Kind::scalar || std::find(asked_.begin(), asked_.end(), key.text) != asked_.end()) {
      continue;
    }
    faults_.add(key, "unknown key " + in_quotes(key.text) + " in " + what_, suggestion(key.text, asked_));
  }
}

void YamlMap::not_one_of(const YamlNode& value, std::string_view key, const std::vector<std::string>& words) {
  const std::string word = value.kind == YamlNode::Kind::scalar ? value.text : std::string();
  std::string list;
  for (const std::string& each : words) list += (list.empty() ? "" : ", ") + each;
  const std::string near = nearest_word(word, words);
  faults_.add(value, key_name(key) + " can't be " + kind_of(value),
              (near.empty() ? "" : "did you mean '" + near + "'? ") + "one of: " + list);
}

}  // namespace fingerway
