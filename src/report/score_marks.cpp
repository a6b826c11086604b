#include <algorithm>
#include <map>

#include "fingerway/report/choice_marks.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

/// Touches by their short names; the finger is left out where no other finger has a touch of that name, as players do.
std::string key_names(const Instrument& instrument, TouchSet touches) {
  std::vector<std::string> names;
  for (const TouchId touch : touches) {
    const std::string brief = touch_short(instrument, touch, Script::letters);
    bool only = !brief.empty();
    for (std::size_t i = 0; i < instrument.touches.size() && only; ++i) {
      only = TouchId(i) == touch || touch_short(instrument, TouchId(i), Script::letters) != brief;
    }
    names.push_back(only ? brief : touches_short(instrument, {touch}, Script::letters));
  }
  return joined(names, "+");
}

const TableFingering& line_of(const Instrument& instrument, const Candidate& candidate) {
  return instrument.table[candidate.line];
}

TouchSet added(const Instrument& instrument, const Candidate& candidate) {
  return candidate.fingering.pressed - line_of(instrument, candidate).fingering.pressed;
}

/// Touches down that are neither the line's nor needed: the player keeps them for the sake of a neighbour.
TouchSet held_for_a_neighbour(const Instrument& instrument, const Candidate& candidate) {
  return added(instrument, candidate) & candidate.spare;
}

/// The line's mark and what differs from it where the note would not sound otherwise.
std::string way(const Instrument& instrument, const Candidate& candidate) {
  const TableFingering& line = line_of(instrument, candidate);
  const Fingering& own = line.fingering;
  const Fingering& now = candidate.fingering;
  std::string mark = line.mark.empty() ? compact(instrument, own) : line.mark;
  const auto say = [&](const char* word, TouchSet touches) {
    if (!touches.empty()) mark += word + key_names(instrument, touches);
  };
  say(" +", added(instrument, candidate) - candidate.spare);
  say(" -", own.pressed - now.pressed);
  say(" half ", now.half - own.half);
  if (now.half != own.half && (now.half - own.half).empty()) mark += " no half hole";
  say(" flick ", now.flicked - own.flicked);
  return mark;
}

/// What the mark adds to the way: touches kept down from the note before, or put down early, said where that begins.
struct Kept {
  std::string words;
  TouchSet touches;  ///< all that are kept, also those said before
};

Kept kept(const Instrument& instrument, const Candidate& candidate, TouchSet said, TouchSet before) {
  constexpr int most_named = 2;
  Kept result{{}, held_for_a_neighbour(instrument, candidate)};
  const TouchSet begins = result.touches - said;
  const TouchSet stay = begins & before;
  const TouchSet early = begins - before;
  if (!early.empty()) result.words = "+" + key_names(instrument, early);
  if (stay.empty()) return result;
  if (!result.words.empty()) result.words += " ";
  result.words += stay.size() > most_named ? "hold" : "hold " + key_names(instrument, stay);
  return result;
}

/// Whether the way itself is worth a mark; touches that are only kept down do not count.
bool way_matters(const Played& played, const NoteEvent& note, PlannedNote planned) {
  if (planned.candidate) {
    Candidate candidate = *planned.candidate;
    const Fingering& own = line_of(played.instrument, candidate).fingering;
    Fingering needed = candidate.fingering;
    needed.pressed -= held_for_a_neighbour(played.instrument, candidate);
    if (needed == own) {
      candidate.origin = Origin::table;
      planned.candidate = candidate;
    }
  }
  return choice_matters(played, note, planned);
}

std::string full_fingering(const Instrument& instrument, const Candidate& candidate) {
  std::string text;
  const auto say = [&](const char* word, TouchSet touches) {
    if (!touches.empty()) text += (text.empty() ? "" : " ") + std::string(word);
    for (const TouchId touch : touches) text += " " + full_name(instrument.touches[touch.index]);
  };
  say("press", candidate.fingering.pressed - candidate.fingering.half);
  say("half", candidate.fingering.half);
  say("flick", candidate.fingering.flicked);
  return text.empty() ? "open" : text;
}

/// The marks of one plan, note by note.
class MarkWriter {
 public:
  MarkWriter(const Played& played, MarkWhich which) : played_(played), which_(which) {}

  void add(const NoteEvent& note, const PlannedNote& planned) {
    if (note.place.measure != measure_) in_this_measure_.clear();
    measure_ = note.place.measure;
    if (!planned.candidate) {
      said_ = {};
      down_ = {};
      return put(note, planned, "no fingering", {});
    }
    const Instrument& instrument = played_.instrument;
    std::string text = way(instrument, *planned.candidate);
    if (planned.other) text += " ~ " + way(instrument, *planned.other);
    const Kept keeping = kept(instrument, *planned.candidate, said_, down_);
    said_ = keeping.touches;
    down_ = planned.candidate->fingering.pressed | (planned.other ? planned.other->fingering.pressed : TouchSet());
    put(note, planned, text, keeping.words);
  }

  [[nodiscard]] std::vector<ScoreMark> take() { return std::move(marks_); }

 private:
  void put(const NoteEvent& note, const PlannedNote& planned, const std::string& text, const std::string& keeping) {
    // A mark holds to the end of the measure, as accidentals do; another fingering in between is marked again.
    std::string& last = in_this_measure_[note.pitch];
    const bool say_way =
        which_ == MarkWhich::all || (way_matters(played_, note, planned) && (last != text || !keeping.empty()));
    last = text;
    std::string mark = say_way ? text : std::string();
    if (!keeping.empty()) mark += (mark.empty() ? "" : " ") + keeping;
    if (mark.empty()) return;
    std::string full = planned.candidate ? full_fingering(played_.instrument, *planned.candidate) : std::string();
    if (planned.other) full += " ~ " + full_fingering(played_.instrument, *planned.other);
    marks_.push_back({.element = note.place.element, .text = std::move(mark), .full = std::move(full)});
  }

  const Played& played_;
  MarkWhich which_;
  std::vector<ScoreMark> marks_;
  std::map<WrittenPitch, std::string> in_this_measure_;
  std::uint32_t measure_ = 0;
  TouchSet said_;
  TouchSet down_;
};

}  // namespace

std::vector<ScoreMark> marks_for(const Played& played, const Passage& passage, const Plan& plan, MarkWhich which) {
  MarkWriter writer(played, which);
  for (std::size_t i = 0; i < passage.notes.size(); ++i) writer.add(passage.notes[i], plan.notes[i]);
  return writer.take();
}

}  // namespace fingerway
