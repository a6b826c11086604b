// What this part answers: which entry of a compressed MusicXML archive (.mxl) is the score, and its bytes.
// It knows nothing of encodings and writes nothing (archive_splice).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace fingerway {

/// The score in an archive.
struct PackedScore {
  std::uint64_t entry = 0;  ///< counted from 0 in the archive's order
  std::string name;
  std::string bytes;
};

/// True for a zip archive, by its first bytes.
[[nodiscard]] bool is_archive(std::string_view bytes);

/// The score META-INF/container.xml names, else the only entry that ends as a score does. Throws InputError when the
/// archive is damaged, encrypted, unpacks to an unreasonable size, or has unsafe or doubled names.
[[nodiscard]] PackedScore unpacked_score(std::string_view archive, const std::string& file);

}  // namespace fingerway
