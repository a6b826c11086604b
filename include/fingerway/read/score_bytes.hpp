// What this part answers: a score file's bytes as UTF-8 text, and changed text as bytes of the same kind again: the
// same encoding and, for compressed MusicXML (.mxl), the same container. It does not look at the music.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace fingerway {

/// How a file writes letters. `latin1` also stands for every encoding we do not know: its bytes beyond ASCII are
/// carried as letters of the same number, so that they go back unchanged.
enum class Encoding { utf8, utf16le, utf16be, utf32le, utf32be, latin1, windows1252 };

/// The zip archive a score came in.
struct Container {
  std::string archive;      ///< as it was
  std::uint64_t entry = 0;  ///< the one that holds the score, counted from 0
  std::string name;         ///< of that entry
};

/// A score as text, with what is needed to write it back.
struct ScoreFile {
  std::string text;  ///< UTF-8 without byte order mark, whatever encoding its XML declaration names
  Encoding encoding = Encoding::utf8;
  bool byte_order_mark = false;
  std::optional<Container> container;
};

/// Reads a score file, compressed or not; which of the two its first bytes say, not its name. Throws FileError, or
/// InputError when it is damaged, encrypted, unreasonably large when unpacked, or not text.
[[nodiscard]] ScoreFile load_score(const std::filesystem::path& file);
/// The same from bytes already in memory; `name` is only for messages. Text that was decoded before stays as it is.
[[nodiscard]] ScoreFile parse_score_bytes(std::string bytes, const std::string& name);

/// `new_text` (UTF-8) in the encoding of `original`, letters it lacks as character references; in its container, if it
/// has one, with every other entry as it was and in the same order. The entry is packed as the original was: where that
/// was done by the usual library, a text that is put back gives the original archive back byte for byte.
[[nodiscard]] std::string score_bytes(const ScoreFile& original, std::string_view new_text);

}  // namespace fingerway
