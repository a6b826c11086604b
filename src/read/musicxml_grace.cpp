#include "musicxml_grace.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>

namespace fingerway {

namespace {

ScoreTime end_of(const LineNote& note) { return note.onset + note.length; }

ScoreTime count(std::size_t first, std::size_t last) { return ScoreTime(static_cast<std::int64_t>(last - first)); }

/// How long each of notes [first, last) sounds.
ScoreTime share(ScoreTime neighbour, const std::vector<LineNote>& notes, std::size_t first, std::size_t last) {
  const ScoreTime sixteenth(1, 4);
  const ScoreTime half = neighbour / ScoreTime(2);
  return std::min(notes[first].grace_value.value_or(sixteenth), half / count(first, last));
}

void line_up(std::vector<LineNote>& notes, std::size_t first, std::size_t last, ScoreTime start, ScoreTime each) {
  for (std::size_t i = first; i < last; ++i) {
    notes[i].onset = start;
    notes[i].length = each;
    start += each;
  }
}

/// Takes time for notes [first, last) from the end of the note before them.
void take_from_before(std::vector<LineNote>& notes, std::size_t first, std::size_t last) {
  LineNote& before = notes[first - 1];
  const ScoreTime each = share(before.length, notes, first, last);
  before.length = before.length - each * count(first, last);
  line_up(notes, first, last, end_of(before), each);
}

/// Takes time for notes [first, last) from the start of the note or rest after them.
void take_from_after(std::vector<LineNote>& notes, std::size_t first, std::size_t last) {
  LineNote& after = notes[last];
  const ScoreTime each = share(after.length, notes, first, last);
  line_up(notes, first, last, after.onset, each);
  after.onset += each * count(first, last);
  after.length = after.length - each * count(first, last);
}

/// Notes [first, last) are the grace notes of one moment.
void settle_group(std::vector<LineNote>& notes, std::size_t first, std::size_t last, Findings& findings) {
  const ScoreTime moment = notes[first].onset;
  const bool something_after = last < notes.size() && notes[last].onset == moment;
  const bool sounds_after = something_after && !notes[last].rest;
  const bool sounds_before = first > 0 && end_of(notes[first - 1]) == moment && !notes[first - 1].rest;
  std::size_t split = first;
  if (sounds_before) {
    const auto belongs_before = [&](const LineNote& grace) {
      return !sounds_after || grace.steals_from_before || grace.measure != notes[last].measure;
    };
    while (split < last && belongs_before(notes[split])) ++split;
  }
  if (split > first) take_from_before(notes, first, split);
  if (split == last) return;
  if (something_after) {
    take_from_after(notes, split, last);
  } else {
    findings.fault("grace notes with no note beside them to take time from");
  }
}

}  // namespace

void give_grace_notes_time(std::vector<LineNote>& notes, const std::vector<Measure>& measures, Findings& findings) {
  for (std::size_t first = 0; first < notes.size();) {
    std::size_t last = first;
    while (last < notes.size() && notes[last].grace && notes[last].onset == notes[first].onset) ++last;
    if (last == first) {
      ++first;
      continue;
    }
    findings.at_measure(measures[notes[first].measure].name);
    settle_group(notes, first, last, findings);
    first = last;
  }
}

}  // namespace fingerway
