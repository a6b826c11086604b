// What this part answers: the few shapes that plots are drawn with, and axes with round numbers.
// Private to report.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fingerway {

/// One SVG being drawn. Coordinates are units of its view box.
class SvgDrawing {
 public:
  /// `title` is what screen readers say.
  SvgDrawing(double width, double height, const std::string& title);

  void line(double x1, double y1, double x2, double y2, std::string_view css_class);
  void circle(double x, double y, double radius, std::string_view css_class, const std::string& title = {});
  /// A triangle that points up.
  void triangle(double x, double y, double radius, std::string_view css_class, const std::string& title = {});
  void cross(double x, double y, double radius, std::string_view css_class, const std::string& title = {});
  void steps(const std::vector<std::pair<double, double>>& points, std::string_view css_class);
  enum class Anchor { start, middle, end };
  void text(double x, double y, std::string_view css_class, Anchor anchor, const std::string& words);
  [[nodiscard]] std::string svg() const;

 private:
  void shape(const std::string& tag, const std::string& title);

  std::string head_;
  std::string body_;
};

/// A straight scale with round numbers to label, from below the least to above the greatest value.
struct Axis {
  double least = 0.0;
  double most = 1.0;
  std::vector<double> ticks;

  /// Where a value lies between two coordinates.
  [[nodiscard]] double at(double value, double from, double to) const {
    return from + (value - least) / (most - least) * (to - from);
  }
};
[[nodiscard]] Axis axis_for(double least, double most);

}  // namespace fingerway
