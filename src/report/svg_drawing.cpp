#include "svg_drawing.hpp"

#include <algorithm>
#include <cmath>

#include "html.hpp"

namespace fingerway {
namespace {

std::string attribute(std::string_view name, double value) {
  return " " + std::string(name) + "=\"" + coordinate(value) + "\"";
}

std::string css(std::string_view css_class) { return " class=\"" + std::string(css_class) + "\""; }

std::string_view anchor_word(SvgDrawing::Anchor anchor) {
  switch (anchor) {
    case SvgDrawing::Anchor::start:
      return "start";
    case SvgDrawing::Anchor::middle:
      return "middle";
    case SvgDrawing::Anchor::end:
      break;
  }
  return "end";
}

}  // namespace

SvgDrawing::SvgDrawing(double width, double height, const std::string& title) {
  head_ = "<svg class=\"plot drawn\" role=\"img\" viewBox=\"0 0 " + coordinate(width) + " " + coordinate(height) +
          "\">\n" + element("title", "", title) + "\n";
}

void SvgDrawing::shape(const std::string& tag, const std::string& title) {
  body_ += title.empty() ? tag + "/>\n" : "<g>" + element("title", "", title) + tag + "/></g>\n";
}

void SvgDrawing::line(double x1, double y1, double x2, double y2, std::string_view css_class) {
  shape(
      "<line" + css(css_class) + attribute("x1", x1) + attribute("y1", y1) + attribute("x2", x2) + attribute("y2", y2),
      {});
}

void SvgDrawing::circle(double x, double y, double radius, std::string_view css_class, const std::string& title) {
  shape("<circle" + css(css_class) + attribute("cx", x) + attribute("cy", y) + attribute("r", radius), title);
}

void SvgDrawing::triangle(double x, double y, double radius, std::string_view css_class, const std::string& title) {
  const std::string points = coordinate(x) + "," + coordinate(y - radius) + " " + coordinate(x + radius) + "," +
                             coordinate(y + radius) + " " + coordinate(x - radius) + "," + coordinate(y + radius);
  shape("<polygon" + css(css_class) + " points=\"" + points + "\"", title);
}

void SvgDrawing::cross(double x, double y, double radius, std::string_view css_class, const std::string& title) {
  const auto point = [&](double dx, double dy) { return coordinate(x + dx) + " " + coordinate(y + dy); };
  shape("<path" + css(css_class) + " d=\"M" + point(-radius, -radius) + "L" + point(radius, radius) + "M" +
            point(-radius, radius) + "L" + point(radius, -radius) + "\"",
        title);
}

void SvgDrawing::steps(const std::vector<std::pair<double, double>>& points, std::string_view css_class) {
  std::string path;
  for (const auto& [x, y] : points) {
    path += path.empty() ? "M" + coordinate(x) + " " + coordinate(y) : "H" + coordinate(x) + "V" + coordinate(y);
  }
  if (!path.empty()) shape("<path" + css(css_class) + " d=\"" + path + "\"", {});
}

void SvgDrawing::text(double x, double y, std::string_view css_class, Anchor anchor, const std::string& words) {
  body_ += "<text" + css(css_class) + attribute("x", x) + attribute("y", y) + " text-anchor=\"" +
           std::string(anchor_word(anchor)) + "\">" + escaped(words) + "</text>\n";
}

std::string SvgDrawing::svg() const { return head_ + body_ + "</svg>\n"; }

Axis axis_for(double least, double most) {
  if (!(most > least)) most = least + 1.0;
  constexpr double wanted_ticks = 6.0;
  const double rough = (most - least) / wanted_ticks;
  const double power = std::pow(10.0, std::floor(std::log10(rough)));
  double step = 10.0 * power;
  for (double round : {1.0, 2.0, 5.0}) {
    if (round * power >= rough) {
      step = round * power;
      break;
    }
  }
  const double first = std::floor(least / step + 1e-9);
  const double last = std::ceil(most / step - 1e-9);
  Axis axis{.least = first * step, .most = last * step, .ticks = {}};
  for (double i = first; i <= last + 0.5; i += 1.0) axis.ticks.push_back(i * step);
  return axis;
}

}  // namespace fingerway
