#include "page_parts.hpp"

#include "html.hpp"
#include "page_style.hpp"

namespace fingerway {

std::string page_section(const std::string& title, const std::string& content) {
  return content.empty() ? std::string() : "<section>\n" + element("h2", "", title) + "\n" + content + "</section>\n";
}

std::string page_list(const std::vector<std::string>& items) {
  if (items.empty()) return {};
  std::string text = "<ul>\n";
  for (const std::string& item : items) text += element("li", "", item) + "\n";
  return text + "</ul>\n";
}

std::string page_definitions(const std::vector<Labelled>& lines) {
  std::string text = "<dl>\n";
  for (const Labelled& line : lines) text += element("dt", "", line.label) + element("dd", "", line.text) + "\n";
  return text + "</dl>\n";
}

std::string page_document(const std::string& title, const std::string& content) {
  return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
         "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
         "base-uri 'none'; form-action 'none'\">\n"
         "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
         "<meta name=\"referrer\" content=\"no-referrer\">\n" +
         element("title", "", title) + "\n<style>" + page_style() + "</style>\n</head>\n<body>\n<main>\n" + content +
         "</main>\n</body>\n</html>\n";
}

std::string page_cautions() {
  return "<aside class=\"cautions\">\n" + element("h2", "", "Take care") + page_list(cautions()) + "</aside>\n";
}

}  // namespace fingerway
