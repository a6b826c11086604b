// What this part answers: which encoding the bytes of an XML text are in, and the same text in UTF-8 and back.
// It does not parse XML beyond its declaration.
#pragma once

#include <string>
#include <string_view>

#include "fingerway/read/score_bytes.hpp"

namespace fingerway {

/// A text in UTF-8 and what it was before.
struct DecodedText {
  std::string text;
  Encoding encoding = Encoding::utf8;
  bool byte_order_mark = false;
};

/// A byte order mark tells, then zero bytes between letters, then the XML declaration. Throws InputError with line and
/// column when the bytes are no text in that encoding.
[[nodiscard]] DecodedText decoded(std::string bytes, const std::string& file);

/// The bytes of a UTF-8 text in another encoding; letters it lacks become character references.
[[nodiscard]] std::string encoded(std::string_view text, Encoding encoding, bool byte_order_mark);

}  // namespace fingerway
