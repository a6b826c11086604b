#include "musicxml_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <pugixml.hpp>

#include "fingerway/base/text.hpp"

namespace fingerway {

namespace {

constexpr std::string_view white_space = " \t\r\n";

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool all_digits(std::string_view text) { return std::ranges::all_of(text, is_digit); }

/// Cuts valid UTF-8 to at most so many bytes, between characters.
void cut_to(std::string& text, std::size_t longest) {
  while (longest > 0 && (static_cast<unsigned char>(text[longest]) & 0xC0U) == 0x80U) --longest;
  text.resize(longest);
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(white_space);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(white_space) - first + 1);
}

std::string_view text_of(const pugi::xml_node& node) { return trimmed(node.child_value()); }

bool is_hidden(const pugi::xml_node& node) { return std::string_view(node.attribute("print-object").value()) == "no"; }

std::string clean_text(std::string_view text) {
  constexpr std::size_t longest = 200;
  std::string clean = one_line(trimmed(text).substr(0, 2 * longest));
  if (clean.size() > longest) cut_to(clean, longest);
  return clean;
}

std::string short_quote(std::string_view text) {
  constexpr std::size_t longest = 40;
  std::string clean = clean_text(text);
  if (clean.size() > longest) {
    cut_to(clean, longest);
    clean += "...";
  }
  return "'" + clean + "'";
}

std::optional<int> parse_whole(std::string_view text, int least, int most) {
  text = trimmed(text);
  if (text.size() > 1 && text.front() == '+' && is_digit(text[1])) text.remove_prefix(1);
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || value < least || value > most) return std::nullopt;
  return value;
}

std::optional<ScoreTime> parse_decimal(std::string_view text) {
  constexpr std::size_t most_digits = 9;
  text = trimmed(text);
  bool negative = false;
  if (!text.empty() && (text.front() == '+' || text.front() == '-')) {
    negative = text.front() == '-';
    text.remove_prefix(1);
  }
  const std::size_t point = text.find('.');
  const std::string_view whole = text.substr(0, point);
  std::string_view part = point == std::string_view::npos ? std::string_view() : text.substr(point + 1);
  if ((whole.empty() && part.empty()) || !all_digits(whole) || !all_digits(part)) return std::nullopt;
  while (!part.empty() && part.back() == '0') part.remove_suffix(1);
  if (whole.size() > most_digits || part.size() > most_digits) return std::nullopt;
  std::int64_t digits = 0;
  for (const char c : whole) digits = digits * 10 + (c - '0');
  std::int64_t scale = 1;
  for (const char c : part) {
    digits = digits * 10 + (c - '0');
    scale *= 10;
  }
  return ScoreTime(negative ? -digits : digits, scale);
}

std::optional<double> parse_inexact(std::string_view text) {
  text = trimmed(text);
  if (text.empty() || text.find_first_not_of("+-.0123456789") != std::string_view::npos) return std::nullopt;
  if (text.front() == '+') text.remove_prefix(1);
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::optional<std::size_t> first_bad_byte(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const auto c = static_cast<unsigned char>(text[i]);
    const bool blank = c == '\t' || c == '\n' || c == '\r';
    const std::size_t length = utf8_length(text, i);
    if (length == 0 || (c < 0x20U && !blank)) return i;
    i += length;
  }
  return std::nullopt;
}

}  // namespace fingerway
