#include "score_text.hpp"

#include <algorithm>
#include <pugixml.hpp>
#include <utility>

#include "fingerway/base/errors.hpp"

namespace fingerway {

namespace {

// What is ours is announced by a processing instruction just before it: "the element that follows was added". Every
// reader and engraver passes over it, any element may hold it and stay valid, and it cannot be taken for somebody
// else's as an attribute or a comment could. Attributes would have to be ones the standard knows, and those are drawn.
constexpr std::string_view sign_name = "fingerway";
constexpr std::string_view sign_value = "mark";
constexpr const char* sign = "<?fingerway mark?>";

[[noreturn]] void refuse_as_another_score(std::string what) {
  throw InputError(Fault{{}, std::move(what), "the text is not the score these marks were made for"});
}

std::string_view name_of(const pugi::xml_node& node) { return node.name(); }

bool is_sign(const pugi::xml_node& node) {
  return node.type() == pugi::node_pi && name_of(node) == sign_name && std::string_view(node.value()) == sign_value;
}

std::string joined(const std::vector<std::string>& tags, std::string_view lead, std::string_view step,
                   const std::vector<std::string>& elements) {
  // `lead` is a line break and the white space before the outermost tag; on one line both are empty.
  std::string out;
  std::string indent(lead);
  for (const std::string& tag : tags) {
    out += indent + (out.empty() ? sign : "") + "<" + tag + ">";
    indent += step;
  }
  // Elements in a wrapper of ours need no sign of their own.
  for (const std::string& element : elements) out += indent + (tags.empty() ? sign : "") + element;
  for (std::size_t i = tags.size(); i > 0; --i) {
    indent.resize(indent.size() - step.size());
    out += indent + "</" + tags[i - 1] + ">";
  }
  return out;
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
    if (name_of(child) == "lyric" || name_of(child) == "play" || name_of(child) == "listen") break;
    if (child.type() == pugi::node_element) last = child;
  }
  return last;
}

bool may_be_ours(const pugi::xml_node& node) {
  return name_of(node) == "fingering" || name_of(node) == "other-technical" || name_of(node) == "technical" ||
         name_of(node) == "notations";
}

/// True when an element holds a mark as we write it and nothing besides.
bool only_a_mark(const pugi::xml_node& node) {
  if (name_of(node) == "fingering" || name_of(node) == "other-technical") return true;
  std::size_t fingerings = 0;
  std::size_t full = 0;
  std::size_t inner = 0;
  for (const pugi::xml_node child : node.children()) {
    if (name_of(node) == "notations" && name_of(child) == "technical" && only_a_mark(child)) {
      ++inner;
    } else if (name_of(node) == "technical" && name_of(child) == "fingering") {
      ++fingerings;
    } else if (name_of(node) == "technical" && name_of(child) == "other-technical") {
      ++full;
    } else {
      return false;
    }
  }
  return name_of(node) == "notations" ? inner == 1 : fingerings == 1 && full <= 1;
}

}  // namespace

/// What holds notes: a measure of a part, or a part of a measure in a timewise score.
struct ScoreText::Bar {
  pugi::xml_node part;
  pugi::xml_node node;
};

ScoreText::ScoreText(std::string_view text) : text_(text), document_(std::make_unique<pugi::xml_document>()) {
  const pugi::xml_parse_result result =
      document_->load_buffer(text.data(), text.size(), pugi::parse_default | pugi::parse_pi, pugi::encoding_utf8);
  if (!result) refuse_as_another_score(std::string("not well-formed XML: ") + result.description());
  const std::string_view root = document_->document_element().name();
  if (root != "score-partwise" && root != "score-timewise") {
    refuse_as_another_score("no <score-partwise> or <score-timewise> element");
  }
}

ScoreText::~ScoreText() = default;

std::vector<ScoreText::Bar> ScoreText::bars() const {
  const pugi::xml_node score = document_->document_element();
  const bool partwise = name_of(score) == "score-partwise";
  std::vector<Bar> bars;
  for (const pugi::xml_node outer : score.children(partwise ? "part" : "measure")) {
    for (const pugi::xml_node inner : outer.children(partwise ? "measure" : "part")) {
      bars.push_back({partwise ? outer : inner, inner});
    }
  }
  return bars;
}

