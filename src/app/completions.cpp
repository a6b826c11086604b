#include <fmt/format.h>

#include <algorithm>

#include "command_words.hpp"

namespace fingerway {
namespace {

// Ids are asked of the program at the moment, so that instruments of the reader's own are completed too.
constexpr const char* ask_for_instruments = "fingerway reference instruments";

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  return fmt::format("{}", fmt::join(parts, between));
}

std::string replaced(std::string text, std::string_view what, std::string_view by) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size())) {
    text.replace(at, what.size(), by);
  }
  return text;
}

/// For a shell's single quotes.
std::string in_quotes(const std::string& text) { return "'" + replaced(text, "'", "'\\''") + "'"; }

/// What stands in a place, not behind a name; nothing where there is no such thing.
const OptionWords* placed(const CommandWords& command) {
  const auto found = std::ranges::find_if(command.options, [](const OptionWords& o) { return o.names.empty(); });
  return found == command.options.end() ? nullptr : &*found;
}

std::vector<std::string> names_below(const std::vector<CommandWords>& commands, const std::string& name) {
  const std::string start = name.empty() ? "" : name + " ";
  std::vector<std::string> below;
  for (const CommandWords& command : commands) {
    if (command.name.size() <= start.size() || !command.name.starts_with(start)) continue;
    if (const std::string rest = command.name.substr(start.size()); rest.find(' ') == std::string::npos) {
      below.push_back(rest);
    }
  }
  return below;
}

std::string bash_reply(const OptionWords& option) {
  switch (option.kind) {
    case ValueKind::words:
      return fmt::format("_fingerway_words '{}'", joined(option.words, " "));
    case ValueKind::file:
      return "_fingerway_files";
    case ValueKind::instrument:
      return fmt::format("_fingerway_words \"$({} \"$2\" 2>/dev/null)\"", ask_for_instruments);
    case ValueKind::none:
    case ValueKind::other:
      return "COMPREPLY=()";
  }
  return "";
}

std::string zsh_value(const OptionWords& option) {
  switch (option.kind) {
    case ValueKind::none:
      return "";
    case ValueKind::words:
      return fmt::format(":value:({})", joined(option.words, " "));
    case ValueKind::file:
      return fmt::format(":{}:_files", option.value);
    case ValueKind::instrument:
      return ":instrument:_fingerway_instruments";
    case ValueKind::other:
      return fmt::format(":{}: ", option.value);
  }
  return "";
}

/// One line for _arguments.
std::string zsh_option(const OptionWords& option) {
  std::string what = replaced(replaced(option.what, "[", "\\["), "]", "\\]");
  what = replaced(what, ":", "\\:");
  if (option.names.empty()) return "      " + in_quotes("*" + zsh_value(option));
  if (option.names.size() == 1) return "      " + in_quotes(option.names[0] + "[" + what + "]" + zsh_value(option));
  return fmt::format("      '({})'{{{}}}{}", joined(option.names, " "), joined(option.names, ","),
                     in_quotes("[" + what + "]" + zsh_value(option)));
}

std::string fish_value(const OptionWords& option) {
  switch (option.kind) {
    case ValueKind::none:
      return "";
    case ValueKind::words:
      return " -x -a " + in_quotes(joined(option.words, " "));
    case ValueKind::file:
      return " -r -F";
    case ValueKind::instrument:
      return fmt::format(" -x -a '({} (commandline -ct))'", ask_for_instruments);
    case ValueKind::other:
      return " -x";
  }
  return "";
}

/// The condition under which what belongs to a command is offered.
std::string fish_condition(const std::vector<CommandWords>& commands, const CommandWords& command) {
  if (command.name.empty()) return "__fish_use_subcommand";
  std::string condition;
  for (std::size_t from = 0; from <= command.name.size();) {
    const std::size_t to = std::min(command.name.find(' ', from), command.name.size());
    condition += fmt::format("{}__fish_seen_subcommand_from {}", condition.empty() ? "" : "; and ",
                             command.name.substr(from, to - from));
    from = to + 1;
  }
  if (const std::vector<std::string> below = names_below(commands, command.name); !below.empty()) {
    condition += "; and not __fish_seen_subcommand_from " + joined(below, " ");
  }
  return condition;
}

}  // namespace

