#include "payoff_plots.hpp"

#include <algorithm>
#include <cmath>

#include "payoff_view.hpp"
#include "svg_drawing.hpp"
#include "text_layout.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

using Anchor = SvgDrawing::Anchor;

constexpr double plot_width = 720.0;
constexpr double left_edge = 78.0;
constexpr double right_edge = 700.0;
constexpr double names_edge = 200.0;
constexpr double row_height = 26.0;

std::string shortened(const std::string& name, std::size_t most) {
  if (width(name) <= most) return name;
  std::string text;
  for (char c : name) {
    // A letter is taken whole or not at all.
    const bool starts_letter = (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    if (starts_letter && width(text) + 1 >= most) break;
    text += c;
  }
  return text + "…";
}

void draw_rows_axis(SvgDrawing& drawing, const Axis& axis, double bottom, const std::string& unit) {
  for (double tick : axis.ticks) {
    const double x = axis.at(tick, names_edge, right_edge);
    drawing.line(x, 14, x, bottom, "grid");
    drawing.text(x, bottom + 14, "tick", Anchor::middle, rounded(tick, 0));
  }
  drawing.text((names_edge + right_edge) / 2, bottom + 30, "tick", Anchor::middle, unit);
}

/// A set drawn at its cost and gain.
struct SetPoint {
  std::size_t variant = 0;
  double x = 0.0;
  double y = 0.0;
};

std::vector<SetPoint> points_of(const PayoffReport& report) {
  std::vector<SetPoint> points;
  for (std::size_t v = 0; v < report.variants.size(); ++v) {
    if (!report.variants[v].cost.known) continue;
    points.push_back({.variant = v, .x = report.variants[v].cost.high, .y = report.payoff.sets[v].balance.gain});
  }
  return points;
}

bool on_front(const PayoffReport& report, std::size_t variant) {
  return std::ranges::find(report.payoff.front, variant) != report.payoff.front.end();
}

/// Names of points that lie on each other are written one above the other.
double label_height(const std::vector<SetPoint>& drawn, double x, double y) {
  const auto near = std::ranges::count_if(
      drawn, [&](const SetPoint& p) { return std::abs(p.x - x) < 26.0 && std::abs(p.y - y) < 12.0; });
  return y - 9.0 - 11.0 * static_cast<double>(near);
}

/// How far a note lies into its passage, 0 to 1.
double along(const Passage& passage, std::size_t note) {
  const double first = passage.tempo.at(passage.notes.front().onset).count();
  const NoteEvent& end = passage.notes.back();
  const double last = passage.tempo.at(end.onset + end.length).count();
  return last > first ? (passage.tempo.at(passage.notes[note].onset).count() - first) / (last - first) : 0.0;
}

}  // namespace

std::string gain_against_cost_svg(const PayoffReport& report) {
  constexpr double top = 30.0;
  constexpr double bottom = 305.0;
  const std::vector<SetPoint> points = points_of(report);
  double most_cost = report.payoff.budget.value_or(0.0);
  double least_gain = 0.0;
  double most_gain = 0.0;
  for (const SetPoint& p : points) {
    most_cost = std::max(most_cost, p.x);
    least_gain = std::min(least_gain, p.y);
    most_gain = std::max(most_gain, p.y);
  }
  const Axis cost = axis_for(0.0, most_cost);
  const Axis gain = axis_for(least_gain, most_gain);
  SvgDrawing drawing(plot_width, 350.0, "Gain of each set of conversions against its cost");
  for (double tick : gain.ticks) {
    const double y = gain.at(tick, bottom, top);
    drawing.line(left_edge, y, right_edge, y, tick == 0.0 ? "axis" : "grid");
    drawing.text(left_edge - 6, y + 3, "tick", Anchor::end, rounded(tick, 0));
  }
  for (double tick : cost.ticks) {
    const double x = cost.at(tick, left_edge, right_edge);
    drawing.line(x, bottom, x, bottom + 4, "axis");
    drawing.text(x, bottom + 17, "tick", Anchor::middle, rounded(tick, 0));
  }
  drawing.text((left_edge + right_edge) / 2, bottom + 36, "tick", Anchor::middle, "cost at most");
  drawing.text(4, 12, "tick", Anchor::start, "points saved");
  std::vector<std::pair<double, double>> front;
  for (std::size_t v : report.payoff.front) {
    front.emplace_back(cost.at(report.variants[v].cost.high, left_edge, right_edge),
                       gain.at(report.payoff.sets[v].balance.gain, bottom, top));
  }
  drawing.steps(front, "front");
  if (report.payoff.budget) {
    const double x = cost.at(*report.payoff.budget, left_edge, right_edge);
    drawing.line(x, top, x, bottom, "budget");
    drawing.text(x - 5, top + 8, "tick", Anchor::end, "budget");
  }
  std::vector<SetPoint> drawn;
  for (const SetPoint& p : points) {
    const double x = cost.at(p.x, left_edge, right_edge);
    const double y = gain.at(p.y, bottom, top);
    const std::string name = set_letters(report.variants[p.variant]);
    const bool best = p.variant == report.payoff.best;
    if (best) drawing.circle(x, y, 9, "halo");
    drawing.circle(x, y, 5, on_front(report, p.variant) ? "dot" : "dot hollow",
                   set_name(report, p.variant) + ": " + rounded(p.y, 0) + " points");
    drawing.text(x, label_height(drawn, x, y) - (best ? 3 : 0), "point-name", Anchor::middle, name);
    drawn.push_back({.variant = p.variant, .x = x, .y = y});
  }
  return drawing.svg();
}

