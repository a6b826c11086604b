#include "musicxml_ornaments.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

#include "musicxml_parts.hpp"
#include "musicxml_pitch.hpp"

namespace fingerway {

namespace {

/// What is told of each kind, in the order of Ornament.
struct Kind {
  std::string_view name;
  std::string_view played;
};
constexpr std::array<Kind, 8> kinds = {
    {{"", ""},
     {"mordent", "note, note below, note"},
     {"short trill", "note, note above, note"},
     {"turn", "note above, note, note below, note"},
     {"inverted turn", "note below, note, note above, note"},
     {"delayed turn", "note, and at its end note above, note, note below, note"},
     {"delayed inverted turn", "note, and at its end note below, note, note above, note"},
     {"slide", "up to the note from a third below"}}};

std::size_t index(Ornament ornament) { return static_cast<std::size_t>(ornament); }

bool is_delayed(Ornament ornament) {
  return ornament == Ornament::delayed_turn || ornament == Ornament::delayed_inverted_turn;
}

/// The notes in order; the long one is where the main note stands longest.
struct Figure {
  std::vector<Spelling> notes;
  std::size_t long_one = 0;
};

Figure figure_of(const LineNote& note) {
  const Spelling main = note.spelling;
  switch (note.marks.ornament) {
    case Ornament::mordent:
      return {{main, lower_note(note), main}, 2};
    case Ornament::short_trill:
      return {{main, upper_note(note), main}, 2};
    case Ornament::turn:
      return {{upper_note(note), main, lower_note(note), main}, 3};
    case Ornament::inverted_turn:
      return {{lower_note(note), main, upper_note(note), main}, 3};
    case Ornament::delayed_turn:
      return {{main, upper_note(note), main, lower_note(note), main}, 0};
    case Ornament::delayed_inverted_turn:
      return {{main, lower_note(note), main, upper_note(note), main}, 0};
    case Ornament::slide: {
      const Spelling below = lower_note(note);
      return {{note_below(below, note.key_fifths, {}), below, main}, 2};
    }
    case Ornament::none:
      break;
  }
  return {{main}, 0};
}

/// One event becomes those of its figure: signs of its start stay at the first, those of its end at the last.
void add_figure(std::vector<NoteEvent>& events, NoteEvent event, const LineNote& note) {
  const Figure figure = figure_of(note);
  const ScoreTime thirty_second(1, 8);
  const ScoreTime part = event.length / ScoreTime(is_delayed(note.marks.ornament) ? 8 : 4);
  const ScoreTime each = std::min(thirty_second, part);
  const auto short_ones = static_cast<std::int64_t>(figure.notes.size()) - 1;
  const ScoreTime main_length = event.length - each * ScoreTime(short_ones);
  ScoreTime onset = event.onset;
  for (std::size_t i = 0; i < figure.notes.size(); ++i) {
    NoteEvent played = event;
    played.spelling = figure.notes[i];
    played.pitch = written(played.spelling);
    played.onset = onset;
    played.length = i == figure.long_one ? main_length : each;
    played.part = NotePart::ornament;
    if (i != figure.long_one) played.place.tied.clear();
    if (i > 0) {
      played.attack = Attack::slurred;
      played.marked.clear();
      played.signs.accent = false;
    }
    if (i + 1 < figure.notes.size()) played.signs.breath_after = false;
    if (i != figure.long_one) played.signs.fermata = false;
    onset += played.length;
    events.push_back(std::move(played));
  }
}

void tell(const std::vector<Ornamented>& ornamented, Ornaments choice, Findings& findings) {
  std::array<std::size_t, kinds.size()> counts{};
  for (const Ornamented& one : ornamented) ++counts[index(one.note->marks.ornament)];
  findings.at_part();
  for (std::size_t kind = 1; kind < kinds.size(); ++kind) {
    if (counts[kind] == 0) continue;
    const std::string count = counted(counts[kind], std::string(kinds[kind].name));
    const std::string verb = counts[kind] == 1 ? " is" : " are";
    findings.remark(choice == Ornaments::play ? count + verb + " played " + std::string(kinds[kind].played)
                                              : count + verb + " planned as the main note alone");
  }
}

}  // namespace

std::vector<NoteEvent> spell_out(std::vector<NoteEvent> events, const std::vector<Ornamented>& ornamented,
                                 Ornaments choice, Findings& findings) {
  if (ornamented.empty()) return events;
  tell(ornamented, choice, findings);
  if (choice == Ornaments::main_note) return events;
  std::vector<NoteEvent> spelled;
  spelled.reserve(events.size() + 4 * ornamented.size());
  std::size_t next = 0;
  for (std::size_t i = 0; i < events.size(); ++i) {
    if (next < ornamented.size() && ornamented[next].event == i) {
      add_figure(spelled, std::move(events[i]), *ornamented[next].note);
      ++next;
    } else {
      spelled.push_back(std::move(events[i]));
    }
  }
  return spelled;
}

Spelling upper_note(const LineNote& note) {
  return note_above(note.spelling, note.key_fifths, {note.marks.alter_above, note.above_here});
}

Spelling lower_note(const LineNote& note) {
  return note_below(note.spelling, note.key_fifths, {note.marks.alter_below, note.below_here});
}

}  // namespace fingerway
