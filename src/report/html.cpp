#include "html.hpp"

#include "words.hpp"

namespace fingerway {

std::string escaped(std::string_view text) {
  std::string result;
  for (char c : text) {
    switch (c) {
      case '&':
        result += "&amp;";
        break;
      case '<':
        result += "&lt;";
        break;
      case '>':
        result += "&gt;";
        break;
      case '"':
        result += "&quot;";
        break;
      case '\'':
        result += "&#39;";
        break;
      default:
        if (static_cast<unsigned char>(c) >= 0x20 || c == '\n' || c == '\t') result += c;
    }
  }
  return result;
}

std::string coordinate(double value) {
  std::string text = rounded(value, 2);
  while (text.ends_with('0')) text.pop_back();
  if (text.ends_with('.')) text.pop_back();
  return text;
}

std::string element(std::string_view tag, std::string_view css_class, std::string_view text) {
  std::string result = "<" + std::string(tag);
  if (!css_class.empty()) result += " class=\"" + std::string(css_class) + "\"";
  result += ">" + escaped(text) + "</";
  return result.append(tag) + ">";
}

}  // namespace fingerway
