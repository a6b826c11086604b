#include "command_words.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>

namespace fingerway {
namespace {

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> parts(1);
  for (const char c : text) {
    if (c == at) {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
  }
  return parts;
}

ValueKind kind_of(const std::string& value) {
  static const std::vector<std::string> files = {"FILE", "SCORE", "REPERTOIRE", "ROSTER", "FOLDER"};
  static const std::vector<std::string> instruments = {"INSTRUMENT", "OTHER"};
  if (value.empty()) return ValueKind::none;
  if (value.find('|') != std::string::npos) return ValueKind::words;
  if (std::ranges::find(files, value) != files.end()) return ValueKind::file;
  if (std::ranges::find(instruments, value) != instruments.end()) return ValueKind::instrument;
  return ValueKind::other;
}

OptionWords option_words(const CLI::Option& option) {
  OptionWords words;
  for (const std::string& name : option.get_snames()) words.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) words.names.push_back("--" + name);
  const bool takes_value = option.get_items_expected_max() > 0;
  words.value = takes_value ? option.get_type_name() : "";
  words.what = option.get_description();
  words.kind = kind_of(words.value);
  if (words.kind == ValueKind::words) words.words = split(words.value, '|');
  words.required = option.get_required();
  words.repeats = takes_value && option.get_items_expected_max() > 1;
  return words;
}

void add(const CLI::App& app, const std::string& name, std::vector<CommandWords>& commands) {
  CommandWords command{.name = name, .what = app.get_description(), .options = {}};
  for (const CLI::Option* option : app.get_options({})) {
    if (!option->get_group().empty()) command.options.push_back(option_words(*option));
  }
  commands.push_back(std::move(command));
  for (const CLI::App* sub : app.get_subcommands(std::function<bool(const CLI::App*)>{})) {
    if (!sub->get_group().empty()) add(*sub, name.empty() ? sub->get_name() : name + " " + sub->get_name(), commands);
  }
}

}  // namespace

std::vector<CommandWords> command_words(const CLI::App& app) {
  std::vector<CommandWords> commands;
  add(app, "", commands);
  return commands;
}

}  // namespace fingerway
