// What this part answers: the loudness in force at each note of a line, hairpins included.
// It reads no XML.
#pragma once

#include "musicxml_line.hpp"

namespace fingerway {

/// Gives every note of the line its dynamic. Under a hairpin, loudness moves evenly to the mark at its end, or by one
/// degree where there is none.
void settle_dynamics(Line& line);

}  // namespace fingerway
