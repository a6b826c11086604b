#include "text_parts.hpp"

#include <algorithm>

#include "player_words.hpp"
#include "text_layout.hpp"
#include "words.hpp"

namespace fingerway {

std::string labelled_lines(const std::vector<Labelled>& lines) {
  std::size_t widest = 0;
  for (const Labelled& line : lines) widest = std::max(widest, width(line.label));
  std::string text;
  for (const Labelled& line : lines) {
    text += paragraph(line.label + std::string(widest - width(line.label) + 3, ' '), line.text);
  }
  return text;
}

std::string bullets(const std::string& title, const std::vector<std::string>& items) {
  if (items.empty()) return {};
  std::string text = "\n" + heading(title);
  for (const std::string& item : items) text += paragraph("- ", item);
  return text;
}

std::string foot() { return bullets("Take care", cautions()); }

std::string compact_key() {
  return paragraph("",
                   "Fingerings: left hand | right hand; T thumb, 1 index finger to 4 little finger; after the dot the "
                   "touch, where a finger has several; ½ half hole.");
}

std::vector<Labelled> instrument_lines(const Played& played) {
  std::vector<Labelled> lines = {
      {"Instrument", instrument_words(played.instrument) + " (" + stacked_id(played.instrument) + ")"},
      {"Player", player_line(played)}};
  for (const std::string& term : player_terms(played)) lines.push_back({"", term});
  return lines;
}

std::string where_words(const NoteView& note) { return "bar " + note.bar + ", beat " + note.beat + ", " + note.note; }

}  // namespace fingerway
