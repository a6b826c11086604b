// What this part answers: a zip archive with other content in one of its entries, every other byte as it was but for
// the places that tell sizes and offsets. It reads no entry and checks none: the archive has been read before.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace fingerway {

/// `before` is the entry's content now. The new one is packed with the settings that pack `before` to the bytes it has,
/// where those are found: so a content that is put back gives the archive back. Throws FileError when the archive is
/// built in a way that is not written.
[[nodiscard]] std::string spliced(std::string_view archive, std::uint64_t entry, std::string_view before,
                                  std::string_view content);

/// Throws the FileError of an archive that is not written.
[[noreturn]] void refuse_to_splice();

}  // namespace fingerway
