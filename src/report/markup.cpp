#include "markup.hpp"

#include <algorithm>
#include <cstdint>

namespace fingerway {

namespace {

/// The offset after the next `what`, from `from` on; the end of the text when there is none.
std::size_t after(std::string_view text, std::string_view what, std::size_t from) {
  const std::size_t place = text.find(what, from);
  return place == std::string_view::npos ? text.size() : place + what.size();
}

/// The offset after the '>' of the tag that starts at `start`; one in an attribute's quotes does not count.
std::size_t tag_end(std::string_view text, std::size_t start) {
  char quote = '\0';
  for (std::size_t i = start; i < text.size(); ++i) {
    const char c = text[i];
    if (quote != '\0') {
      if (c == quote) quote = '\0';
    } else if (c == '"' || c == '\'') {
      quote = c;
    } else if (c == '>') {
      return i + 1;
    }
  }
  return text.size();
}

/// A character of well-formed UTF-8: its code point and how many bytes it takes.
struct Letter {
  std::uint32_t code = 0;
  std::size_t bytes = 1;
};

Letter letter_at(std::string_view text, std::size_t i) {
  const auto byte = [&](std::size_t k) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[k])); };
  const std::uint32_t lead = byte(i);
  const std::size_t bytes = lead < 0x80U ? 1 : lead < 0xE0U ? 2 : lead < 0xF0U ? 3 : 4;
  if (bytes == 1 || i + bytes > text.size()) return {lead, 1};
  std::uint32_t code = lead & (0xFFU >> (bytes + 1));
  for (std::size_t k = 1; k < bytes; ++k) code = code << 6U | (byte(i + k) & 0x3FU);
  return {code, bytes};
}

}  // namespace

ElementSpan element_span(std::string_view text, std::size_t name_offset) {
  ElementSpan span;
  span.start = name_offset - 1;
  span.inside = tag_end(text, span.start);
  span.self_closing = text[span.inside - 2] == '/';
  std::size_t i = span.inside;
  for (int depth = span.self_closing ? 0 : 1; depth > 0 && i < text.size();) {
    i = text.find('<', i);
    if (i == std::string_view::npos) break;
    const std::string_view rest = text.substr(i);
    if (rest.starts_with("<!--")) {
      i = after(text, "-->", i + 4);
    } else if (rest.starts_with("<![CDATA[")) {
      i = after(text, "]]>", i);
    } else if (rest.starts_with("<?")) {
      i = after(text, "?>", i);
    } else {
      const std::size_t end = tag_end(text, i);
      if (rest.starts_with("</")) {
        --depth;
      } else if (text[end - 2] != '/') {
        ++depth;
      }
      i = end;
    }
  }
  span.end = std::min(i, text.size());
  return span;
}

std::string_view line_lead(std::string_view text, std::size_t start) {
  std::size_t i = start;
  while (i > 0 && (text[i - 1] == ' ' || text[i - 1] == '\t')) --i;
  if (i == 0 || text[i - 1] != '\n') return {};
  --i;
  if (i > 0 && text[i - 1] == '\r') --i;
  return text.substr(i, start - i);
}

std::string escaped(std::string_view utf8, Letters letters) {
  std::string out;
  for (std::size_t i = 0; i < utf8.size();) {
    const Letter letter = letter_at(utf8, i);
    if (letter.code == '&') {
      out += "&amp;";
    } else if (letter.code == '<') {
      out += "&lt;";
    } else if (letter.code == '>') {
      out += "&gt;";
    } else if (letter.code >= 0x80U && letters == Letters::ascii_only) {
      out += "&#" + std::to_string(letter.code) + ";";
    } else if (letter.code >= 0x20U) {
      out += utf8.substr(i, letter.bytes);
    }
    i += letter.bytes;
  }
  return out;
}

std::string declared_encoding(std::string_view text) {
  std::string_view head = text.substr(0, 200);
  head = head.substr(0, head.find("?>"));
  const std::size_t word = head.find("encoding");
  if (word == std::string_view::npos) return {};
  const std::size_t open = head.find_first_of("\"'", word);
  if (open == std::string_view::npos) return {};
  const std::string_view value = head.substr(open + 1, head.find(head[open], open + 1) - open - 1);
  std::string name;
  for (const char c : value) name += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  return name;
}

}  // namespace fingerway
