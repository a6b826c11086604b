#include "text_encoding.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <utility>

#include "fingerway/base/errors.hpp"
#include "musicxml_text.hpp"

namespace fingerway {

namespace {

// What windows-1252 puts at 0x80 to 0x9F, where Latin-1 has control characters; its five gaps keep their number.
// Source: Unicode Consortium, mapping table CP1252.TXT.
constexpr std::array<std::uint16_t, 32> windows_letters = {
    0x20AC, 0x0081, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0x008D, 0x017D, 0x008F, 0x0090, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x009D, 0x017E, 0x0178};

constexpr std::string_view utf8_mark = "\xEF\xBB\xBF";
constexpr std::uint32_t mark_letter = 0xFEFF;

std::uint32_t byte_at(std::string_view bytes, std::size_t i) { return static_cast<unsigned char>(bytes[i]); }

Place place_at(std::string_view text, std::size_t offset, const std::string& file) {
  const std::string_view before = text.substr(0, std::min(offset, text.size()));
  const auto lines = std::ranges::count(before, '\n');
  const std::size_t line_start = before.rfind('\n') + 1;  // npos + 1 is 0
  return {file, static_cast<int>(lines) + 1, static_cast<int>(before.size() - line_start) + 1, {}};
}

bool is_surrogate(std::uint32_t letter) { return letter >= 0xD800U && letter <= 0xDFFFU; }

void put_utf8(std::string& out, std::uint32_t letter) {
  const auto put = [&](std::uint32_t byte) { out += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (letter < 0x80U) {
    put(letter);
  } else if (letter < 0x800U) {
    put(0xC0U | letter >> 6U);
    put(0x80U | (letter & 0x3FU));
  } else if (letter < 0x10000U) {
    put(0xE0U | letter >> 12U);
    put(0x80U | (letter >> 6U & 0x3FU));
    put(0x80U | (letter & 0x3FU));
  } else {
    put(0xF0U | letter >> 18U);
    put(0x80U | (letter >> 12U & 0x3FU));
    put(0x80U | (letter >> 6U & 0x3FU));
    put(0x80U | (letter & 0x3FU));
  }
}

/// The letter that starts at `i`, which then stands after it. Only for valid UTF-8.
std::uint32_t next_letter(std::string_view text, std::size_t& i) {
  const std::uint32_t lead = byte_at(text, i++);
  const std::size_t more = lead < 0x80U ? 0 : lead < 0xE0U ? 1 : lead < 0xF0U ? 2 : 3;
  std::uint32_t letter = more == 0 ? lead : lead & (0x3FU >> more);
  for (std::size_t k = 0; k < more && i < text.size(); ++k) letter = letter << 6U | (byte_at(text, i++) & 0x3FU);
  return letter;
}

/// How letters of two or four bytes are laid out.
struct Wide {
  std::size_t bytes = 2;
  bool big_end_first = false;
};

std::optional<Wide> wide(Encoding encoding) {
  switch (encoding) {
    case Encoding::utf16le:
      return Wide{2, false};
    case Encoding::utf16be:
      return Wide{2, true};
    case Encoding::utf32le:
      return Wide{4, false};
    case Encoding::utf32be:
      return Wide{4, true};
    default:
      return std::nullopt;
  }
}

std::uint32_t unit_at(std::string_view bytes, std::size_t i, Wide how) {
  std::uint32_t unit = 0;
  for (std::size_t k = 0; k < how.bytes; ++k) {
    unit = unit << 8U | byte_at(bytes, i + (how.big_end_first ? k : how.bytes - 1 - k));
  }
  return unit;
}

void put_unit(std::string& out, std::uint32_t unit, Wide how) {
  for (std::size_t k = 0; k < how.bytes; ++k) {
    const std::size_t shift = 8 * (how.big_end_first ? how.bytes - 1 - k : k);
    out += static_cast<char>(static_cast<unsigned char>(unit >> shift & 0xFFU));
  }
}

std::string from_wide(std::string_view bytes, Wide how, const std::string& file) {
  std::string text;
  text.reserve(bytes.size() / how.bytes);
  const auto refuse = [&](const char* what) {
    throw InputError(Fault{place_at(text, text.size(), file), what, "the file may be damaged"});
  };
  std::size_t i = 0;
  while (i + how.bytes <= bytes.size()) {
    std::uint32_t letter = unit_at(bytes, i, how);
    i += how.bytes;
    if (how.bytes == 2 && letter >= 0xD800U && letter < 0xDC00U && i + 2 <= bytes.size()) {
      const std::uint32_t second = unit_at(bytes, i, how);
      if (second >= 0xDC00U && second <= 0xDFFFU) {
        letter = 0x10000U + ((letter - 0xD800U) << 10U) + (second - 0xDC00U);
        i += 2;
      }
    }
    if (is_surrogate(letter) || letter > 0x10FFFFU)
      refuse(how.bytes == 2 ? "not text in UTF-16" : "not text in UTF-32");
    put_utf8(text, letter);
  }
  if (i != bytes.size()) refuse("the text ends inside a letter");
  return text;
}

std::string from_single_bytes(std::string_view bytes, Encoding encoding) {
  std::string text;
  text.reserve(bytes.size());
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const std::uint32_t byte = byte_at(bytes, i);
    const bool special = encoding == Encoding::windows1252 && byte >= 0x80U && byte < 0xA0U;
    put_utf8(text, special ? windows_letters.at(byte - 0x80U) : byte);
  }
  return text;
}

std::optional<std::uint32_t> single_byte(std::uint32_t letter, Encoding encoding) {
  if (encoding == Encoding::windows1252 && letter >= 0x80U) {
    const auto* const found = std::ranges::find(windows_letters, letter);
    if (found != windows_letters.end()) return 0x80U + static_cast<std::uint32_t>(found - windows_letters.begin());
    if (letter < 0xA0U) return std::nullopt;
  }
  return letter <= 0xFFU ? std::optional(letter) : std::nullopt;
}

/// The encoding name in the XML declaration, in lower case; empty when there is none.
std::string declared_name(std::string_view text) {
  std::string_view head = text.substr(0, 200);
  head = head.substr(0, head.find("?>"));
  const std::size_t word = head.find("encoding");
  if (!head.starts_with("<?xml") || word == std::string_view::npos) return {};
  const std::size_t open = head.find_first_of("\"'", word);
  if (open == std::string_view::npos) return {};
  std::string name(head.substr(open + 1, head.find(head[open], open + 1) - open - 1));
  for (char& c : name) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return name;
}

Encoding declared_encoding_of(std::string_view text) {
  const std::string name = declared_name(text);
  if (name == "windows-1252" || name == "cp1252") return Encoding::windows1252;
  // A wide encoding that is only declared was lost when some program saved the text again, as UTF-8.
  for (const char* const utf : {"utf", "ucs-", "iso-10646", "us-ascii", "ascii"}) {
    if (name.starts_with(utf)) return Encoding::utf8;
  }
  return name.empty() ? Encoding::utf8 : Encoding::latin1;
}

/// Text in a one-byte encoding is hardly ever also valid UTF-8: where it is, a program saved it again and left the
/// declaration (as this one does: what was decoded once reads the same when it is decoded again).
bool is_utf8_after_all(std::string_view text) {
  const bool beyond_ascii =
      std::ranges::any_of(text, [](char c) { return (static_cast<unsigned char>(c) & 0x80U) != 0; });
  return beyond_ascii && !first_bad_byte(text);
}

struct Detected {
  Encoding encoding = Encoding::utf8;
  std::size_t mark = 0;  ///< bytes of the byte order mark
};

Detected detect(std::string_view bytes) {
  using namespace std::string_view_literals;
  if (bytes.starts_with(utf8_mark)) return {Encoding::utf8, utf8_mark.size()};
  if (bytes.starts_with("\xFF\xFE\0\0"sv)) return {Encoding::utf32le, 4};
  if (bytes.starts_with("\0\0\xFE\xFF"sv)) return {Encoding::utf32be, 4};
  if (bytes.starts_with("\xFF\xFE"sv)) return {Encoding::utf16le, 2};
  if (bytes.starts_with("\xFE\xFF"sv)) return {Encoding::utf16be, 2};
  // A score starts with ASCII: '<' or white space.
  if (bytes.size() >= 4) {
    const auto zero = [&](std::size_t i) { return bytes[i] == '\0'; };
    if (!zero(0) && zero(1) && zero(2) && zero(3)) return {Encoding::utf32le, 0};
    if (zero(0) && zero(1) && zero(2) && !zero(3)) return {Encoding::utf32be, 0};
    if (!zero(0) && zero(1) && !zero(2) && zero(3)) return {Encoding::utf16le, 0};
    if (zero(0) && !zero(1) && zero(2) && !zero(3)) return {Encoding::utf16be, 0};
  }
  const Encoding declared = declared_encoding_of(bytes);
  if (declared != Encoding::utf8 && is_utf8_after_all(bytes)) return {Encoding::utf8, 0};
  return {declared, 0};
}

}  // namespace

DecodedText decoded(std::string bytes, const std::string& file) {
  const Detected found = detect(bytes);
  if (found.mark != 0) bytes.erase(0, found.mark);
  DecodedText result{{}, found.encoding, found.mark != 0};
  if (const std::optional<Wide> how = wide(found.encoding)) {
    result.text = from_wide(bytes, *how, file);
  } else if (found.encoding == Encoding::utf8) {
    result.text = std::move(bytes);
  } else {
    result.text = from_single_bytes(bytes, found.encoding);
  }
  if (const std::optional<std::size_t> bad = first_bad_byte(result.text)) {
    const char* const what =
        found.encoding == Encoding::utf8 ? "not text in UTF-8" : "a control character that XML does not allow";
    throw InputError(Fault{place_at(result.text, *bad, file), what, "is it a MusicXML file?"});
  }
  return result;
}

std::string encoded(std::string_view text, Encoding encoding, bool byte_order_mark) {
  std::string bytes;
  if (encoding == Encoding::utf8) {
    if (byte_order_mark) bytes = utf8_mark;
    bytes += text;
    return bytes;
  }
  const std::optional<Wide> how = wide(encoding);
  bytes.reserve(text.size() * (how ? how->bytes : 1));
  if (how && byte_order_mark) put_unit(bytes, mark_letter, *how);
  for (std::size_t i = 0; i < text.size();) {
    const std::uint32_t letter = next_letter(text, i);
    if (how && how->bytes == 2 && letter >= 0x10000U) {
      put_unit(bytes, 0xD800U + ((letter - 0x10000U) >> 10U), *how);
      put_unit(bytes, 0xDC00U + ((letter - 0x10000U) & 0x3FFU), *how);
    } else if (how) {
      put_unit(bytes, letter, *how);
    } else if (const std::optional<std::uint32_t> byte = single_byte(letter, encoding)) {
      bytes += static_cast<char>(static_cast<unsigned char>(*byte));
    } else {
      bytes += "&#" + std::to_string(letter) + ";";
    }
  }
  return bytes;
}

}  // namespace fingerway
