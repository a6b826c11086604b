#include "musicxml_line.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <pugixml.hpp>
#include <stdexcept>
#include <string_view>

#include "musicxml_attributes.hpp"
#include "musicxml_left_out.hpp"
#include "musicxml_pitch.hpp"
#include "musicxml_text.hpp"

namespace fingerway {

namespace {

constexpr unsigned slur_numbers = 17;  // 1 to 16; 0 stays unused

/// The accidentals that hold in a measure: what the last note of each line or space was.
class MeasureAccidentals {
 public:
  void clear() { alterations_.fill(std::nullopt); }
  void note(const Spelling& spelling) { at(spelling.step, spelling.octave) = spelling.alter; }
  [[nodiscard]] std::optional<int> above(const Spelling& main) {
    return main.step == 'B' ? at('C', main.octave + 1) : at(main.step == 'G' ? 'A' : after(main.step, 1), main.octave);
  }
  [[nodiscard]] std::optional<int> below(const Spelling& main) {
    return main.step == 'C' ? at('B', main.octave - 1) : at(main.step == 'A' ? 'G' : after(main.step, -1), main.octave);
  }

 private:
  static char after(char step, int by) { return static_cast<char>(step + by); }
  // Octaves -1 to 10 of seven steps.
  std::optional<int>& at(char step, int octave) {
    return alterations_[static_cast<std::size_t>((octave + 1) * 7 + (step - 'A'))];
  }
  std::array<std::optional<int>, 12 * 7> alterations_;
};

/// Slurs of voices that are not read: what has no other end in its own voice may have it in ours.
class OtherSlurs {
 public:
  void read(const pugi::xml_node& note, std::string_view voice, ScoreTime at) {
    for (const pugi::xml_node notations : note.children("notations")) {
      for (const pugi::xml_node slur : notations.children("slur")) {
        const std::optional<int> number = parse_whole(slur.attribute("number").as_string("1"), 1, slur_numbers - 1);
        const std::string_view type = slur.attribute("type").value();
        if (number && (type == "start" || type == "stop")) {
          add(voice, static_cast<unsigned>(*number), type == "start", at);
        }
      }
    }
  }

  std::vector<StraySlur> strays() {
    for (const auto& [voice, open] : open_) {
      for (unsigned number = 1; number < slur_numbers; ++number) {
        if (open[number]) strays_.push_back({*open[number], number, true});
      }
    }
    std::ranges::stable_sort(strays_, {}, &StraySlur::at);
    return std::move(strays_);
  }

 private:
  void add(std::string_view voice, unsigned number, bool starts, ScoreTime at) {
    auto known = open_.find(voice);
    if (known == open_.end()) known = open_.emplace(std::string(voice), decltype(open_)::mapped_type{}).first;
    std::optional<ScoreTime>& open = known->second[number];
    if (starts) {
      if (open) strays_.push_back({*open, number, true});
      open = at;
    } else {
      if (!open) strays_.push_back({at, number, false});
      open.reset();
    }
  }

  std::map<std::string, std::array<std::optional<ScoreTime>, slur_numbers>, std::less<>> open_;
  std::vector<StraySlur> strays_;
};

/// Walks through one part, measure by measure.
class LineReader {
 public:
  LineReader(const LineRequest& request, Findings& findings)
      : choice_(request.voice), divisi_(request.divisi), findings_(findings) {}

  Line read(const ScorePart& part);

 private:
  void read_measure(const pugi::xml_node& head, const pugi::xml_node& content);
  void read_element(const pugi::xml_node& element);
  void read_note(const pugi::xml_node& note);
  void read_chord_note(const pugi::xml_node& note);
  void add_note(const pugi::xml_node& note, ScoreTime onset, ScoreTime length);
  void check_tuplet(const pugi::xml_node& note);
  void read_direction(const pugi::xml_node& direction);
  void read_sound(const pugi::xml_node& sound);
  void add_tempo(ScoreTime at, const TempoMark& mark);
  [[nodiscard]] ScoreTime duration_of(const pugi::xml_node& node);
  [[nodiscard]] ScoreTime offset_in(const pugi::xml_node& node);
  void move(ScoreTime by);
  void close_measure();

