// What this part answers: the parts of a score as a list to choose from.
#pragma once

#include <string>
#include <vector>

#include "fingerway/instrument/instrument.hpp"
#include "fingerway/read/musicxml.hpp"

namespace fingerway {

/// One line a part: id, name, notes, range; notes outside the instrument's range are told.
[[nodiscard]] std::string parts_text(const std::string& file, const std::vector<PartInfo>& parts,
                                     const Instrument& instrument);
/// Format "fingerway/parts".
[[nodiscard]] std::string parts_json(const std::string& file, const std::vector<PartInfo>& parts);

}  // namespace fingerway
