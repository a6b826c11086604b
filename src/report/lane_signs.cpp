#include "lane_signs.hpp"

#include "html.hpp"

namespace fingerway {
namespace {

std::string point(double x, double y) { return coordinate(x) + " " + coordinate(y); }

std::string path(std::string_view css_class, const std::string& d) {
  return "<path class=\"" + std::string(css_class) + "\" d=\"" + d + "\"/>";
}

std::string circle(std::string_view css_class, double x, double y, double radius) {
  return "<circle class=\"" + std::string(css_class) + "\" cx=\"" + coordinate(x) + "\" cy=\"" + coordinate(y) +
         "\" r=\"" + coordinate(radius) + "\"/>";
}

std::string star(double x, double y) {
  std::string d;
  for (const auto& [dx, dy] : {std::pair{0.0, 4.4}, std::pair{3.8, 2.2}, std::pair{3.8, -2.2}}) {
    d += "M" + point(x - dx, y - dy) + "L" + point(x + dx, y + dy);
  }
  return path("stroke", d);
}

}  // namespace

std::string sign_svg(MoveKind kind, bool upward, double x, double y) {
  switch (kind) {
    case MoveKind::press:
      return path("mark", "M" + point(x - 4, y - 3.6) + "h8L" + point(x, y + 3.8) + "z");
    case MoveKind::lift:
      return path("mark", "M" + point(x - 4, y + 3.6) + "h8L" + point(x, y - 3.8) + "z");
    case MoveKind::slide:
      return path("mark", "M" + point(x, y - 4.6) + "l4.6 4.6l-4.6 4.6l-4.6 -4.6z");
    case MoveKind::jump:
      return path("mark", "M" + point(x - 3.6, y - 3.6) + "h7.2v7.2h-7.2z");
    case MoveKind::roll:
      return circle(upward ? "ring" : "mark", x, y, upward ? 3.2 : 3.8);
    case MoveKind::shift:
      return circle("ring", x, y, 3.4) + circle("mark", x, y, 1.5);
    case MoveKind::flick:
      return star(x, y);
    case MoveKind::travel:
      return path("stroke", "M" + point(x - 3.4, y - 3.2) + "l3.4 3.2l-3.4 3.2");
    case MoveKind::stay:
    case MoveKind::impossible:
      break;
  }
  return path("stroke", "M" + point(x - 3.4, y - 3.4) + "l6.8 6.8m0 -6.8l-6.8 6.8");
}

std::string line_svg(MoveKind kind, double from, double to, double y) {
  if (kind == MoveKind::jump) {
    return path("way", "M" + point(from, y) + "Q" + point((from + to) / 2, y - 8) + " " + point(to, y));
  }
  return path(kind == MoveKind::travel ? "way idle" : "way", "M" + point(from, y) + "H" + coordinate(to));
}

const std::vector<SignMeaning>& sign_meanings() {
  static const std::vector<SignMeaning> meanings = {
      {.kind = MoveKind::press, .upward = false, .words = "press"},
      {.kind = MoveKind::lift, .upward = true, .words = "let go"},
      {.kind = MoveKind::slide, .upward = false, .words = "slide to the touch beside it"},
      {.kind = MoveKind::jump, .upward = false, .words = "jump from touch to touch"},
      {.kind = MoveKind::roll, .upward = false, .words = "roll on more touches, or shut a half hole"},
      {.kind = MoveKind::roll, .upward = true, .words = "roll off, or open half"},
      {.kind = MoveKind::shift, .upward = false, .words = "shift along, part of the grip stays"},
      {.kind = MoveKind::flick, .upward = false, .words = "flick at the start of the note"},
      {.kind = MoveKind::travel, .upward = false, .words = "move over while free"}};
  return meanings;
}

}  // namespace fingerway
