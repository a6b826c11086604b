#include "fingerway/report/marks.hpp"

#include <algorithm>
#include <cstddef>
#include <pugixml.hpp>
#include <utility>

#include "fingerway/base/errors.hpp"
#include "markup.hpp"
#include "score_text.hpp"

namespace fingerway {

namespace {

[[noreturn]] void refuse_as_another_score(std::string what) {
  throw InputError(Fault{{}, std::move(what), "the text is not the score these marks were made for"});
}

std::string without(std::string_view text, const ScoreText& score, const std::vector<pugi::xml_node>& notes) {
  std::string out;
  std::size_t copied = 0;
  for (const pugi::xml_node& note : notes) {
    for (const Cut& cut : score.marks_of(note)) {
      // Signs that another program moved about may claim the same bytes twice.
      if (cut.start < copied) continue;
      out += text.substr(copied, cut.start - copied);
      copied = cut.end;
    }
  }
  out += text.substr(copied);
  return out;
}

/// Texts in the order given, each once: " / " between them, as between the fingerings of two passes.
std::string in_one(const std::vector<std::string>& texts) {
  std::vector<std::string> seen;
  std::string out;
  for (const std::string& text : texts) {
    if (text.empty() || std::ranges::find(seen, text) != seen.end()) continue;
    if (!out.empty()) out += " / ";
    out += text;
    seen.push_back(text);
  }
  return out;
}

/// What is written at one note. Of several fingerings on a note not every program keeps all: so it is one.
/// The full fingering stands in <other-technical>, which no engraver draws: <hole> would need a name for every key, and
/// no list of such names is agreed on.
std::vector<std::string> elements_for(const std::vector<ScoreMark>& marks, Letters letters) {
  std::vector<std::string> texts;
  std::vector<std::string> full;
  for (const ScoreMark& mark : marks) {
    texts.push_back(mark.text);
    full.push_back(mark.full);
  }
  std::vector<std::string> elements;
  const std::string text = in_one(texts);
  if (text.empty()) return elements;
  elements.push_back("<fingering>" + escaped(engraved_text(text), letters) + "</fingering>");
  const std::string all = in_one(full);
  if (!all.empty()) elements.push_back("<other-technical>" + escaped(all, letters) + "</other-technical>");
  return elements;
}

/// Letters beyond ASCII can be written as such where the file's encoding has all of them. The text may be the file's
/// bytes as they are, so its declaration counts.
Letters letters_for(std::string_view text) {
  const std::string encoding = declared_encoding(text);
  return encoding.empty() || encoding.starts_with("utf") ? Letters::utf8 : Letters::ascii_only;
}

std::string marked(std::string_view text, const ScoreText& score, const std::string& part_id,
                   std::vector<ScoreMark> marks) {
  const Letters letters = letters_for(text);
  const std::vector<pugi::xml_node> notes = score.notes(part_id);
  std::ranges::stable_sort(marks, {}, &ScoreMark::element);
  std::string out;
  std::size_t copied = 0;
  for (auto mark = marks.begin(); mark != marks.end();) {
    const std::uint32_t element = mark->element;
    if (element >= notes.size()) {
      refuse_as_another_score("part '" + part_id + "' has " + std::to_string(notes.size()) +
                              " note elements, and a mark is for number " + std::to_string(element));
    }
    if (!notes[element].child("pitch")) {
      refuse_as_another_score("note element " + std::to_string(element) + " of part '" + part_id + "' has no pitch");
    }
    const auto next = std::find_if(mark, marks.end(), [&](const ScoreMark& m) { return m.element != element; });
    const std::vector<std::string> elements = elements_for({mark, next}, letters);
    mark = next;
    if (elements.empty()) continue;
    const Insertion put = score.insertion(notes[element], elements);
    out += text.substr(copied, put.at - copied);
    out += put.text;
    copied = put.at;
  }
  out += text.substr(copied);
  return out;
}

}  // namespace

std::string with_marks(std::string_view score_text, const std::string& part_id, const std::vector<ScoreMark>& marks) {
  std::string clean;
  {
    const ScoreText score(score_text);
    clean = without(score_text, score, score.notes(part_id));
    if (clean.size() == score_text.size()) return marked(score_text, score, part_id, marks);
  }
  return marked(clean, ScoreText(clean), part_id, marks);
}

std::string without_marks(std::string_view score_text) {
  const ScoreText score(score_text);
  return without(score_text, score, score.notes());
}

}  // namespace fingerway
