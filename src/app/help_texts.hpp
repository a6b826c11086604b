// What this part answers: what --help says below its lists.
#pragma once

#include <string_view>

namespace fingerway {

/// Below every command.
inline constexpr std::string_view help_of_commands =
    "Exit codes: 0 done; 1 done, but something has no fingering or does not fit; 2 bad input; 3 bad command line;\n"
    "4 cannot read or write. Repeated fast practice can injure: rest, and stop on pain or numbness.";

/// Below the list of commands, before that: how to begin.
inline constexpr std::string_view help_of_program =
    "Begin with\n"
    "  fingerway plan SCORE -i INSTRUMENT     which fingering on every note of a MusicXML file\n"
    "  fingerway serve --open                 the same on a page in your browser\n"
    "\"fingerway reference instruments\" lists the instruments, \"fingerway reference instruments bassoon+\" the\n"
    "conversions of one; \"fingerway COMMAND --help\" tells what a command takes, \"man fingerway\" all of it.\n\n";

}  // namespace fingerway
