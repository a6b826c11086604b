#include "musicxml_events.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <stdexcept>
#include <utility>

#include "musicxml_grace.hpp"
#include "musicxml_ornaments.hpp"
#include "musicxml_slurs.hpp"

namespace fingerway {

namespace {

ScoreTime end_of(const NoteEvent& event) { return event.onset + event.length; }

/// Joins the notes of a line into events, one pass.
class Joiner {
 public:
  Joiner(const PlayedLine& line, Findings& findings)
      : line_(line), findings_(findings), slurred_(slurred_into(line.notes, line.measures, line.jumped, findings)) {}

  std::vector<NoteEvent> join();
  [[nodiscard]] const std::vector<Ornamented>& ornamented() const { return ornamented_; }

 private:
  void add(std::size_t index);
  void start_event(std::size_t index, bool tied);
  void add_to_last(const LineNote& note);
  void add_signs(const LineNote& note);
  void check_overlap(const LineNote& note);
  void note_tie_lost();
  void at(const LineNote& note) { findings_.at_measure(line_.measures[note.measure].name); }

  const PlayedLine& line_;
  Findings& findings_;
  std::vector<bool> slurred_;
  std::vector<NoteEvent> events_;
  const LineNote* tied_onward_ = nullptr;   // the last note, when a tie leads on from it
  const LineNote* tremolo_from_ = nullptr;  // the last note, when a tremolo leads on from it
  std::vector<Ornamented> ornamented_;
};

std::vector<NoteEvent> Joiner::join() {
  events_.reserve(line_.notes.size());
  for (std::size_t i = 0; i < line_.notes.size(); ++i) {
    if (!line_.notes[i].rest) add(i);
  }
  note_tie_lost();
  if (tremolo_from_ != nullptr) findings_.remark("a tremolo has no second note: its note is planned alone");
  return std::move(events_);
}

void Joiner::add(std::size_t index) {
  const LineNote& note = line_.notes[index];
  check_overlap(note);
  const bool follows = !events_.empty() && end_of(events_.back()) == note.onset;
  const bool tied = tied_onward_ != nullptr && follows && written(note.spelling) == written(tied_onward_->spelling);
  const bool tremolo = tremolo_from_ != nullptr && follows && note.marks.tremolo == TremoloRole::second;
  if (tremolo_from_ != nullptr && !tremolo) {
    at(*tremolo_from_);
    findings_.remark("a tremolo has no second note: its note is planned alone");
  }
  if (tied_onward_ != nullptr && !tied) note_tie_lost();
  tremolo_from_ = nullptr;
  tied_onward_ = nullptr;

  if (tremolo) {
    events_.back().kind = NoteKind::tremolo;
    events_.back().other = note.spelling;
    add_to_last(note);
  } else if (tied && note.marks.tremolo != TremoloRole::first) {
    add_to_last(note);
  } else {
    start_event(index, tied);
  }
  add_signs(note);
  if (note.marks.tied_onward && events_.back().kind != NoteKind::tremolo) tied_onward_ = &note;
  if (note.marks.tremolo == TremoloRole::first) tremolo_from_ = &note;
}

void Joiner::start_event(std::size_t index, bool tied) {
  const LineNote& note = line_.notes[index];
  if (note.marks.tied_from_before && !tied) {
    at(note);
    findings_.remark("a tie ends here that never began: the note is planned with a start of its own");
  }
  NoteEvent event;
  event.spelling = note.spelling;
  event.pitch = written(note.spelling);
  event.onset = note.onset;
  event.length = note.length;
  event.dynamic = note.marks.dynamic.value_or(Dynamic::unmarked);
  event.grace = note.grace;
  event.place = {note.measure, note.element, {}};
  if (note.marks.ornament != Ornament::none) ornamented_.push_back({events_.size(), &note});
  // A rest in between lets the breath stop, slur or not.
  const bool follows = !events_.empty() && end_of(events_.back()) == note.onset;
  if (follows && (tied || (slurred_[index] && !note.marks.separated))) event.attack = Attack::slurred;
  events_.push_back(std::move(event));
}

void Joiner::add_to_last(const LineNote& note) {
  NoteEvent& event = events_.back();
  event.length += note.length;
  event.place.tied.push_back(note.element);
  // A grace note tied to its main note is the start of that note.
  event.grace = event.grace && note.grace;
}

void Joiner::add_signs(const LineNote& note) {
  NoteEvent& event = events_.back();
  event.signs.staccato |= note.marks.signs.staccato;
  event.signs.tenuto |= note.marks.signs.tenuto;
  event.signs.accent |= note.marks.signs.accent;
  event.signs.breath_after |= note.marks.signs.breath_after;
  event.signs.fermata |= note.marks.signs.fermata;
  event.marked.insert(event.marked.end(), note.marks.marked.begin(), note.marks.marked.end());
  if (!note.marks.trill) return;
  event.kind = NoteKind::trill;
  event.other = upper_note(note);
}

void Joiner::check_overlap(const LineNote& note) {
  if (events_.empty() || note.onset >= end_of(events_.back())) return;
  at(note);
  findings_.fault(name(events_.back().spelling) + " and " + name(note.spelling) +
                      " sound at once in one voice: a woodwind plays one note at a time",
                  "give each line a voice or part of its own");
}

void Joiner::note_tie_lost() {
  if (tied_onward_ == nullptr) return;
  at(*tied_onward_);
  findings_.remark("a tie begins here that leads to no note of the same pitch: it is left out");
}

/// Notes of other pitch under a wavy line are trilled as well; a tie takes the trill along by itself.
void trill_between(Line& line, std::size_t first, std::size_t last, Findings& findings) {
  const auto same = [&](std::size_t i) {
    return written(line.notes[i].spelling) == written(line.notes[first].spelling);
  };
  for (std::size_t i = first + 1; i < last; ++i) {
    LineNote& note = line.notes[i];
    if (!note.rest && !same(i) && note.marks.ornament == Ornament::none) note.marks.trill = true;
  }
  if (same(last) || line.notes[last].marks.trill) return;
  findings.at_measure(line.measures[line.notes[last].measure].name);
  findings.remark("the wavy line of a trill ends at this note: it is planned without a trill");
}

}  // namespace

void settle_wavy_lines(Line& line, Findings& findings) {
  std::optional<std::size_t> start;
  for (std::size_t i = 0; i < line.notes.size(); ++i) {
    NoteMarks& marks = line.notes[i].marks;
    if (line.notes[i].rest) continue;
    if (marks.wavy_line_stops && start) {
      trill_between(line, *start, i, findings);
      start.reset();
    }
    if (!marks.wavy_line_starts) continue;
    if (marks.ornament == Ornament::none) marks.trill = true;
    if (!marks.wavy_line_stops) start = i;
  }
}

std::vector<NoteEvent> note_events(PlayedLine line, Ornaments ornaments, Findings& findings) {
  try {
    give_grace_notes_time(line.notes, line.measures, findings);
    Joiner joiner(line, findings);
    std::vector<NoteEvent> events = joiner.join();
    return spell_out(std::move(events), joiner.ornamented(), ornaments, findings);
  } catch (const std::overflow_error&) {
    findings.fault("its times cannot be told as fractions of a quarter note", "use one value of divisions in the part");
    return {};
  }
}

}  // namespace fingerway
