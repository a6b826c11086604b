#include "musicxml_line.hpp"

#include <algorithm>
#include <map>
#include <pugixml.hpp>
#include <stdexcept>
#include <string_view>

#include "musicxml_attributes.hpp"
#include "musicxml_text.hpp"

namespace fingerway {

namespace {

std::string_view voice_of(const pugi::xml_node& note) {
  const std::string_view voice = text_of(note.child("voice"));
  // A part with one voice need not name it.
  return voice.empty() ? std::string_view("1") : voice;
}

int staff_of(const pugi::xml_node& note) { return parse_whole(text_of(note.child("staff")), 1, 1000).value_or(1); }

/// A quarter tone has no fingering of its own in most charts: it is planned as the nearest note, towards the natural.
int nearest_alteration(ScoreTime alter) {
  const ScoreTime half(1, 2);
  const ScoreTime size = alter < ScoreTime(0) ? ScoreTime(0) - alter : alter;
  int whole = static_cast<int>(size.numerator() / size.denominator());
  if (size - ScoreTime(whole) > half) ++whole;
  return alter < ScoreTime(0) ? -whole : whole;
}

std::optional<Spelling> read_pitch(const pugi::xml_node& pitch, Findings& findings) {
  const ScoreTime most_signs(3);
  const std::string_view step = text_of(pitch.child("step"));
  const std::optional<int> octave = parse_whole(text_of(pitch.child("octave")), 0, 9);
  const pugi::xml_node sign = pitch.child("alter");
  const std::optional<ScoreTime> alter = sign ? parse_decimal(text_of(sign)) : ScoreTime(0);
  if (step.size() != 1 || step.front() < 'A' || step.front() > 'G') {
    findings.fault("step " + short_quote(step) + " is not one of A to G");
    return std::nullopt;
  }
  if (!octave) {
    findings.fault("octave " + short_quote(text_of(pitch.child("octave"))) + " is not a whole number from 0 to 9");
    return std::nullopt;
  }
  if (!alter || *alter > most_signs || *alter < ScoreTime(0) - most_signs) {
    findings.fault("alter " + short_quote(text_of(sign)) + " is not a number from -3 to 3");
    return std::nullopt;
  }
  const Spelling spelling{step.front(), nearest_alteration(*alter), *octave};
  if (alter->denominator() != 1) {
    findings.remark("a note between two semitones is planned as the nearest one, " + name(spelling));
  }
  return spelling;
}

/// Walks through one part, measure by measure.
class LineReader {
 public:
  LineReader(const VoiceChoice& choice, Findings& findings) : choice_(choice), findings_(findings) {}

  Line read(const pugi::xml_node& part);

 private:
  void read_measure(const pugi::xml_node& measure);
  void read_element(const pugi::xml_node& element);
  void read_note(const pugi::xml_node& note);
  void add_note(const pugi::xml_node& note, ScoreTime onset, ScoreTime length);
  void read_direction(const pugi::xml_node& direction);
  void read_sound(const pugi::xml_node& sound);
  void add_tempo(ScoreTime at, Qpm tempo, TempoSource source);
  [[nodiscard]] ScoreTime duration_of(const pugi::xml_node& node);
  [[nodiscard]] ScoreTime offset_in(const pugi::xml_node& node);
  void move(ScoreTime by);
  void close_measure();
  void tell_what_was_left_out();

