#include "musicxml_events.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string_view>

#include "musicxml_grace.hpp"
#include "musicxml_slurs.hpp"

namespace fingerway {

namespace {

ScoreTime end_of(const NoteEvent& event) { return event.onset + event.length; }

/// Joins the notes of a line into events, one pass.
class Joiner {
 public:
  Joiner(const Line& line, Findings& findings)
      : line_(line), findings_(findings), slurred_(slurred_into(line.notes, line.measures, findings)) {}

  std::vector<NoteEvent> join();

 private:
  void add(std::size_t index);
  void start_event(std::size_t index, bool tied);
  void add_to_last(const LineNote& note);
  void add_signs(const LineNote& note);
  void check_overlap(const LineNote& note);
  void note_tie_lost();
  void at(const LineNote& note) { findings_.at_measure(line_.measures[note.measure].name); }
  [[nodiscard]] Dynamic dynamic_at(const LineNote& note);

  const Line& line_;
  Findings& findings_;
  std::vector<bool> slurred_;
  std::vector<NoteEvent> events_;
  const LineNote* tied_onward_ = nullptr;   // the last note, when a tie leads on from it
  const LineNote* tremolo_from_ = nullptr;  // the last note, when a tremolo leads on from it
  std::size_t next_dynamic_ = 0;
  Dynamic dynamic_ = Dynamic::unmarked;
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
  event.dynamic = dynamic_at(note);
  event.grace = note.grace;
  event.place = {note.measure, note.element, {}};
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
  if (!note.marks.trill) return;
  event.kind = NoteKind::trill;
  event.other = trill_neighbour(note.spelling, note.key_fifths, note.marks.trill_alter);
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

Dynamic Joiner::dynamic_at(const LineNote& note) {
  while (next_dynamic_ < line_.dynamics.size() && line_.dynamics[next_dynamic_].at <= note.onset) {
    dynamic_ = line_.dynamics[next_dynamic_].dynamic;
    ++next_dynamic_;
  }
  if (note.marks.dynamic) dynamic_ = *note.marks.dynamic;
  return dynamic_;
}

/// The alteration a key signature gives a step. Sharps come in the order F C G D A E B, flats in the reverse.
int key_alteration(char step, int key_fifths) {
  constexpr std::string_view order_of_sharps = "FCGDAEB";
  const int place = static_cast<int>(order_of_sharps.find(step));
  if (key_fifths > 0) return place < key_fifths ? 1 : 0;
  return 6 - place < -key_fifths ? -1 : 0;
}

}  // namespace

Spelling trill_neighbour(const Spelling& main, int key_fifths, std::optional<int> stated_alter) {
  Spelling upper{main.step == 'G' ? 'A' : static_cast<char>(main.step + 1), 0, main.octave};
  if (main.step == 'B') ++upper.octave;
  upper.alter = stated_alter.value_or(key_alteration(upper.step, key_fifths));
  // A trill goes up by a semitone or a tone: what an altered main note would make of the key's note is neither.
  const WrittenPitch pitch = written(main);
  while (!stated_alter && written(upper) - pitch > Semitones(2)) --upper.alter;
  while (written(upper) - pitch < Semitones(1)) ++upper.alter;
  return upper;
}

std::vector<NoteEvent> note_events(Line line, Findings& findings) {
  try {
    give_grace_notes_time(line.notes, line.measures, findings);
    return Joiner(line, findings).join();
  } catch (const std::overflow_error&) {
    findings.fault("its times cannot be told as fractions of a quarter note", "use one value of divisions in the part");
    return {};
  }
}

}  // namespace fingerway
