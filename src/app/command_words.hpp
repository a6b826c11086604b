// What this part answers: the commands and options of the command line as plain values, read off its definitions, so
// that the man page and the completions cannot say anything else than the program does.
#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace fingerway {

/// What may be typed for an option or in a place.
enum class ValueKind { none, words, file, instrument, other };

struct OptionWords {
  std::vector<std::string> names;  ///< "-i", "--instrument"; empty for what is told by its place
  std::string value;               ///< "FILE"; empty for a flag
  std::string what;
  ValueKind kind = ValueKind::none;
  std::vector<std::string> words;  ///< of kind `words`
  bool required = false;
  bool repeats = false;  ///< several may follow each other
};

struct CommandWords {
  std::string name;  ///< "plan", "payoff merge"; empty for the program itself
  std::string what;
  std::vector<OptionWords> options;  ///< in the order of --help
};

/// The program first, then its commands in the order of --help, each before those below it. Hidden ones are left out.
[[nodiscard]] std::vector<CommandWords> command_words(const CLI::App& app);

/// The man page (section 1), in the man macros.
[[nodiscard]] std::string man_page(const std::vector<CommandWords>& commands);
/// What bash, zsh and fish read to complete a command.
[[nodiscard]] std::string bash_completion(const std::vector<CommandWords>& commands);
[[nodiscard]] std::string zsh_completion(const std::vector<CommandWords>& commands);
[[nodiscard]] std::string fish_completion(const std::vector<CommandWords>& commands);

}  // namespace fingerway