  const VoiceChoice& choice_;
  Divisi divisi_;
  Findings& findings_;
  Line line_;
  Attributes attributes_;
  ScoreTime measure_start_;
  ScoreTime position_;
  ScoreTime furthest_;
  std::uint32_t element_ = 0;
  std::size_t first_of_measure_ = 0;
  std::string voice_;   // of the last note that is not in a chord with one before
  bool added_ = false;  // that note is the last of the line
  MeasureAccidentals accidentals_;
  OtherSlurs other_slurs_;
  LeftOut left_out_;
};

Line LineReader::read(const ScorePart& part) {
  try {
    for (std::size_t i = 0; i < part.heads.size(); ++i) read_measure(part.heads[i], part.contents[i]);
  } catch (const std::overflow_error&) {
    findings_.fault("its times cannot be told as fractions of a quarter note",
                    "use one value of divisions in the part");
  }
  findings_.at_part();
  left_out_.tell(choice_, divisi_, findings_);
  std::ranges::stable_sort(line_.dynamics, {}, &DynamicChange::at);
  std::ranges::stable_sort(line_.wedges, {}, &WedgeAt::at);
  line_.stray_slurs = other_slurs_.strays();
  line_.transposition = attributes_.transposition.value_or(Transposition{});
  line_.transposed_part = attributes_.transposed_part;
  return std::move(line_);
}

void LineReader::read_measure(const pugi::xml_node& head, const pugi::xml_node& content) {
  const pugi::xml_attribute text = head.attribute("text");
  std::string name = clean_text((text ? text : head.attribute("number")).value());
  if (name.empty()) name = std::to_string(line_.measures.size() + 1);
  findings_.at_measure(name);
  line_.measures.push_back({std::move(name), measure_start_, {}, 4, 4, 0});
  position_ = furthest_ = measure_start_;
  first_of_measure_ = line_.notes.size();
  added_ = false;
  accidentals_.clear();
  for (pugi::xml_node element = content.first_child(); element; element = element.next_sibling()) {
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
  const auto first = line_.notes.begin() + static_cast<std::ptrdiff_t>(first_of_measure_);
  std::stable_sort(first, line_.notes.end(), [](const LineNote& a, const LineNote& b) { return a.onset < b.onset; });
  left_out_.close_measure(measure.name);
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
  }
}

void LineReader::move(ScoreTime by) {
  if (by.is_zero()) return;
  position_ += by;
  if (position_ < measure_start_) {
    findings_.fault("a backup leads to before the measure starts", "export the score again");
    position_ = measure_start_;
  }
  furthest_ = std::max(furthest_, position_);
}

ScoreTime LineReader::duration_of(const pugi::xml_node& node) {
  const ScoreTime most(10'000);
  const std::string_view text = text_of(node.child("duration"));
  const std::optional<ScoreTime> units = parse_decimal(text);
  if (!units || *units < ScoreTime(0)) {
    findings_.fault("duration " + short_quote(text) + " is negative or no number", "export the score again");
    return ScoreTime(0);
  }
  if (!attributes_.divisions) {
    findings_.fault("a duration before any divisions", "export the score again");
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
  // A note of a chord stands in the voice of the note it is put above.
  if (!chord || voice_.empty() || note.child("voice")) voice_ = voice_of(note);
  const bool rest = static_cast<bool>(note.child("rest"));
  const int staff = staff_of(note);
  if (voice_ != choice_.voice || (choice_.only_this_staff && staff != choice_.staff)) {
    if (!rest && !note.child("cue")) left_out_.other_line(voice_, staff, choice_);
    other_slurs_.read(note, voice_, onset);
    if (!chord) added_ = false;
  } else if (note.child("cue")) {
    if (!rest) left_out_.cue_note();
    if (!chord) added_ = false;
  } else if (is_hidden(note) && !rest) {
    left_out_.hidden_note();
    if (!chord) added_ = false;
  } else if (chord) {
    read_chord_note(note);
  } else {
    check_tuplet(note);
    const std::size_t before = line_.notes.size();
    add_note(note, onset, length);
    added_ = line_.notes.size() > before && !rest;
    if (added_) left_out_.own_note();
  }
  ++element_;
}

void LineReader::read_chord_note(const pugi::xml_node& note) {
  if (divisi_ == Divisi::refuse || !added_) {
    std::string what = "a chord";
    if (added_) what += " above " + name(line_.notes.back().spelling);
    findings_.fault(what + ": a woodwind plays one note at a time",
                    "choose its top or bottom notes, or give each line a voice or part of its own");
    return;
  }
  left_out_.chord_note();
  LineNote& chord = line_.notes.back();
  const std::optional<Spelling> spelling = read_pitch(note.child("pitch"), findings_);
  if (!spelling) return;
  NoteMarks marks = note_marks(note, findings_);
  // Slurs and signs stand at any note of a chord and hold for all of it; ties lead from note to note.
  chord.marks.slur_starts |= marks.slur_starts;
  chord.marks.slur_stops |= marks.slur_stops;
  const bool higher = written(chord.spelling) < written(*spelling);
  if (higher != (divisi_ == Divisi::top)) return;
  chord.spelling = *spelling;
  chord.element = element_;
  chord.marks.tied_onward = marks.tied_onward;
  chord.marks.tied_from_before = marks.tied_from_before;
  if (!marks.marked.empty()) chord.marks.marked = std::move(marks.marked);
}

void LineReader::check_tuplet(const pugi::xml_node& note) {
  const pugi::xml_node ratio = note.child("time-modification");
  if (!ratio) return;
  constexpr int most = 1000;
  const std::string_view actual = text_of(ratio.child("actual-notes"));
  const std::string_view normal = text_of(ratio.child("normal-notes"));
  if (parse_whole(actual, 1, most) && parse_whole(normal, 1, most)) return;
  findings_.fault("a tuplet of " + short_quote(actual) + " notes in the time of " + short_quote(normal) +
                  " is not one of up to 1000");
}

void LineReader::add_note(const pugi::xml_node& note, ScoreTime onset, ScoreTime length) {
  LineNote line_note;
  line_note.onset = onset;
  line_note.length = length;
  line_note.measure = static_cast<std::uint32_t>(line_.measures.size() - 1);
  line_note.element = element_;
  line_note.staff = staff_of(note);
  line_note.key_fifths = attributes_.key_fifths;
  line_note.rest = static_cast<bool>(note.child("rest"));
  if (const pugi::xml_node grace = note.child("grace")) {
    line_note.grace = true;
    line_note.steals_from_before = grace.attribute("steal-time-previous") && !grace.attribute("steal-time-following");
    const bool slashed = std::string_view(grace.attribute("slash").value()) == "yes";
    if (!slashed) line_note.grace_value = note_value(text_of(note.child("type")));
  }
  if (note.child("unpitched")) {
    findings_.fault("a note without pitch: percussion has no fingerings", "choose another part or voice");
    return;
  }
  if (!line_note.rest) {
    const std::optional<Spelling> spelling = read_pitch(note.child("pitch"), findings_);
    if (!spelling) return;
    line_note.spelling = *spelling;
    line_note.above_here = accidentals_.above(*spelling);
    line_note.below_here = accidentals_.below(*spelling);
    accidentals_.note(*spelling);
    if (!line_note.grace && length.is_zero())
      findings_.fault("a note that lasts no time", "give it a length, or mark it as a grace note");
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
  if (marks.tempo) add_tempo(at, *marks.tempo);
  const pugi::xml_node staff = direction.child("staff");
  const pugi::xml_node voice = direction.child("voice");
  const bool elsewhere =
      (staff && staff_of(direction) != choice_.staff) || (voice && voice_of(direction) != choice_.voice);
  if (elsewhere) return;
  if (marks.dynamic) line_.dynamics.push_back({at, *marks.dynamic});
  for (const Wedge& wedge : marks.wedges) line_.wedges.push_back({at, wedge});
}

void LineReader::read_sound(const pugi::xml_node& sound) {
  if (const std::optional<Qpm> tempo = sound_tempo(sound, findings_)) {
    add_tempo(position_ + offset_in(sound), {*tempo, TempoSource::sound_element, std::nullopt});
  }
}

void LineReader::add_tempo(ScoreTime at, const TempoMark& mark) {
  const auto measure = static_cast<std::uint32_t>(line_.measures.size() - 1);
  line_.tempos.push_back({measure, at - measure_start_, mark});
}

}  // namespace

Line read_line(const ScorePart& part, const LineRequest& request, Findings& findings) {
  return LineReader(request, findings).read(part);
}

bool staves_clash(const Line& line) {
  // Rests do not clash; of notes, only neighbours in time can.
  const LineNote* before = nullptr;
  for (const LineNote& note : line.notes) {
    if (note.rest || note.grace) continue;
    const bool at_once = before != nullptr && note.onset < before->onset + before->length;
    if (at_once && note.staff != before->staff) return true;
    before = &note;
  }
  return false;
}

}  // namespace fingerway
