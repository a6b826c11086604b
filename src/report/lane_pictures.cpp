#include "fingerway/report/lane_pictures.hpp"

#include <algorithm>

#include "lanes_svg.hpp"
#include "page_style.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

/// The picture's notes counted as the whole passage counts them.
void number_from(LaneSystem& system, std::size_t first) {
  for (LaneNote& note : system.notes) note.note += first;
  for (LaneBlock& block : system.blocks) {
    for (LaneNeed& need : block.needs) need.note += first;
    for (Lane& lane : block.lanes) {
      for (LaneMove& move : lane.moves) move.note += first;
    }
  }
}

/// One change of a trill.
Arrival there(const Played& played, const Posture& from, const Posture& to, NotesPerSecond rate) {
  Arrival arrival;
  arrival.context.tongued = false;
  arrival.context.back_and_forth = true;
  arrival.context.available = Ms(1000.0 / rate.value());
  arrival.step = step(played.hand, from, to, arrival.context);
  // The rate is the mean of both ways: the slower way is not one that does not fit.
  arrival.context.available = std::max(arrival.context.available, arrival.step.time);
  arrival.from = from;
  arrival.to = to;
  return arrival;
}

}  // namespace

std::string lanes_picture(const Passage& passage, const std::vector<LanePlan>& plans,
                          const std::vector<std::size_t>& differing, const LaneSpan& span) {
  std::vector<std::string> titles;
  for (const LanePlan& side : plans) titles.push_back(instrument_words(side.played.instrument));
  return system_svg(lay_out(passage, plans, differing, span), 0, titles);
}

std::string option_picture(const Played& played, const Passage& passage, const Option& option, double width) {
  if (option.around.empty()) return {};
  const std::size_t first = option.around_first;
  Passage near = passage;
  const auto from = passage.notes.begin() + static_cast<std::ptrdiff_t>(first);
  near.notes.assign(from, from + static_cast<std::ptrdiff_t>(option.around.size()));
  Plan plan{.notes = option.around, .summary = {}};
  plan.notes.front().arrive = std::nullopt;
  const LaneSpan span{.first = 0, .last = near.notes.size() - 1, .width = width, .anchors = {}};
  Lanes lanes = lay_out(near, {{played, plan, {}}}, {}, span);
  for (LaneSystem& system : lanes.systems) number_from(system, first);
  return system_svg(lanes, 0, {""});
}

std::string trill_picture(const Played& played, const Trill& trill, double width) {
  if (!trill.best || trill.best->rate.value() <= 0) return {};
  const TrillPair& pair = *trill.best;
  constexpr std::size_t strokes = 5;
  Passage shake;
  // A quarter note lasts as long as one note of the trill.
  shake.tempo = TempoMap({{.at = {}, .tempo = Qpm(60.0 * pair.rate.value()), .source = TempoSource::request}});
  Plan plan;
  for (std::size_t i = 0; i < strokes; ++i) {
    const bool low = i % 2 == 0;
    NoteEvent note;
    note.pitch = low ? trill.from : trill.to;
    note.spelling = chart_spelling(note.pitch);
    note.onset = ScoreTime(static_cast<std::int64_t>(i));
    note.length = ScoreTime(1);
    note.attack = i == 0 ? Attack::tongued : Attack::slurred;
    shake.notes.push_back(note);
    plan.notes.emplace_back();
    PlannedNote& planned = plan.notes.back();
    planned.candidate = low ? pair.from : pair.to;
    planned.posture = low ? pair.from_posture : pair.to_posture;
    if (i > 0) planned.arrive = there(played, low ? pair.to_posture : pair.from_posture, planned.posture, pair.rate);
  }
  shake.measures.push_back({.name = "", .start = {}, .length = ScoreTime(strokes)});
  const LaneSpan span{.first = 0, .last = strokes - 1, .width = width, .anchors = {}};
  return system_svg(lay_out(shake, {{played, plan, {}}}, {}, span), 0, {""});
}

std::string lanes_hatching() { return svg_patterns(); }

std::string lanes_legend() { return legend_html(); }

std::string_view lanes_style() { return page_lanes_style(); }

std::string report_style() { return page_style(); }

}  // namespace fingerway
