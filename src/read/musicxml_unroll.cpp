#include "musicxml_unroll.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace fingerway {

namespace {

/// Tempos in quarters a minute, in written order: those told by the tempo before are worked out.
std::vector<TempoChange> absolute(std::vector<LineTempo>& tempos) {
  std::ranges::stable_sort(tempos, [](const LineTempo& a, const LineTempo& b) {
    return a.measure != b.measure ? a.measure < b.measure : a.within < b.within;
  });
  constexpr double slowest = 1.0;
  constexpr double fastest = 4000.0;
  std::vector<TempoChange> changes;
  TempoChange now;
  for (const LineTempo& tempo : tempos) {
    now.tempo = tempo.mark.factor ? now.tempo * *tempo.mark.factor : tempo.mark.tempo;
    now.tempo = Qpm(std::clamp(now.tempo.value(), slowest, fastest));
    if (!tempo.mark.factor) now.source = tempo.mark.source;
    now.at = tempo.within;
    changes.push_back(now);
  }
  return changes;
}

TempoMap tempo_map(std::vector<LineTempo> tempos, const std::vector<PlayedMeasure>& order, const PlayedLine& played) {
  const std::vector<TempoChange> written = absolute(tempos);
  std::vector<TempoChange> changes;
  // What the first tempo is counted from is not known, but it held until then.
  if (!tempos.empty() && tempos.front().mark.factor) changes.push_back(TempoChange{});
  for (std::size_t i = 0; i < order.size(); ++i) {
    const ScoreTime start = played.measures[i].start;
    auto next = std::ranges::lower_bound(tempos, order[i].written, {}, &LineTempo::measure);
    // After a jump the tempo is again the one that held there.
    if (order[i].jumped && i > 0 && !tempos.empty()) {
      TempoChange held =
          next == tempos.begin() ? written.front() : written[static_cast<std::size_t>(next - tempos.begin()) - 1];
      held.at = start;
      changes.push_back(held);
    }
    for (; next != tempos.end() && next->measure == order[i].written; ++next) {
      TempoChange change = written[static_cast<std::size_t>(next - tempos.begin())];
      change.at += start;
      changes.push_back(change);
    }
  }
  return TempoMap(std::move(changes));
}

}  // namespace

PlayedLine played_line(Line written, const std::vector<LineTempo>& tempos, const std::vector<PlayedMeasure>& order) {
  PlayedLine played;
  const bool in_order = order.size() == written.measures.size() &&
                        std::ranges::none_of(order, [](const PlayedMeasure& measure) { return measure.jumped; });
  played.jumped.reserve(order.size());
  for (const PlayedMeasure& measure : order) played.jumped.push_back(measure.jumped);
  if (in_order) {
    played.measures = std::move(written.measures);
    played.notes = std::move(written.notes);
  } else {
    ScoreTime start;
    for (std::size_t i = 0; i < order.size(); ++i) {
      Measure measure = written.measures[order[i].written];
      const ScoreTime later = start - measure.start;
      measure.start = start;
      measure.pass = order[i].pass;
      start += measure.length;
      played.measures.push_back(std::move(measure));
      auto note = std::ranges::lower_bound(written.notes, order[i].written, {}, &LineNote::measure);
      for (; note != written.notes.end() && note->measure == order[i].written; ++note) {
        played.notes.push_back(*note);
        played.notes.back().onset += later;
        played.notes.back().measure = static_cast<std::uint32_t>(i);
      }
    }
  }
  played.tempo = tempo_map(tempos, order, played);
  return played;
}

std::vector<PlayedMeasure> written_order(std::size_t measures) {
  std::vector<PlayedMeasure> order(measures);
  for (std::size_t i = 0; i < measures; ++i) order[i].written = static_cast<std::uint32_t>(i);
  return order;
}

std::vector<std::size_t> notes_by_measure(const Line& line) {
  std::vector<std::size_t> notes(line.measures.size(), 0);
  for (const LineNote& note : line.notes) ++notes[note.measure];
  return notes;
}

}  // namespace fingerway