std::vector<pugi::xml_node> ScoreText::notes(const std::string& part_id) const {
  std::vector<pugi::xml_node> notes;
  pugi::xml_node part;
  pugi::xml_node measure;
  for (const Bar& bar : bars()) {
    if (part_id != bar.part.attribute("id").value()) continue;
    // Of several with one id the first counts: in the score, or in a measure of a timewise one.
    const bool timewise = bar.part == bar.node;
    if (timewise ? measure == bar.node.parent() : part && part != bar.part) continue;
    part = bar.part;
    measure = bar.node.parent();
    for (const pugi::xml_node note : bar.node.children("note")) notes.push_back(note);
  }
  if (!part) refuse_as_another_score("no part '" + part_id + "'");
  return notes;
}

std::vector<pugi::xml_node> ScoreText::notes() const {
  std::vector<pugi::xml_node> notes;
  for (const Bar& bar : bars()) {
    for (const pugi::xml_node note : bar.node.children("note")) notes.push_back(note);
  }
  return notes;
}

ElementSpan ScoreText::span(const pugi::xml_node& element) const {
  return element_span(text_, static_cast<std::size_t>(element.offset_debug()));
}

Insertion ScoreText::after_last(const pugi::xml_node& parent, const pugi::xml_node& last,
                                const std::vector<std::string>& wrapped_in,
                                const std::vector<std::string>& elements) const {
  const ElementSpan parent_span = span(parent);
  if (!last) return {parent_span.inside, joined(wrapped_in, {}, {}, elements)};
  const ElementSpan last_span = span(last);
  const std::string_view lead = line_lead(text_, last_span.start);
  const std::string_view parent_lead = line_lead(text_, parent_span.start);
  const bool deeper = !parent_lead.empty() && lead.size() > parent_lead.size() && lead.starts_with(parent_lead);
  const std::string_view step = deeper ? lead.substr(parent_lead.size()) : std::string_view();
  return {last_span.end, joined(wrapped_in, lead, step, elements)};
}

Insertion ScoreText::insertion(const pugi::xml_node& note, const std::vector<std::string>& elements) const {
  for (const pugi::xml_node notations : note.children("notations")) {
    const bool hidden = std::string_view(notations.attribute("print-object").value()) == "no";
    if (hidden || span(notations).self_closing) continue;
    for (const pugi::xml_node technical : notations.children("technical")) {
      if (!span(technical).self_closing) return after_last(technical, last_element(technical), {}, elements);
    }
    return after_last(notations, last_element(notations), {"technical"}, elements);
  }
  return after_last(note, last_before_notations(note), {"notations", "technical"}, elements);
}

Cut ScoreText::whole(const pugi::xml_node& element) const {
  const ElementSpan found = span(element);
  return {found.start - line_lead(text_, found.start).size(), found.end};
}

void ScoreText::add_cuts(const pugi::xml_node& announced_by, std::vector<Cut>& cuts) const {
  // Its name follows "<?". The white space before it came with it: marks are put in right after a tag.
  const std::size_t start = static_cast<std::size_t>(announced_by.offset_debug()) - 2;
  Cut cut{start - line_lead(text_, start).size(), text_.find("?>", start) + 2};
  const pugi::xml_node added = announced_by.next_sibling();
  if (may_be_ours(added) && only_a_mark(added)) {
    cut.end = span(added).end;
    cuts.push_back(cut);
    return;
  }
  cuts.push_back(cut);
  // Something else has been written into what we had added; our mark was the first there.
  const pugi::xml_node technical = name_of(added) == "notations" ? added.child("technical") : added;
  if (name_of(technical) != "technical") return;
  const pugi::xml_node fingering = technical.child("fingering");
  if (!fingering) return;
  cuts.push_back(whole(fingering));
  const pugi::xml_node full = fingering.next_sibling();
  if (name_of(full) == "other-technical") cuts.push_back(whole(full));
}

std::vector<Cut> ScoreText::marks_of(const pugi::xml_node& note) const {
  std::vector<Cut> cuts;
  for (const pugi::xml_node child : note.children()) {
    if (is_sign(child)) add_cuts(child, cuts);
    if (name_of(child) != "notations") continue;
    for (const pugi::xml_node inner : child.children()) {
      if (is_sign(inner)) add_cuts(inner, cuts);
      if (name_of(inner) != "technical") continue;
      for (const pugi::xml_node inmost : inner.children()) {
        if (is_sign(inmost)) add_cuts(inmost, cuts);
      }
    }
  }
  return cuts;
}

}  // namespace fingerway
