#include "musicxml_names.hpp"

#include <algorithm>
#include <array>

namespace fingerway {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
// Bytes beyond ASCII belong to letters of UTF-8.
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80U; }

/// Small letters: ASCII, and the accented ones of Latin-1, whose second UTF-8 byte differs by 0x20.
std::string in_small_letters(std::string_view text) {
  std::string small;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool after_lead = !small.empty() && static_cast<unsigned char>(small.back()) == 0xC3U;
    if (c >= 'A' && c <= 'Z') {
      small += static_cast<char>(c - 'A' + 'a');
    } else if (after_lead && byte >= 0x80U && byte <= 0x9EU && byte != 0x97U) {
      small += static_cast<char>(byte + 0x20U);
    } else {
      small += c;
    }
  }
  return small;
}

/// Words that tell players of one instrument apart, or say its key.
bool tells_no_instrument(const std::string& word) {
  constexpr std::array<std::string_view, 30> words = {
      "i",  "ii",   "iii",   "iv", "v",  "vi", "st", "nd",  "rd",  "th", "in", "en", "solo", "no", "and",
      "bb", "flat", "sharp", "eb", "ab", "es", "as", "sib", "mib", "la", "fa", "ut", "♭",    "b♭", "e♭"};
  if (is_digit(word.front()) || word.size() == 1) return true;
  return std::ranges::find(words, word) != words.end();
}

bool holds(const std::vector<std::string>& words, const std::vector<std::string>& part) {
  return !part.empty() && std::search(words.begin(), words.end(), part.begin(), part.end()) != words.end();
}

}  // namespace

std::vector<std::string> words_of(std::string_view name) {
  std::vector<std::string> words;
  char before = ' ';
  for (const char c : in_small_letters(name)) {
    const bool word = is_letter(c) || is_digit(c);
    const bool goes_on = (is_letter(before) && is_letter(c)) || (is_digit(before) && is_digit(c));
    if (word && !goes_on) words.emplace_back();
    if (word) words.back() += c;
    before = c;
  }
  return words;
}

NameFit name_fit(std::string_view part_name, std::string_view wanted) {
  std::vector<std::string> words = words_of(part_name);
  const std::vector<std::string> sought = words_of(wanted);
  if (!holds(words, sought)) return NameFit::none;
  std::erase_if(words, tells_no_instrument);
  return words == sought ? NameFit::whole : NameFit::within;
}

}  // namespace fingerway
