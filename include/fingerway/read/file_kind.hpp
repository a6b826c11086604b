// What this part answers: what one of our YAML files says it is, before it is read in full.
#pragma once

#include <filesystem>
#include <string>

namespace fingerway {

/// The value of `fingerway:` at the top ("instrument", "conversion", "motion", "choices"); empty when there is none.
/// Throws InputError when the file is no YAML, FileError when it cannot be read.
[[nodiscard]] std::string file_kind(const std::filesystem::path& file);

}  // namespace fingerway
