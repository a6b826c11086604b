#include "lane_time.hpp"

#include <algorithm>

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

double scale_for(const std::vector<Span>& notes, double width, double note_width) {
  std::vector<double> lengths;
  for (const Span& span : notes) {
    if (span.length() > Ms(0)) lengths.push_back(span.length().count());
  }
  if (lengths.empty()) return 0.1;
  // A few very short notes (graces) may be narrow; most must have room for their names.
  const auto usual = lengths.begin() + static_cast<std::ptrdiff_t>(lengths.size() / 10);
  std::nth_element(lengths.begin(), usual, lengths.end());
  const double scale = note_width / *usual;
  const double whole = (notes.back().end - notes.front().start).count();
  // A short passage is spread over the line, but not beyond what looks like music.
  return whole * scale < width ? std::min(width / whole, 2.5 * scale) : scale;
}

std::vector<Span> system_spans(const Passage& passage, const std::vector<Span>& notes, Ms longest) {
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