std::string ceilings_svg(const PayoffReport& report, const SetInFull& set) {
  const auto& pieces = report.repertoire.pieces;
  double most = 0.0;
  for (std::size_t p = 0; p < pieces.size(); ++p) {
    const double asked = pieces[p].passage.tempo.tempo_at(ScoreTime()).value();
    // Ceilings far beyond the tempo do not matter; they end at the edge.
    const double cap = asked * 2.0;
    const auto capped = [&](const std::optional<double>& c) { return std::min(c.value_or(cap), cap); };
    most = std::max({most, asked, capped(report.payoff.stock[p].ceiling), capped(set.outcomes[p].ceiling)});
  }
  const Axis axis = axis_for(0.0, most);
  const double bottom = 22.0 + row_height * static_cast<double>(pieces.size());
  SvgDrawing drawing(plot_width, bottom + 36.0, "Speed ceiling of each passage, before and after");
  draw_rows_axis(drawing, axis, bottom, "quarter notes a minute");
  for (std::size_t p = 0; p < pieces.size(); ++p) {
    const double y = 30.0 + row_height * static_cast<double>(p);
    const auto place = [&](const std::optional<double>& c) {
      return axis.at(std::min(c.value_or(axis.most), axis.most), names_edge, right_edge);
    };
    const double before = place(report.payoff.stock[p].ceiling);
    const double after = place(set.outcomes[p].ceiling);
    const double asked = axis.at(pieces[p].passage.tempo.tempo_at(ScoreTime()).value(), names_edge, right_edge);
    drawing.text(names_edge - 8, y + 4, "row-name", Anchor::end, shortened(pieces[p].name, 30));
    drawing.line(asked, y - 9, asked, y + 9, "asked");
    drawing.line(before, y, after, y, "way-line");
    drawing.circle(before, y, 5, "dot hollow", pieces[p].name + ", stock");
    drawing.triangle(after, y, 5, "dot", pieces[p].name + ", converted");
  }
  return drawing.svg();
}

std::string places_svg(const PayoffReport& report, const SetInFull& set) {
  const auto& pieces = report.repertoire.pieces;
  const double bottom = 12.0 + row_height * static_cast<double>(pieces.size());
  SvgDrawing drawing(plot_width, bottom + 8.0, "Where in which passages it helps");
  for (std::size_t p = 0; p < pieces.size(); ++p) {
    const Passage& passage = pieces[p].passage;
    const double y = 20.0 + row_height * static_cast<double>(p);
    drawing.text(names_edge - 8, y + 4, "row-name", Anchor::end, shortened(pieces[p].name, 30));
    drawing.line(names_edge, y, right_edge, y, "axis");
    for (std::size_t i = 0; i < passage.notes.size(); ++i) {
      if (same_fingering(report.payoff.stock[p].notes[i], set.outcomes[p].notes[i])) continue;
      const double x = names_edge + along(passage, i) * (right_edge - names_edge);
      drawing.line(x, y - 4, x, y + 4, "changed-note");
    }
    const auto at = [&](const Turn& turn) {
      return names_edge + along(passage, turn.site.note) * (right_edge - names_edge);
    };
    for (const Turn& turn : set.relieved) {
      if (turn.site.piece != p) continue;
      drawing.triangle(at(turn), y - 3, 5, "dot", site_words(report.repertoire, turn.site) + ": " + turn_words(turn));
    }
    for (const Turn& turn : set.spoiled) {
      if (turn.site.piece != p) continue;
      drawing.cross(at(turn), y, 5, "spoiled", site_words(report.repertoire, turn.site) + ": " + turn_words(turn));
    }
  }
  return drawing.svg();
}

}  // namespace fingerway
