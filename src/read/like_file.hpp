// What this part answers: an instrument file of a few lines that says which instrument it is like and what differs.
// The mechanism is the other instrument's; parts of it can be left off, and table lines added.
#pragma once

#include "instrument_file.hpp"

namespace fingerway {

/// Reads the file whose tree is `root` over the instrument it names, found in the same folder. What hangs on a touch
/// that it leaves off goes with it: rules, slides, table lines, pads that nothing moves any more.
/// Throws InputError or FileError.
[[nodiscard]] TracedInstrument read_like_file(const std::filesystem::path& file, const YamlNode& root);

}  // namespace fingerway
