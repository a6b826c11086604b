#include <algorithm>
#include <array>
#include <pugixml.hpp>
#include <sstream>
#include <string>
#include <string_view>

#include "fingerway/report/engraving.hpp"

namespace fingerway {
namespace {

// Only what draws: a list of what is allowed, so that nothing new in a browser can slip through.
constexpr std::array<std::string_view, 20> elements = {
    "svg",  "g",       "defs",     "symbol", "use",   "path", "rect", "circle",  "ellipse",        "line",
    "text", "polygon", "polyline", "tspan",  "title", "desc", "mask", "pattern", "linearGradient", "stop"};
constexpr std::array<std::string_view, 50> attributes = {"id",
                                                         "class",
                                                         "viewBox",
                                                         "width",
                                                         "height",
                                                         "x",
                                                         "y",
                                                         "x1",
                                                         "y1",
                                                         "x2",
                                                         "y2",
                                                         "cx",
                                                         "cy",
                                                         "r",
                                                         "rx",
                                                         "ry",
                                                         "d",
                                                         "points",
                                                         "transform",
                                                         "fill",
                                                         "fill-opacity",
                                                         "fill-rule",
                                                         "stroke",
                                                         "stroke-width",
                                                         "stroke-linecap",
                                                         "stroke-linejoin",
                                                         "stroke-dasharray",
                                                         "stroke-opacity",
                                                         "opacity",
                                                         "font-family",
                                                         "font-size",
                                                         "font-style",
                                                         "font-weight",
                                                         "text-anchor",
                                                         "letter-spacing",
                                                         "dx",
                                                         "dy",
                                                         "textLength",
                                                         "lengthAdjust",
                                                         "preserveAspectRatio",
                                                         "overflow",
                                                         "visibility",
                                                         "color",
                                                         "aria-label",
                                                         "role",
                                                         "version",
                                                         "offset",
                                                         "patternUnits",
                                                         "data-note",
                                                         "dominant-baseline"};

bool allowed(const auto& list, std::string_view name) { return std::ranges::find(list, name) != list.end(); }

/// A value that could load something: only what stands in the picture itself may be named.
bool leads_out(std::string_view value) {
  for (std::size_t at = value.find("url("); at != std::string_view::npos; at = value.find("url(", at + 1)) {
    const std::size_t target = value.find_first_not_of(" '\"", at + 4);
    if (target == std::string_view::npos || value[target] != '#') return true;
  }
  return value.find('\\') != std::string_view::npos;
}

/// "url(#name)" with the prefix in.
std::string prefixed(std::string value, const std::string& prefix) {
  for (std::size_t at = value.find("url("); at != std::string::npos; at = value.find("url(", at + 1)) {
    const std::size_t hash = value.find('#', at);
    if (hash != std::string::npos) value.insert(hash + 1, prefix);
  }
  return value;
}

void clean_attributes(pugi::xml_node node, const std::string& prefix) {
  for (pugi::xml_attribute attribute = node.first_attribute(); attribute;) {
    const pugi::xml_attribute next = attribute.next_attribute();
    const std::string_view name = attribute.name();
    const std::string value = attribute.value();
    const bool reference = (name == "href" || name == "xlink:href") && value.starts_with('#');
    if (reference) {
      attribute.set_name("href");
      attribute = ("#" + prefix + value.substr(1)).c_str();
    } else if (name == "id") {
      attribute = (prefix + value).c_str();
    } else if (!allowed(attributes, name) || leads_out(value)) {
      node.remove_attribute(attribute);
    } else {
      attribute = prefixed(value, prefix).c_str();
    }
    attribute = next;
  }
}

void clean(pugi::xml_node root, const std::string& prefix) {
  // Without recursion: a picture may be nested deeper than the stack.
  for (pugi::xml_node node = root; node;) {
    clean_attributes(node, prefix);
    for (pugi::xml_node child = node.first_child(); child;) {
      const pugi::xml_node next = child.next_sibling();
      const bool draws = child.type() == pugi::node_element && allowed(elements, child.name());
      if (!draws && child.type() != pugi::node_pcdata) node.remove_child(child);
      child = next;
    }
    // On to the next element in document order.
    const auto is_element = [](const pugi::xml_node& n) { return n.type() == pugi::node_element; };
    pugi::xml_node after = node.find_child(is_element);
    while (!after && node && node != root) {
      after = node.next_sibling();
      while (after && !is_element(after)) after = after.next_sibling();
      if (!after) node = node.parent();
    }
    node = after;
  }
}

}  // namespace

std::string safe_svg(std::string_view svg, const std::string& prefix) {
  pugi::xml_document document;
  if (!document.load_buffer(svg.data(), svg.size(), pugi::parse_default | pugi::parse_ws_pcdata, pugi::encoding_utf8)) {
    return {};
  }
  pugi::xml_node root = document.document_element();
  if (std::string_view(root.name()) != "svg") return {};
  clean(root, prefix);
  // A namespace is needed where the picture stands in XML; in HTML it does no harm.
  root.append_attribute("xmlns") = "http://www.w3.org/2000/svg";
  std::ostringstream out;
  root.print(out, "", pugi::format_raw, pugi::encoding_utf8);
  return out.str();
}

}  // namespace fingerway
