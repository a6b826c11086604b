#include <algorithm>
#include <array>
#include <string>
#include <string_view>

#include "fingerway/report/marks.hpp"

namespace fingerway {

namespace {

struct Twin {
  char plain;
  std::string_view engraved;
};

// Debian's converter for engraving copies a fingering's text into its own language as it is. There "R4" is a rest and
// "+" an operator, and the whole score is refused; words of letters, and of anything beyond ASCII, are drawn as words.
// The twins are in the fonts that the engravers we tried come with, or in the ones they fall back on.
constexpr std::array<Twin, 20> twins = {{
    {'0', "\u2080"}, {'1', "\u2081"}, {'2', "\u2082"}, {'3', "\u2083"}, {'4', "\u2084"},
    {'5', "\u2085"}, {'6', "\u2086"}, {'7', "\u2087"}, {'8', "\u2088"}, {'9', "\u2089"},
    {' ', "\u00A0"}, {'+', "\u207A"}, {'-', "\u2212"}, {'/', "\u2215"}, {'~', "\u223C"},
    {',', "\u201A"}, {'&', "\uFF06"}, {'.', "\u2024"}, {'#', "\u266F"}, {'|', "\u2223"},
}};

constexpr std::string_view flat = "\u266D";

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (static_cast<unsigned char>(c) & 0x80U) != 0;
}

/// The "b" of a note name: after one capital letter A to G, at the end of a word.
bool is_flat(std::string_view text, std::size_t i) {
  if (text[i] != 'b' || i == 0 || text[i - 1] < 'A' || text[i - 1] > 'G') return false;
  const bool starts = i == 1 || !is_letter(text[i - 2]);
  const bool ends = i + 1 == text.size() || !is_letter(text[i + 1]);
  return starts && ends;
}

}  // namespace

std::string engraved_text(std::string_view mark) {
  if (std::ranges::all_of(mark, is_digit)) return std::string(mark);
  std::string out;
  for (std::size_t i = 0; i < mark.size(); ++i) {
    const char c = mark[i];
    const auto* const twin = std::ranges::find(twins, c, &Twin::plain);
    if (is_flat(mark, i)) {
      out += flat;
    } else if (twin == twins.end()) {
      out += c;
    } else {
      out += twin->engraved;
    }
  }
  return out;
}

std::string plain_text(std::string_view engraved) {
  std::string out;
  while (!engraved.empty()) {
    if (engraved.starts_with(flat)) {
      out += 'b';
      engraved.remove_prefix(flat.size());
      continue;
    }
    const auto* const twin =
        std::ranges::find_if(twins, [&](const Twin& each) { return engraved.starts_with(each.engraved); });
    out += twin == twins.end() ? engraved.front() : twin->plain;
    engraved.remove_prefix(twin == twins.end() ? 1 : twin->engraved.size());
  }
  return out;
}

}  // namespace fingerway
