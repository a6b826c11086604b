#include "fingerway/report/marks.hpp"

#include <algorithm>
#include <cstddef>
#include <pugixml.hpp>
#include <utility>

#include "fingerway/base/errors.hpp"
#include "markup.hpp"

namespace fingerway {

namespace {

[[noreturn]] void refuse(std::string what, std::string hint) {
  throw InputError(Fault{{}, std::move(what), std::move(hint)});
}

[[noreturn]] void refuse_as_another_score(std::string what) {
  refuse(std::move(what), "the text is not the score these marks were made for");
}

/// Text to be put in at a byte of the original.
struct Insertion {
  std::size_t at = 0;
  std::string text;
};

/// Writes marks into one score text.
class Marker {
 public:
  explicit Marker(std::string_view text);

  [[nodiscard]] std::string marked(const std::string& part_id, std::vector<ScoreMark> marks);

 private:
  [[nodiscard]] pugi::xml_node part(const std::string& id) const;
  [[nodiscard]] Insertion insertion(const pugi::xml_node& note, const std::string& fingering) const;
  [[nodiscard]] Insertion after_last(const pugi::xml_node& parent, const pugi::xml_node& last,
                                     const std::vector<std::string>& wrapped_in, const std::string& fingering) const;
  [[nodiscard]] ElementSpan span(const pugi::xml_node& element) const {
    return element_span(text_, static_cast<std::size_t>(element.offset_debug()));
  }

  std::string_view text_;
  pugi::xml_document document_;
  Letters letters_ = Letters::utf8;
};

Marker::Marker(std::string_view text) : text_(text) {
  if (text.substr(0, 2).find('\0') != std::string_view::npos || text.starts_with("\xFF\xFE") ||
      text.starts_with("\xFE\xFF")) {
    refuse("marks are not written into texts of two bytes a character", "save the score in UTF-8");
  }
  const std::string encoding = declared_encoding(text);
  if (!encoding.empty() && encoding != "utf-8") letters_ = Letters::ascii_only;
  // Read byte for byte whatever the encoding: every name that matters here is ASCII, and offsets must count the bytes
  // of the text as it is.
  const pugi::xml_parse_result result =
      document_.load_buffer(text.data(), text.size(), pugi::parse_default, pugi::encoding_utf8);
  if (!result) refuse_as_another_score(std::string("not well-formed XML: ") + result.description());
}

pugi::xml_node Marker::part(const std::string& id) const {
  const pugi::xml_node score = document_.child("score-partwise");
  if (!score) refuse_as_another_score("no <score-partwise> element");
  const pugi::xml_node found = score.find_child_by_attribute("part", "id", id.c_str());
  if (!found) refuse_as_another_score("no part '" + id + "'");
  return found;
}

std::string joined(const std::vector<std::string>& tags, std::string_view lead, std::string_view step,
                   const std::string& inmost) {
  // `lead` is a line break and the white space before the outermost tag; on one line both are empty.
  std::string out;
  std::string indent(lead);
  for (const std::string& tag : tags) {
    out += indent + "<" + tag + ">";
    indent += step;
  }
  out += indent + inmost;
  for (std::size_t i = tags.size(); i > 0; --i) {
    indent.resize(indent.size() - step.size());
    out += indent + "</" + tags[i - 1] + ">";
  }
  return out;
}

Insertion Marker::after_last(const pugi::xml_node& parent, const pugi::xml_node& last,
                             const std::vector<std::string>& wrapped_in, const std::string& fingering) const {
  const ElementSpan parent_span = span(parent);
  if (!last) return {parent_span.inside, joined(wrapped_in, {}, {}, fingering)};
  const ElementSpan last_span = span(last);
  const std::string_view lead = line_lead(text_, last_span.start);
  const std::string_view parent_lead = line_lead(text_, parent_span.start);
  const bool deeper = !parent_lead.empty() && lead.size() > parent_lead.size() && lead.starts_with(parent_lead);
  const std::string_view step = deeper ? lead.substr(parent_lead.size()) : std::string_view();
  return {last_span.end, joined(wrapped_in, lead, step, fingering)};
}

pugi::xml_node last_element(const pugi::xml_node& parent) {
  pugi::xml_node last = parent.last_child();
  while (last && last.type() != pugi::node_element) last = last.previous_sibling();
  return last;
}

/// The last child that stands before where <notations> may stand. Order: MusicXML 4.0, complex type note.
pugi::xml_node last_before_notations(const pugi::xml_node& note) {
  pugi::xml_node last;
  for (const pugi::xml_node child : note.children()) {
    const std::string_view name = child.name();
    if (name == "lyric" || name == "play" || name == "listen") break;
    if (child.type() == pugi::node_element) last = child;
  }
  return last;
}

Insertion Marker::insertion(const pugi::xml_node& note, const std::string& fingering) const {
  for (const pugi::xml_node notations : note.children("notations")) {
    const bool hidden = std::string_view(notations.attribute("print-object").value()) == "no";
    if (hidden || span(notations).self_closing) continue;
    for (const pugi::xml_node technical : notations.children("technical")) {
      if (!span(technical).self_closing) return after_last(technical, last_element(technical), {}, fingering);
    }
    return after_last(notations, last_element(notations), {"technical"}, fingering);
  }
  return after_last(note, last_before_notations(note), {"notations", "technical"}, fingering);
}

std::string Marker::marked(const std::string& part_id, std::vector<ScoreMark> marks) {
  std::ranges::stable_sort(marks, {}, &ScoreMark::element);
  std::string out;
  std::size_t copied = 0;
  std::uint32_t element = 0;
  auto mark = marks.begin();
  for (const pugi::xml_node measure : part(part_id).children("measure")) {
    for (const pugi::xml_node note : measure.children("note")) {
      std::string fingerings;
      for (; mark != marks.end() && mark->element == element; ++mark) {
        fingerings += "<fingering>" + escaped(mark->text, letters_) + "</fingering>";
      }
      ++element;
      if (fingerings.empty()) continue;
      if (!note.child("pitch")) {
        refuse_as_another_score("note element " + std::to_string(element - 1) + " of part '" + part_id +
                                "' has no pitch");
      }
      const Insertion put = insertion(note, fingerings);
      out += text_.substr(copied, put.at - copied);
      out += put.text;
      copied = put.at;
    }
  }
  if (mark != marks.end()) {
    refuse_as_another_score("part '" + part_id + "' has " + std::to_string(element) +
                            " note elements, and a mark is for number " + std::to_string(mark->element));
  }
  out += text_.substr(copied);
  return out;
}

}  // namespace

std::string with_marks(std::string_view score_text, const std::string& part_id, const std::vector<ScoreMark>& marks) {
  return Marker(score_text).marked(part_id, marks);
}

}  // namespace fingerway
