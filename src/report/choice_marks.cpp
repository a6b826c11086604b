#include "fingerway/report/choice_marks.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "words.hpp"

namespace fingerway {
namespace {

/// Distinct marks among a note's table lines; a line without one counts by its own touches.
std::size_t ways_to_mark(const Instrument& instrument, WrittenPitch pitch) {
  std::set<std::string> marks;
  for (const TableFingering& line : instrument.table) {
    if (line.pitch != pitch || line.standing == Standing::trill_only) continue;
    marks.insert(line.mark.empty() ? compact(instrument, line.fingering) : line.mark);
  }
  return marks.size();
}

const TableFingering* first_standard(const Instrument& instrument, WrittenPitch pitch) {
  const auto found = std::ranges::find_if(instrument.table, [&](const TableFingering& line) {
    return line.pitch == pitch && line.standing == Standing::standard;
  });
  return found == instrument.table.end() ? nullptr : &*found;
}

std::string mark_of(const Instrument& instrument, const Candidate& candidate) {
  const TableFingering& line = instrument.table[candidate.line];
  const Fingering& own = line.fingering;
  std::string mark = line.mark.empty() ? compact(instrument, own) : line.mark;
  if (candidate.origin == Origin::table) return mark;
  const auto added = candidate.fingering.pressed - own.pressed;
  const auto left_out = own.pressed - candidate.fingering.pressed;
  if (!added.empty()) mark += " +" + touches_short(instrument, added, Script::letters);
  if (!left_out.empty()) mark += " -" + touches_short(instrument, left_out, Script::letters);
  if (candidate.fingering.half != own.half) {
    const auto half = candidate.fingering.half - own.half;
    mark += half.empty() ? " no half hole" : " half " + touches_short(instrument, half, Script::letters);
  }
  const auto flicked = candidate.fingering.flicked - own.flicked;
  if (!flicked.empty()) mark += " flick " + touches_short(instrument, flicked, Script::letters);
  return mark;
}

}  // namespace

bool choice_matters(const Played& played, const NoteEvent& note, const PlannedNote& planned) {
  if (note.kind != NoteKind::plain || !planned.candidate) return true;
  if (planned.candidate->origin == Origin::derived) return true;
  const TableFingering* usual = first_standard(played.instrument, note.pitch);
  if (usual != &played.instrument.table[planned.candidate->line]) return true;
  return ways_to_mark(played.instrument, note.pitch) > 1;
}

std::string pencil_mark(const Played& played, const PlannedNote& planned) {
  if (!planned.candidate) return "no fingering";
  const std::string mark = mark_of(played.instrument, *planned.candidate);
  return planned.other ? mark + " ~ " + mark_of(played.instrument, *planned.other) : mark;
}

std::vector<ScoreMark> marks_for(const Played& played, const Passage& passage, const Plan& plan, MarkWhich which) {
  std::vector<ScoreMark> marks;
  std::map<WrittenPitch, std::string> in_this_measure;
  std::uint32_t measure = 0;
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    const NoteEvent& note = passage.notes[i];
    const std::string text = pencil_mark(played, plan.notes[i]);
    if (note.place.measure != measure) in_this_measure.clear();
    measure = note.place.measure;
    std::string& last = in_this_measure[note.pitch];
    // A mark holds to the end of the measure, as accidentals do; another fingering in between is marked again.
    const bool wanted = which == MarkWhich::all || (choice_matters(played, note, plan.notes[i]) && last != text);
    last = text;
    if (wanted) marks.push_back({.element = note.place.element, .text = text});
  }
  return marks;
}

}  // namespace fingerway
