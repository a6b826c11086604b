// What this part answers: where an element of a well-formed XML text starts and ends, byte by byte.
// It does not check the text: an XML parser has accepted it before.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace fingerway {

/// Byte offsets of one element.
struct ElementSpan {
  std::size_t start = 0;      ///< of its '<'
  std::size_t inside = 0;     ///< after its start tag
  std::size_t end = 0;        ///< after its end tag
  bool self_closing = false;  ///< <like-this/>: nothing can be put inside
};

/// The element whose name stands at `name_offset`.
[[nodiscard]] ElementSpan element_span(std::string_view text, std::size_t name_offset);

/// The line break and white space an element at `start` stands after, or empty when it does not start a line.
[[nodiscard]] std::string_view line_lead(std::string_view text, std::size_t start);

/// How letters beyond ASCII are written: as they are, or as numbers, for files in other encodings than UTF-8.
enum class Letters { utf8, ascii_only };
/// Text with the characters that mean something in XML written as entities and control characters left out.
[[nodiscard]] std::string escaped(std::string_view utf8, Letters letters);

/// The encoding name the XML declaration states, in lower case; empty when there is none.
[[nodiscard]] std::string declared_encoding(std::string_view text);

}  // namespace fingerway
