#include "fingerway/report/engraving.hpp"

#include <algorithm>
#include <pugixml.hpp>
#include <sstream>

#include "fingerway/base/errors.hpp"

namespace fingerway {
namespace {

/// Line breaks and blanks do not matter to engravers; ids of other programs would clash with ours.
constexpr unsigned parse_options = pugi::parse_default | pugi::parse_fragment;

pugi::xml_document parsed(std::string_view text) {
  pugi::xml_document document;
  if (!document.load_buffer(text.data(), text.size(), parse_options, pugi::encoding_utf8)) {
    throw InputError(Fault{{}, "the score's text cannot be parsed", ""});
  }
  return document;
}

std::string trimmed_text(const char* text) {
  std::string result(text);
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; };
  while (!result.empty() && blank(result.back())) result.pop_back();
  result.erase(result.begin(), std::ranges::find_if_not(result, blank));
  return result;
}

/// Bar by bar, all parts in each: turned so that the one part has all its bars.
void turn_to_partwise(pugi::xml_node root, const std::string& part_id) {
  root.set_name("score-partwise");
  pugi::xml_node part = root.append_child("part");
  part.append_attribute("id") = part_id.c_str();
  for (pugi::xml_node measure = root.child("measure"); measure;) {
    const pugi::xml_node next = measure.next_sibling("measure");
    pugi::xml_node turned = part.append_child("measure");
    for (const pugi::xml_attribute& attribute : measure.attributes()) turned.append_copy(attribute);
    const pugi::xml_node content = measure.find_child_by_attribute("part", "id", part_id.c_str());
    for (const pugi::xml_node& child : content.children()) turned.append_copy(child);
    root.remove_child(measure);
    measure = next;
  }
}

template <class Keep>
void keep_children(pugi::xml_node parent, const char* name, const Keep& keep) {
  for (pugi::xml_node child = parent.child(name); child;) {
    const pugi::xml_node next = child.next_sibling(name);
    if (!keep(child)) parent.remove_child(child);
    child = next;
  }
}

void leave_only(pugi::xml_node root, const std::string& part_id) {
  const auto is_it = [&](const pugi::xml_node& node) { return node.attribute("id").value() == part_id; };
  keep_children(root, "part", is_it);
  pugi::xml_node list = root.child("part-list");
  keep_children(list, "score-part", is_it);
  keep_children(list, "part-group", [](const pugi::xml_node&) { return false; });
  // Images and links of the page around the music lead elsewhere.
  keep_children(root, "credit", [](const pugi::xml_node&) { return false; });
}

std::string id_of(std::size_t element) { return "n" + std::to_string(element); }

/// Gives every note its number as id, and takes all other ids off.
std::size_t number_notes(pugi::xml_node part) {
  std::size_t count = 0;
  struct Walker : pugi::xml_tree_walker {
    explicit Walker(std::size_t& n) : count(n) {}
    bool for_each(pugi::xml_node& node) override {
      node.remove_attribute("id");
      if (std::string_view(node.name()) == "note") node.append_attribute("id") = id_of(count++).c_str();
      return true;
    }
    std::size_t& count;
  } walker(count);
  part.traverse(walker);
  return count;
}

}  // namespace

Engraving engraved(std::string_view score_text, const Passage& passage) {
  pugi::xml_document document = parsed(score_text);
  pugi::xml_node root = document.document_element();
  if (std::string_view(root.name()) == "score-timewise") turn_to_partwise(root, passage.part_id);
  leave_only(root, passage.part_id);
  const std::size_t notes = number_notes(root.child("part"));
  Engraving result;
  for (const NoteEvent& note : passage.notes) {
    if (note.place.element >= notes) {
      throw InputError(Fault{{}, "the text is not the score this passage was read from", ""});
    }
    result.elements.push_back(id_of(note.place.element));
  }
  pugi::xml_document alone;
  alone.append_copy(root);
  std::ostringstream out;
  alone.save(out, "", pugi::format_raw, pugi::encoding_utf8);
  result.musicxml = out.str();
  return result;
}

ScoreOutline score_outline(std::string_view score_text) {
  const pugi::xml_document document = parsed(score_text);
  const pugi::xml_node root = document.document_element();
  ScoreOutline outline;
  outline.title = trimmed_text(root.child("work").child_value("work-title"));
  const std::string movement = trimmed_text(root.child_value("movement-title"));
  if (outline.title.empty()) {
    outline.title = movement;
  } else if (!movement.empty() && movement != outline.title) {
    outline.title += ": " + movement;
  }
  const bool timewise = std::string_view(root.name()) == "score-timewise";
  for (const pugi::xml_node& measure : (timewise ? root : root.child("part")).children("measure")) {
    const pugi::xml_attribute text = measure.attribute("text");
    std::string name = trimmed_text((text ? text : measure.attribute("number")).value());
    if (name.empty()) name = std::to_string(outline.bars.size() + 1);
    if (outline.bars.empty() || outline.bars.back() != name) outline.bars.push_back(name);
  }
  return outline;
}

}  // namespace fingerway
