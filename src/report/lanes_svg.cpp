#include "lanes_svg.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <sstream>
#include <utility>

#include "html.hpp"
#include "lane_signs.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

// All in units of the picture.
constexpr double left_margin = 78.0;  // hand and finger names
constexpr double lead_in = 20.0;      // room for moves into the first note
constexpr double right_margin = 6.0;
constexpr double usual_width = left_margin + lead_in + lanes_axis_width + right_margin;
constexpr double lane_pitch = 24.0;
constexpr double bar_height = 13.0;
constexpr double move_drop = 18.0;  // the move runs below its bars
constexpr double hand_gap = 5.0;
constexpr double need_height = 22.0;
constexpr double need_level = 11.0;
constexpr double fold_height = 15.0;
constexpr double title_height = 15.0;
constexpr std::size_t most_name_levels = 3;

constexpr std::array<std::string_view, 5> finger_names = {"thumb", "1 index", "2 middle", "3 ring", "4 little"};

/// About how wide a text runs, in units; fonts differ, so it is on the wide side.
double text_width(std::string_view text, double size) {
  const auto characters = static_cast<double>(
      std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
  return characters * size * 0.6;
}

/// The text in lines no wider than `width`, broken at blanks.
std::vector<std::string> wrapped(const std::string& text, double size, double width) {
  std::vector<std::string> lines;
  std::string line;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    const bool joins = line.empty() || text_width(line + " " + word, size) <= width;
    if (!joins) lines.push_back(std::exchange(line, ""));
    line += (line.empty() ? "" : " ") + word;
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

std::string title_of(const std::string& text) { return "<title>" + escaped(text) + "</title>"; }

std::string text_at(std::string_view css_class, double x, double y, const std::string& text) {
  return "<text class=\"" + std::string(css_class) + "\" x=\"" + coordinate(x) + "\" y=\"" + coordinate(y) + "\">" +
         escaped(text) + "</text>";
}

std::string rect(std::string_view css_class, double x, double y, double width, double height, double round) {
  std::string tag = "<rect class=\"" + std::string(css_class) + "\" x=\"" + coordinate(x) + "\" y=\"" + coordinate(y) +
                    "\" width=\"" + coordinate(std::max(0.0, width)) + "\" height=\"" + coordinate(height) + "\"";
  if (round > 0) tag += " rx=\"" + coordinate(round) + "\"";
  return tag + "/>";
}

std::string vertical(std::string_view css_class, double x, double from, double to) {
  return "<path class=\"" + std::string(css_class) + "\" d=\"M" + coordinate(x) + " " + coordinate(from) + "V" +
         coordinate(to) + "\"/>";
}

class SystemDrawing {
 public:
  SystemDrawing(const Lanes& lanes, const LaneSystem& system, const std::vector<std::string>& titles)
      : width_(lanes.width > 0 ? lanes.width : usual_width),
        named_(lanes.named),
        system_(system),
        titles_(titles),
        axis_(system.axis) {
    const double even = (system.end - system.start).count() * lanes.units_per_ms;
    const double from = left_margin + lead_in;
    if (axis_.empty()) axis_.push_back({.at = system.start, .x = from});
    if (axis_.back().at < system.end) {
      const double to = lanes.width > 0 ? width_ - right_margin : from + even;
      axis_.push_back({.at = system.end, .x = std::max(axis_.back().x, to)});
    }
  }

  [[nodiscard]] std::string svg(std::size_t number) {
    notes();
    for (std::size_t b = 0; b < system_.blocks.size(); ++b) {
      out_ += "<g data-side=\"" + std::to_string(b) + "\">";
      block(b);
      out_ += "</g>";
    }
    double filled = 0;
    for (const LaneBeat& beat : system_.beats) {
      const double at = x(beat.at) + 3;
      if (beat.bar.empty() || at < filled) continue;
      grid_ += text_at("bar-number", at, 11, beat.bar);
      filled = at + text_width(beat.bar, 9) + 2;
    }
    const std::string label = "Finger lanes, system " + std::to_string(number) + ", " + bars();
    return "<svg class=\"system drawn\" role=\"img\" viewBox=\"0 0 " + coordinate(width_) + " " + coordinate(y_ + 3) +
           "\" aria-label=\"" + escaped(label) + "\">" + title_of(label) + grid_ + out_ + "</svg>\n";
  }

 private:
  /// Evenly between two anchors; before the first as between the first two.
  [[nodiscard]] double x(Ms moment) const {
    auto after = std::ranges::lower_bound(axis_, moment, {}, &LaneAnchor::at);
    if (after == axis_.begin()) ++after;
    if (after == axis_.end()) return axis_.back().x;
    const LaneAnchor& a = *std::prev(after);
    const double length = (after->at - a.at).count();
    return length > 0 ? a.x + (after->x - a.x) * ((moment - a.at).count() / length) : a.x;
  }
  /// Moves that begin before the system are cut at its edge.
  [[nodiscard]] double x_from(Ms moment) const { return std::max(left_margin + 4, x(moment)); }

  [[nodiscard]] std::string bars() const {
    std::vector<std::string> names;
    for (const LaneBeat& beat : system_.beats) {
      if (!beat.bar.empty()) names.push_back(beat.bar);
    }
    if (names.empty()) return "within a bar";
    return names.size() == 1 ? "bar " + names.front() : "bars " + names.front() + " to " + names.back();
  }

  /// Bar lines and beats behind one stretch of the picture; words between the stretches stay clear of them.
  void grid(double top, double bottom, bool beats) {
    for (const LaneBeat& beat : system_.beats) {
      if (beats || !beat.bar.empty()) grid_ += vertical(beat.bar.empty() ? "beat" : "barline", x(beat.at), top, bottom);
    }
    grid_ += vertical("barline", x(system_.end), top, bottom);
  }

  /// Note names, on several levels where they would touch, with slurs under them. Where they stand too close for that,
  /// a name is left to the picture's title.
  void notes() {
    std::array<double, most_name_levels> filled{};
    const double base = 26;
    for (const LaneNote& note : system_.notes) {
      const double at = x(note.start);
      const double width = text_width(note.name, 11.5);
      std::size_t level = 0;
      while (level < most_name_levels && filled[level] > at - 1) ++level;
      const std::string number = std::to_string(note.note);
      out_ += "<g " + (named_ ? "id=\"note-" + number + "\" " : std::string()) + "data-note=\"" + number + "\">" +
              title_of(note.name);
      if (level < most_name_levels) {
        filled[level] = at + width + 2;
        levels_ = std::max(levels_, level + 1);
        out_ += name_svg(note, at, base + 12 * static_cast<double>(level), width);
      }
      out_ += "</g>";
    }
    y_ = base + 12 * static_cast<double>(levels_ - 1) + 6;
    slurs();
    y_ += 7;
    grid(4, y_ - 2, false);
  }

  [[nodiscard]] static std::string name_svg(const LaneNote& note, double at, double y, double width) {
    std::string css_class = note.differs ? "note differs" : "note";
    if (!note.playable) css_class += " bad";
    std::string text = text_at(css_class, at, y, note.name);
    if (note.differs) {
      text += "<path class=\"differs-line\" d=\"M" + coordinate(at) + " " + coordinate(y + 2.5) + "h" +
              coordinate(width * 0.85) + "\"/>";
    }
    return text;
  }

  void slurs() {
    for (std::size_t i = 0; i < system_.notes.size(); ++i) {
      if (!system_.notes[i].slurred) continue;
      const std::size_t first = i == 0 ? 0 : i - 1;
      while (i + 1 < system_.notes.size() && system_.notes[i + 1].slurred) ++i;
      const double from = first == 0 && system_.notes[0].slurred ? left_margin + 4 : x(system_.notes[first].start) + 1;
      const double to = x(system_.notes[i].end) - 5;
      out_ += "<path class=\"slur\" d=\"M" + coordinate(from) + " " + coordinate(y_) + "q3 4 8 4H" +
              coordinate(std::max(from + 8, to - 8)) + "q5 0 8 -4\"/>";
    }
  }

  void block(std::size_t b) {
    const LaneBlock& block = system_.blocks[b];
    if (b > 0) y_ += 6;
    if (titles_.size() > 1) {
      const bool told = b > 0 && same(block, system_.blocks.front());
      lines("block-title", told ? titles_[b] + ": the same here" : titles_[b], 11.5, 9, title_height);
      if (told) return;
    }
    const double top = y_;
    y_ += 2;
    const Lane* before = nullptr;
    for (const Lane& lane : block.lanes) {
      const bool new_hand = before == nullptr || hand_of(before->finger) != hand_of(lane.finger);
      if (new_hand && before != nullptr) y_ += hand_gap;
      if (new_hand) out_ += text_at("hand", 0, y_ + 10, hand_of(lane.finger) == Hand::left ? "left" : "right");
      draw(lane);
      before = &lane;
    }
    needs(block);
    grid(top, y_, true);
    if (!block.stay_down.empty()) {
      lines("fold", "stay down: " + block.stay_down, 10, 11, fold_height);
    }
  }

  /// Words across the whole picture, on as many lines as they need.
  void lines(std::string_view css_class, const std::string& text, double size, double base, double height) {
    for (const std::string& line : wrapped(text, size, width_)) {
      out_ += text_at(css_class, 0, y_ + base, line);
      y_ += height;
    }
  }

  /// True when a block need not be drawn again: nothing differs and no number would go missing.
  [[nodiscard]] static bool same(const LaneBlock& block, const LaneBlock& above) {
    return block.lanes == above.lanes && block.stay_down == above.stay_down &&
           std::ranges::none_of(block.needs, [](const LaneNeed& n) { return n.rank > 0 || n.decides; });
  }

  void draw(const Lane& lane) {
    out_ += text_at("finger", left_margin - 4, y_ + 10, std::string(finger_names[digit(lane.finger)]));
    out_ += "<path class=\"lane\" d=\"M" + coordinate(left_margin + 2) + " " + coordinate(y_ + move_drop) + "H" +
            coordinate(x(system_.end)) + "\"/>";
    for (const LaneBar& bar : lane.bars) draw(bar, lane.moves.empty());
    for (const LaneMove& move : lane.moves) draw(move);
    // Above the hatching, which would hide them.
    for (std::size_t i = 0; i < lane.bars.size(); ++i) {
      const LaneBar& bar = lane.bars[i];
      const double at = x(bar.start) + 4;
      const double next = i + 1 < lane.bars.size() ? x(lane.bars[i + 1].start) + 2 : width_;
      out_ += label(bar, at, x(bar.end) - x(bar.start) - 6, next - at);
    }
    y_ += lane_pitch;
  }

  void draw(const LaneBar& bar, bool rests) {
    const double from = x(bar.start) + (bar.cut_left ? 0 : 1);
    const double to = x(bar.end) - (bar.cut_right ? 0 : 1);
    const double top = bar.half ? y_ + bar_height / 2 : y_;
    const double height = bar.half ? bar_height / 2 : bar_height;
    out_ += "<g>" + title_of(bar.words);
    out_ += rect(bar.flicked ? "held flicked" : rests ? "held rests" : "held", from, top, to - from, height, 2.5);
    if (bar.shaken) {
      std::string teeth;
      const double first = from + (bar.label.empty() ? 3 : text_width(bar.label, 10) + 8);
      for (double at = first; at < to - 2; at += 5) {
        teeth += "M" + coordinate(at) + " " + coordinate(top + height - 3.5) + "v3.5";
      }
      out_ += "<path class=\"teeth\" d=\"" + teeth + "\"/>";
    }
    out_ += "</g>";
  }

  /// The label, smaller or cut at its front where the bar is short: the last touch of a row tells most. It may run on
  /// beyond its bar (`room`) but not into the next one (`most`): then only the title tells it.
  [[nodiscard]] std::string label(const LaneBar& bar, double at, double room, double most) const {
    const std::string text = bar.half ? "½" + std::string(bar.label.empty() ? "" : " ") + bar.label : bar.label;
    const double base = y_ + 10;
    if (text.empty()) return {};
    if (text_width(text, 10) <= (bar.flicked ? most : room)) return text_at("touch", at, base, text);
    if (text_width(text, 8) <= room) return text_at("touch small", at, base, text);
    const auto last = text.find_last_of(' ');
    const std::string end = last == std::string::npos ? text : "…" + text.substr(last + 1);
    return text_width(end, 8) <= most ? text_at("touch small", at, base, end) : std::string();
  }

  void draw(const LaneMove& move) {
    const double to = x(move.end);
    const double from = std::min(to, x_from(move.start));
    out_ += std::string("<g class=\"") + (move.too_long ? "move late" : "move") + "\" data-note=\"" +
            std::to_string(move.note) + "\">" + title_of(move.words);
    if (move.heard > Ms(0)) {
      const double hatched = std::max(x_from(move.end - move.heard), from);
      out_ += rect("hatch", hatched, y_, to - hatched - 1, bar_height, 0);
    }
    out_ +=
        line_svg(move.kind, from, to, y_ + move_drop) + sign_svg(move.kind, move.upward, to, y_ + move_drop) + "</g>";
  }

  /// The whole hand: a line as long as the change needs, hatched where it starts before the note it leaves.
  void needs(const LaneBlock& block) {
    if (block.needs.empty()) return;
    out_ += text_at("finger need-name", left_margin - 4, y_ + 12, "whole hand");
    std::optional<double> decides_at;
    double lowest = 0;
    double row = 0;
    double filled = 0;
    std::string badges;
    for (const LaneNeed& need : block.needs) {
      const double to = x(need.end) - 1.5;
      const double from = std::min(to, x_from(need.start) + 1);
      // A change that starts before the last one is over goes on another level, so that both are seen.
      row = from < filled ? need_level - row : 0;
      filled = to;
      lowest = std::max(lowest, row);
      const double middle = y_ + 9 + row;
      out_ += std::string("<g class=\"") + (need.fits ? "need" : "need late") + "\" data-note=\"" +
              std::to_string(need.note) + "\">" + (need.words.empty() ? std::string() : title_of(need.words));
      out_ += rect("need-bar", from, middle - 2, to - from, 4, 0);
      if (!need.fits) {
        const double late_to = std::min(to, x(need.end - need.available));
        if (late_to > from) out_ += rect("hatch", from, middle - 5, late_to - from, 10, 0);
      }
      badges += badge(need, to - 1, middle);
      if (need.decides) decides_at = to - 1;
      out_ += "</g>";
    }
    out_ += badges;
    if (decides_at) out_ += ceiling_mark(*decides_at, y_ + 25 + lowest);
    y_ += need_height + lowest + (decides_at ? 9 : 0);
  }

  /// The number of a hardest moment.
  [[nodiscard]] static std::string badge(const LaneNeed& need, double at, double middle) {
    if (need.rank == 0) return {};
    return "<circle class=\"badge\" cx=\"" + coordinate(at) + "\" cy=\"" + coordinate(middle) + "\" r=\"6.2\"/>" +
           text_at("badge-number", at, middle + 3.3, std::to_string(need.rank));
  }

  /// A word under the change that sets the ceiling, below all lines.
  [[nodiscard]] std::string ceiling_mark(double at, double y) const {
    const double width = text_width("sets the ceiling", 9);
    const double start = std::clamp(at - width / 2, left_margin, std::max(left_margin, width_ - width));
    return text_at("ceiling", start, y, "sets the ceiling");
  }

  double width_;
  bool named_;
  const LaneSystem& system_;
  const std::vector<std::string>& titles_;
  std::vector<LaneAnchor> axis_;  ///< as asked for, and to the end of the system; at least one
  std::string grid_;              ///< behind everything else
  std::string out_;
  double y_ = 0;
  std::size_t levels_ = 1;
};

std::string sample(const std::string& picture, std::string_view words) {
  return "<li><svg class=\"drawn\" viewBox=\"0 0 44 22\" width=\"44\" height=\"22\" aria-hidden=\"true\">" + picture +
         "</svg> " + escaped(words) + "</li>";
}

}  // namespace

std::string system_svg(const Lanes& lanes, std::size_t number, const std::vector<std::string>& titles) {
  return SystemDrawing(lanes, lanes.systems[number], titles).svg(number + 1);
}

std::string svg_patterns() {
  return "<svg width=\"0\" height=\"0\" class=\"patterns drawn\" aria-hidden=\"true\"><defs><pattern id=\"hatching\" "
         "width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path "
         "class=\"hatch-line\" d=\"M0 0V5\"/></pattern></defs></svg>\n";
}

std::string legend_html() {
  std::string items;
  for (const SignMeaning& meaning : sign_meanings()) {
    items += sample("<g class=\"move\">" + line_svg(meaning.kind, 6, 34, 13) +
                        sign_svg(meaning.kind, meaning.upward, 34, 13) + "</g>",
                    meaning.words);
  }
  items +=
      sample(rect("held", 2, 4, 40, bar_height, 2.5) + text_at("touch", 6, 14, "D C"), "held, with the touch's name");
  items += sample(rect("held", 2, 10.5, 40, bar_height / 2, 2.5), "half hole");
  items += sample(rect("held", 2, 4, 40, bar_height, 2.5) +
                      "<path class=\"teeth\" d=\"M6 13.5v3.5M11 13.5v3.5M16 13.5v3.5M21 13.5v3.5M26 13.5v3.5M31 "
                      "13.5v3.5M36 13.5v3.5\"/>",
                  "moves to and fro in a trill");
  items += sample(rect("held", 2, 4, 40, bar_height, 2.5) + rect("hatch", 18, 4, 24, bar_height, 0),
                  "the touch it leaves is still needed: this is heard");
  items +=
      sample("<g class=\"need late\">" + rect("need-bar", 4, 9, 36, 4, 0) + rect("hatch", 4, 5, 16, 12, 0) + "</g>",
             "does not fit: starts before the note it leaves");
  return "<ul class=\"legend\">" + items + "</ul>\n";
}

}  // namespace fingerway
