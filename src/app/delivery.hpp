// What this part answers: how every command hands over what it has worked out: files, text, messages, exit code.
// It works out nothing.
#pragma once

#include <string>
#include <vector>

#include "commands.hpp"
#include "files.hpp"

namespace fingerway {

/// Writes the files asked for and prints the text, unless standard output is taken by one of them.
void deliver(const Outputs& outputs, const std::string& text, const Console& console);

/// Messages, one a line, on standard error.
void tell(const std::vector<Fault>& faults, const Console& console);

/// Done, or done with something that has no fingering or does not fit.
[[nodiscard]] ExitCode code_for(const PlanSummary& summary);

/// A score written for another transposition is planned as its player reads it; that is said in its remarks.
void note_transposition(Passage& passage, const Instrument& instrument);

}  // namespace fingerway
