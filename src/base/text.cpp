#include "fingerway/base/text.hpp"

#include <algorithm>

#include "fingerway/base/errors.hpp"

namespace fingerway {

namespace {

unsigned char byte_at(std::string_view text, std::size_t i) { return static_cast<unsigned char>(text[i]); }

bool is_continuation(std::string_view text, std::size_t i) {
  return i < text.size() && (byte_at(text, i) & 0xC0U) == 0x80U;
}

}  // namespace

std::size_t utf8_length(std::string_view text, std::size_t at) {
  const unsigned char lead = byte_at(text, at);
  if (lead < 0x80U) return 1;
  std::size_t length = 0;
  if (lead >= 0xC2U && lead <= 0xDFU) length = 2;
  if (lead >= 0xE0U && lead <= 0xEFU) length = 3;
  if (lead >= 0xF0U && lead <= 0xF4U) length = 4;
  if (length == 0) return 0;
  for (std::size_t k = 1; k < length; ++k) {
    if (!is_continuation(text, at + k)) return 0;
  }
  const unsigned char second = byte_at(text, at + 1);
  const bool overlong = (lead == 0xE0U && second < 0xA0U) || (lead == 0xF0U && second < 0x90U);
  const bool surrogate = lead == 0xEDU && second > 0x9FU;
  const bool beyond = lead == 0xF4U && second > 0x8FU;
  return overlong || surrogate || beyond ? 0 : length;
}

bool is_control(std::string_view text, std::size_t at) {
  const unsigned char c = byte_at(text, at);
  return c < 0x20U || c == 0x7FU || (c == 0xC2U && byte_at(text, at + 1) < 0xA0U);
}

std::string one_line(std::string_view text) {
  std::string line;
  line.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = utf8_length(text, i);
    if (length == 0) {
      line += '?';
    } else if (is_control(text, i)) {
      if (line.empty() || line.back() != ' ') line += ' ';
    } else {
      line += text.substr(i, length);
    }
    i += std::max<std::size_t>(length, 1);
  }
  return line;
}

std::string suggestion(std::string_view word, const std::vector<std::string>& known) {
  const std::string nearest = nearest_word(word, known);
  if (!nearest.empty()) return "did you mean '" + nearest + "'?";
  constexpr std::size_t most_shown = 12;
  std::string list;
  for (std::size_t i = 0; i < known.size() && i < most_shown; ++i) list += (i == 0 ? "known: " : ", ") + known[i];
  if (known.size() > most_shown) list += ", ...";
  return list;
}

}  // namespace fingerway
