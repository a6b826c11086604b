#include "lane_time.hpp"

#include <algorithm>
#include <utility>

namespace fingerway {
namespace {

Span measure_span(const Passage& passage, std::size_t m) {
  const Measure& measure = passage.measures[m];
  return {passage.tempo.at(measure.start), passage.tempo.at(measure.start + measure.length)};
}

/// Starts of the beats of a measure, its own start first.
std::vector<Ms> beat_starts(const Passage& passage, std::size_t m) {
  const Measure& measure = passage.measures[m];
  std::vector<Ms> starts;
  const ScoreTime beat(4, std::max(1, measure.beat_type));
  for (ScoreTime at; at < measure.length; at += beat) starts.push_back(passage.tempo.at(measure.start + at));
  return starts;
}

/// A measure as pieces that each fit a system.
void add_pieces(const Passage& passage, std::size_t m, Ms longest, std::vector<Span>& pieces) {
  const Span whole = measure_span(passage, m);
  if (whole.length() <= longest) {
    pieces.push_back(whole);
    return;
  }
  std::vector<Ms> cuts = beat_starts(passage, m);
  cuts.push_back(whole.end);
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    // A single beat longer than a system is cut by the clock.
    Span piece{cuts[i], cuts[i + 1]};
    for (; piece.length() > longest; piece.start += longest) pieces.push_back({piece.start, piece.start + longest});
    pieces.push_back(piece);
  }
}

double scale_for(const std::vector<Span>& notes, double note_width) {
  std::vector<double> lengths;
  for (const Span& span : notes) {
    if (span.length() > Ms(0)) lengths.push_back(span.length().count());
  }
  if (lengths.empty()) return 0.1;
  // A few very short notes (graces) may be narrow; most must have room for their names.
  const auto usual = lengths.begin() + static_cast<std::ptrdiff_t>(lengths.size() / 10);
  std::nth_element(lengths.begin(), usual, lengths.end());
  return note_width / *usual;
}

std::vector<Span> packed(const Passage& passage, const std::vector<Span>& notes, Ms longest) {
  std::vector<Span> systems;
  if (notes.empty()) return systems;
  std::vector<Span> pieces;
  const std::size_t last = passage.notes.back().place.measure;
  for (std::size_t m = passage.notes.front().place.measure; m <= last; ++m) add_pieces(passage, m, longest, pieces);
  // Grace notes before the first beat, and notes tied past the last bar, widen the ends.
  pieces.front().start = std::min(pieces.front().start, notes.front().start);
  pieces.back().end = std::max(pieces.back().end, notes.back().end);
  for (const Span& piece : pieces) {
    const bool joins = !systems.empty() && piece.end - systems.back().start <= longest * (1.0 + 1e-9);
    if (joins) {
      systems.back().end = piece.end;
    } else {
      systems.push_back(piece);
    }
  }
  return systems;
}

}  // namespace

std::vector<Span> note_spans(const Passage& passage) {
  std::vector<Span> spans;
  for (const NoteEvent& note : passage.notes) {
    const Ms start = passage.tempo.at(note.onset);
    if (!spans.empty()) spans.back().end = start;
    spans.push_back({start, passage.tempo.at(note.onset + note.length)});
  }
  return spans;
}

Systems pack(const Passage& passage, const std::vector<Span>& notes, double width, double note_width) {
  const double usual = scale_for(notes, note_width);
  Systems best;
  // Notes a little narrower are worth it where they save a line; in a long passage, lines and paper count for more.
  constexpr std::size_t many_lines = 6;
  for (double share : {1.0, 0.9, 0.8, 0.7}) {
    if (share < 0.75 && best.spans.size() <= many_lines) break;
    std::vector<Span> spans = packed(passage, notes, Ms(width / (usual * share)));
    if (best.spans.empty() || spans.size() < best.spans.size()) {
      best.units_per_ms = usual * share;
      best.spans = std::move(spans);
    }
  }
  Ms longest(0);
  for (const Span& span : best.spans) longest = std::max(longest, span.length());
  // Then the longest line fills the page, but a short passage is not spread beyond what looks like music.
  if (longest > Ms(0)) best.units_per_ms = std::min(width / longest.count(), 2.5 * best.units_per_ms);
  return best;
}

std::vector<LaneBeat> beats_within(const Passage& passage, const Span& system) {
  std::vector<LaneBeat> beats;
  for (std::size_t m = 0; m < passage.measures.size(); ++m) {
    const Span span = measure_span(passage, m);
    if (span.end <= system.start || span.start >= system.end) continue;
    for (Ms at : beat_starts(passage, m)) {
      if (system.holds(at)) beats.push_back({.at = at, .bar = at == span.start ? passage.measures[m].name : ""});
    }
  }
  return beats;
}

}  // namespace fingerway
