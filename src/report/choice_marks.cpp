#include "fingerway/report/choice_marks.hpp"

#include <algorithm>
#include <set>

#include "text_layout.hpp"
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
  // Where little is left of the usual fingering, the whole one is quicker to read than what changes.
  const std::string whole = compact(instrument, candidate.fingering);
  return width(whole) < width(mark) ? whole : mark;
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

}  // namespace fingerway