std::string bash_completion(const std::vector<CommandWords>& commands) {
  std::string known, values, rest;
  for (const CommandWords& command : commands) {
    if (const std::size_t space = command.name.rfind(' '); space != std::string::npos) {
      known += fmt::format("      '{}') command='{}' ;;\n", command.name, command.name);
    } else if (!command.name.empty()) {
      known += fmt::format("      ' {}') command='{}' ;;\n", command.name, command.name);
    }
    std::vector<std::string> options;
    for (const OptionWords& option : command.options) {
      options.insert(options.end(), option.names.begin(), option.names.end());
      if (option.names.empty() || option.kind == ValueKind::none) continue;
      std::vector<std::string> patterns;
      for (const std::string& name : option.names) patterns.push_back(fmt::format("'{}:{}'", command.name, name));
      values += fmt::format("    {}) {}; return ;;\n", joined(patterns, " | "), bash_reply(option));
    }
    const std::string below = joined(names_below(commands, command.name), " ");
    const OptionWords* place = placed(command);
    rest += fmt::format("    '{}:'-*) _fingerway_words '{}' ;;\n", command.name, joined(options, " "));
    if (place != nullptr && place->kind == ValueKind::file)
      rest += fmt::format("    '{}:'*) _fingerway_files ;;\n", command.name);
    if (!below.empty() && command.name.empty()) rest += fmt::format("    ':'*) _fingerway_words '{}' ;;\n", below);
  }
  return "# Completion of fingerway for bash, made from the program's own command definitions.\n"
         "_fingerway_words() {\n  local IFS=$' \\t\\n'\n  COMPREPLY=($(compgen -W \"$1\" -- \"$current\"))\n}\n"
         "_fingerway_files() {\n  compopt -o filenames 2>/dev/null\n"
         "  local IFS=$'\\n'\n  COMPREPLY=($(compgen -f -- \"$current\"))\n}\n"
         "_fingerway() {\n  local current=$2 previous=$3 command= word\n"
         "  for word in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n    case \"$command $word\" in\n" +
         known + "    esac\n  done\n  COMPREPLY=()\n  case \"$command:$previous\" in\n" + values +
         "  esac\n  case \"$command:$current\" in\n" + rest + "  esac\n}\ncomplete -F _fingerway fingerway\n";
}

std::string zsh_completion(const std::vector<CommandWords>& commands) {
  std::string described, cases;
  for (const CommandWords& command : commands) {
    if (command.name.empty()) continue;
    if (command.name.find(' ') == std::string::npos) {
      described += "    " + in_quotes(replaced(command.name, ":", "\\:") + ":" + command.what) + "\n";
    }
    std::vector<std::string> lines;
    for (const OptionWords& option : command.options) lines.push_back(zsh_option(option));
    const std::string pattern = replaced(command.name, " ", "\\ ");
    cases += fmt::format("    ({})\n    _arguments -s \\\n{}\n    ;;\n", pattern, joined(lines, " \\\n"));
  }
  std::string nested;
  for (const CommandWords& command : commands) {
    const std::size_t space = command.name.rfind(' ');
    if (space == std::string::npos) continue;
    nested +=
        fmt::format("  [[ $command == {} && $words[2] == {} ]] && command='{}' && shift words && (( CURRENT-- ))\n",
                    in_quotes(command.name.substr(0, space)), in_quotes(command.name.substr(space + 1)), command.name);
  }
  return std::string("#compdef fingerway\n# Made from the program's own command definitions.\n") +
         "_fingerway_instruments() {\n  local -a ids\n  ids=(${(f)\"$(" + ask_for_instruments +
         " \"$PREFIX\" 2>/dev/null)\"})\n  compadd -a ids\n}\n" +
         "_fingerway() {\n  local command\n  local -a commands\n  commands=(\n" + described +
         "  )\n  if (( CURRENT == 2 )); then\n    if [[ $PREFIX == -* ]]; then\n      _values option --help "
         "--version\n" +
         "    else\n      _describe command commands\n    fi\n    return\n  fi\n" +
         "  shift words\n  (( CURRENT-- ))\n  command=$words[1]\n" + nested + "  case $command in\n" + cases +
         "  esac\n}\n_fingerway \"$@\"\n";
}

std::string fish_completion(const std::vector<CommandWords>& commands) {
  std::string out = "# Made from the program's own command definitions.\ncomplete -c fingerway -f\n";
  for (const CommandWords& command : commands) {
    const std::string condition = fish_condition(commands, command);
    for (const std::string& below : names_below(commands, command.name)) {
      const std::string full = command.name.empty() ? below : command.name + " " + below;
      const auto found = std::ranges::find(commands, full, &CommandWords::name);
      out +=
          fmt::format("complete -c fingerway -n {} -a {} -d {}\n", in_quotes(condition), below, in_quotes(found->what));
    }
    for (const OptionWords& option : command.options) {
      std::string names;
      for (const std::string& name : option.names) {
        names += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
      }
      if (names.empty() && option.kind != ValueKind::file) continue;
      out += fmt::format("complete -c fingerway -n {}{}{} -d {}\n", in_quotes(condition), names,
                         names.empty() ? " -F" : fish_value(option), in_quotes(option.what));
    }
  }
  return out;
}

}  // namespace fingerway
