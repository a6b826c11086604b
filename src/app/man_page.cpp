#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "app/build_info.hpp"
#include "command_words.hpp"

namespace fingerway {
namespace {

// What stands in no definition: where data lies, what the codes mean, and the cautions.
constexpr std::string_view after_commands = R"(.SH EXIT STATUS
.TP
.B 0
done
.TP
.B 1
done, but something has no fingering or does not fit the tempo
.TP
.B 2
bad input; each fault is told as file:line:column: what (hint)
.TP
.B 3
bad command line
.TP
.B 4
cannot read or write
.SH FILES
Instruments and conversions are looked for in these folders, in this order:
.TP
.I instruments/
of the working folder
.TP
.I $XDG_DATA_HOME/fingerway/instruments/
your own (\fI~/.local/share\fP where the variable is not set)
.TP
.I {data}/instruments/
those that come with the program; the demo scores lie beside them in
.IR {data}/scores/ .
.SH EXAMPLES
The demo passage on the stock bassoon, as a page to look at and print:
.PP
.nf
.RS
fingerway plan {data}/scores/alder\-street/low\-bridge.musicxml \-i bassoon \-\-html plan.html
.RE
.fi
.PP
The same passage with a conversion beside it:
.PP
.nf
.RS
fingerway compare {data}/scores/alder\-street/low\-bridge.musicxml \-i bassoon \e
  \-\-with bassoon+interlinked\-low\-keys
.RE
.fi
.SH TAKE CARE
Repeated fast practice can injure: rest often, and stop on pain or numbness.
Nothing here is medical advice.
Changing keywork can ruin an instrument: it is for a qualified repairer, who has the last word.
Predictions are for a typical hand of the chosen level; your own trial overrides them.
.SH SEE ALSO
The guide, in
.IR {guide} .
)";

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\') {
      out += "\\e";
    } else if (c == '-') {
      out += "\\-";
    } else {
      out += c;
    }
  }
  // A line must not begin with a control character of roff.
  if (out.starts_with('.') || out.starts_with('\'')) out.insert(0, "\\&");
  return out;
}

std::string replaced(std::string_view text, std::string_view what, std::string_view by) {
  std::string out(text);
  for (std::size_t at = out.find(what); at != std::string::npos; at = out.find(what, at + by.size())) {
    out.replace(at, what.size(), by);
  }
  return out;
}

std::string title(const OptionWords& option) {
  std::string out;
  for (const std::string& name : option.names) {
    out += fmt::format("{}\\fB{}\\fP", out.empty() ? "" : ", ", escaped(name));
  }
  if (option.value.empty()) return out;
  return fmt::format("{}{}\\fI{}\\fP{}", out, out.empty() ? "" : " ", escaped(option.value),
                     option.repeats && option.names.empty() ? " ..." : "");
}

std::string synopsis(const CommandWords& command) {
  std::string out = fmt::format("\\fBfingerway {}\\fP", escaped(command.name));
  bool others = false;
  for (const OptionWords& option : command.options) {
    if (option.names.empty()) {
      out += option.required ? ' ' + title(option) : " [" + title(option) + ']';
    } else if (option.required) {
      out += ' ' + title({.names = {option.names.front()}, .value = option.value, .what = {}, .words = {}});
    } else {
      others = true;
    }
  }
  return out + (others ? " [\\fIoptions\\fP]\n" : "\n");
}

void add_options(const CommandWords& command, std::string& out) {
  for (const OptionWords& option : command.options) {
    out += fmt::format(".TP\n{}\n{}{}\n", title(option), escaped(option.what),
                       option.required && !option.names.empty() ? " (required)" : "");
  }
}

}  // namespace

std::string man_page(const std::vector<CommandWords>& commands) {
  const CommandWords& program = commands.front();
  std::string what = program.what;
  if (what.ends_with('.')) what.pop_back();
  what.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(what.front())));
  std::string out = fmt::format(".TH FINGERWAY 1 \"\" \"fingerway {}\" \"User commands\"\n", program_version);
  out += fmt::format(".SH NAME\nfingerway \\- {}\n.SH SYNOPSIS\n.nf\n", escaped(what));
  for (std::size_t i = 1; i < commands.size(); ++i) out += synopsis(commands[i]);
  out += ".fi\n.SH DESCRIPTION\n";
  out +=
      "Reads a passage (MusicXML), knows the instrument as a mechanism, works out every way the hand can produce each\n"
      "note, and finds the sequence that is least awkward and fast enough, on the stock instrument and on one with\n"
      "converted keywork. An instrument is named by its id, by a file, or with conversions stacked:\n"
      ".IR bassoon+interlinked\\-low\\-keys .\n.SH OPTIONS\n";
  add_options(program, out);
  out += ".SH COMMANDS\n";
  for (std::size_t i = 1; i < commands.size(); ++i) {
    out += fmt::format(".SS {}\n{}.\n", escaped(commands[i].name), escaped(commands[i].what));
    add_options(commands[i], out);
  }
  const std::string data(installed_data_folder);
  return out +
         replaced(replaced(after_commands, "{data}", escaped(data)), "{guide}", escaped(data) + "/guide/index.html");
}

}  // namespace fingerway