  const VoiceChoice& choice_;
  Findings& findings_;
  Line line_;
  Attributes attributes_;
  ScoreTime measure_start_;
  ScoreTime position_;
  ScoreTime furthest_;
  std::uint32_t element_ = 0;
  bool cues_ = false;
  bool repeats_ = false;
  std::map<std::string, std::size_t, std::less<>> other_voices_;
};

Line LineReader::read(const pugi::xml_node& part) {
  try {
    for (const pugi::xml_node measure : part.children("measure")) read_measure(measure);
  } catch (const std::overflow_error&) {
    findings_.fault("its times cannot be told as fractions of a quarter note",
                    "use one value of divisions in the part");
  }
  findings_.at_part();
  tell_what_was_left_out();
  std::ranges::stable_sort(line_.notes, {}, &LineNote::onset);
  std::ranges::stable_sort(line_.dynamics, {}, &DynamicChange::at);
  line_.transposition = attributes_.transposition.value_or(Transposition{});
  return std::move(line_);
}

void LineReader::read_measure(const pugi::xml_node& measure) {
  const pugi::xml_attribute text = measure.attribute("text");
  std::string name = clean_text((text ? text : measure.attribute("number")).value());
  if (name.empty()) name = std::to_string(line_.measures.size() + 1);
  findings_.at_measure(name);
  line_.measures.push_back({std::move(name), measure_start_, {}, 4, 4, 0});
  position_ = furthest_ = measure_start_;
  for (pugi::xml_node element = measure.first_child(); element; element = element.next_sibling()) {
    read_element(element);
  }
  close_measure();
}

void LineReader::close_measure() {
  Measure& measure = line_.measures.back();
  // A measure without content stands for a full one of silence.
  if (furthest_ == measure_start_) furthest_ = measure_start_ + full_measure(attributes_);
  measure.length = furthest_ - measure_start_;
  measure.beats = attributes_.beats;
  measure.beat_type = attributes_.beat_type;
  measure.key_fifths = attributes_.key_fifths;
  measure_start_ = furthest_;
}

void LineReader::read_element(const pugi::xml_node& element) {
  const std::string_view word = element.name();
  if (word == "note") {
    read_note(element);
  } else if (word == "backup") {
    move(ScoreTime(0) - duration_of(element));
  } else if (word == "forward") {
    move(duration_of(element));
  } else if (word == "attributes") {
    read_attributes(element, choice_.staff, attributes_, findings_);
  } else if (word == "direction") {
    read_direction(element);
  } else if (word == "sound") {
    read_sound(element);
  } else if (word == "barline" && (element.child("repeat") || element.child("ending"))) {
    repeats_ = true;
  }
}

void LineReader::move(ScoreTime by) {
  position_ += by;
  if (position_ < measure_start_) {
    findings_.fault("a backup leads to before the measure starts");
    position_ = measure_start_;
  }
  furthest_ = std::max(furthest_, position_);
}

ScoreTime LineReader::duration_of(const pugi::xml_node& node) {
  const ScoreTime most(10'000);
  const std::string_view text = text_of(node.child("duration"));
  const std::optional<ScoreTime> units = parse_decimal(text);
  if (!units || *units < ScoreTime(0)) {
    findings_.fault("duration " + short_quote(text) + " is not a number above 0");
    return ScoreTime(0);
  }
  if (!attributes_.divisions) {
    findings_.fault("a duration before any divisions");
    attributes_.divisions = ScoreTime(1);
  }
  const ScoreTime length = *units / *attributes_.divisions;
  if (length <= most) return length;
  findings_.fault("duration " + short_quote(text) + " is longer than 10000 quarter notes");
  return ScoreTime(0);
}

ScoreTime LineReader::offset_in(const pugi::xml_node& node) {
  const std::optional<ScoreTime> units = parse_decimal(text_of(node.child("offset")));
  if (!units || !attributes_.divisions) return ScoreTime(0);
  return *units / *attributes_.divisions;
}

void LineReader::read_note(const pugi::xml_node& note) {
  const bool grace = static_cast<bool>(note.child("grace"));
  const bool chord = static_cast<bool>(note.child("chord"));
  const ScoreTime onset = position_;
  const ScoreTime length = grace || chord ? ScoreTime(0) : duration_of(note);
  move(length);
  const std::string_view voice = voice_of(note);
  if (voice != choice_.voice) {
    if (!note.child("rest")) ++other_voices_.try_emplace(std::string(voice)).first->second;
  } else if (note.child("cue")) {
    cues_ = true;
  } else if (chord) {
    std::string what = "a chord";
    if (!line_.notes.empty() && !line_.notes.back().rest) what += " above " + name(line_.notes.back().spelling);
    findings_.fault(what + ": a woodwind plays one note at a time", "give each line a voice or part of its own");
  } else {
    add_note(note, onset, length);
  }
  ++element_;
}

void LineReader::add_note(const pugi::xml_node& note, ScoreTime onset, ScoreTime length) {
  LineNote line_note;
  line_note.onset = onset;
  line_note.length = length;
  line_note.measure = static_cast<std::uint32_t>(line_.measures.size() - 1);
  line_note.element = element_;
  line_note.key_fifths = attributes_.key_fifths;
  line_note.rest = static_cast<bool>(note.child("rest"));
  if (const pugi::xml_node grace = note.child("grace")) {
    line_note.grace = true;
    line_note.steals_from_before = grace.attribute("steal-time-previous") && !grace.attribute("steal-time-following");
  }
  if (note.child("unpitched")) {
    findings_.fault("a note without pitch: percussion has no fingerings", "choose another part or voice");
    return;
  }
  if (!line_note.rest) {
    const std::optional<Spelling> spelling = read_pitch(note.child("pitch"), findings_);
    if (!spelling) return;
    line_note.spelling = *spelling;
    if (!line_note.grace && length.is_zero()) findings_.fault("a note that lasts no time");
  }
  line_note.marks = note_marks(note, findings_);
  // A grace rest takes no time and says nothing.
  if (!line_note.rest || !line_note.grace) line_.notes.push_back(std::move(line_note));
}

void LineReader::read_direction(const pugi::xml_node& direction) {
  // The offset of a direction moves only the print, unless it says that it moves the sound.
  const pugi::xml_node offset = direction.child("offset");
  const bool sounds = std::string_view(offset.attribute("sound").value()) == "yes";
  const ScoreTime at = sounds ? position_ + offset_in(direction) : position_;
  const DirectionMarks marks = direction_marks(direction, findings_);
  if (marks.tempo) add_tempo(at, marks.tempo->tempo, marks.tempo->source);
  const pugi::xml_node staff = direction.child("staff");
  const pugi::xml_node voice = direction.child("voice");
  const bool elsewhere =
      (staff && staff_of(direction) != choice_.staff) || (voice && voice_of(direction) != choice_.voice);
  if (marks.dynamic && !elsewhere) line_.dynamics.push_back({at, *marks.dynamic});
}

void LineReader::read_sound(const pugi::xml_node& sound) {
  if (const std::optional<Qpm> tempo = sound_tempo(sound, findings_)) {
    add_tempo(position_ + offset_in(sound), *tempo, TempoSource::sound_element);
  }
}

void LineReader::add_tempo(ScoreTime at, Qpm tempo, TempoSource source) {
  const auto measure = static_cast<std::uint32_t>(line_.measures.size() - 1);
  line_.tempos.push_back({measure, at - measure_start_, tempo, source});
}

void LineReader::tell_what_was_left_out() {
  if (cues_) findings_.remark("cue notes are not planned");
  if (repeats_) findings_.remark("repeats are read once, as written");
  for (const auto& [voice, notes] : other_voices_) {
    findings_.remark("voice " + short_quote(voice) + " is not read (" + std::to_string(notes) + " notes)");
  }
}

}  // namespace

std::optional<VoiceChoice> choose_voice(const pugi::xml_node& part, const std::string& voice) {
  for (const pugi::xml_node measure : part.children("measure")) {
    for (const pugi::xml_node note : measure.children("note")) {
      const std::string_view own = voice_of(note);
      const bool chosen = voice.empty() ? static_cast<bool>(note.child("pitch")) && !note.child("cue") : own == voice;
      if (chosen) return VoiceChoice{std::string(own), staff_of(note)};
    }
  }
  if (voice.empty()) return VoiceChoice{"1", 1};
  return std::nullopt;
}

std::string voices_of(const pugi::xml_node& part) {
  constexpr std::size_t most_listed = 20;
  std::map<std::string, std::size_t, std::less<>> voices;
  for (const pugi::xml_node measure : part.children("measure")) {
    for (const pugi::xml_node note : measure.children("note")) {
      if (note.child("pitch")) ++voices.try_emplace(std::string(voice_of(note))).first->second;
    }
  }
  std::string list;
  std::size_t listed = 0;
  for (const auto& [voice, notes] : voices) {
    if (++listed > most_listed) return list + ", ...";
    if (!list.empty()) list += ", ";
    list += clean_text(voice) + " (" + std::to_string(notes) + " notes)";
  }
  return list;
}

Line read_line(const pugi::xml_node& part, const VoiceChoice& choice, Findings& findings) {
  return LineReader(choice, findings).read(part);
}

}  // namespace fingerway
