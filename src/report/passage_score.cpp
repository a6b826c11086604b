#include "passage_score.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <map>
#include <optional>
#include <pugixml.hpp>
#include <sstream>
#include <utility>

#include "words.hpp"

namespace fingerway {
namespace {

/// A quarter in the units of <duration>; the shortest note sign is a thirty-second.
constexpr std::int64_t divisions = 8;

struct Sign {
  std::int64_t length;
  const char* type;
  bool dotted;
};
constexpr std::array<Sign, 9> signs = {{{32, "whole", false},
                                        {24, "half", true},
                                        {16, "half", false},
                                        {12, "quarter", true},
                                        {8, "quarter", false},
                                        {6, "eighth", true},
                                        {4, "eighth", false},
                                        {3, "16th", true},
                                        {2, "16th", false}}};

std::int64_t in_divisions(ScoreTime time) {
  const ScoreTime scaled = time * ScoreTime(divisions);
  assert(scaled.denominator() == 1);
  return scaled.numerator();
}

const Sign* sign_for(std::int64_t length) {
  for (const Sign& sign : signs) {
    if (sign.length == length) return &sign;
  }
  return nullptr;
}

/// Sharps or flats that a key signature puts on a step.
int key_alter(char step, int fifths) {
  constexpr std::string_view sharps = "FCGDAEB";
  const auto place = static_cast<int>(sharps.find(step));
  if (fifths > 0) return place < fifths ? 1 : 0;
  return 6 - place < -fifths ? -1 : 0;
}

const char* accidental_name(int alter) {
  constexpr std::array<const char*, 5> names = {"flat-flat", "flat", "natural", "sharp", "double-sharp"};
  constexpr int natural = 2;
  const auto place = alter + natural;
  return names[static_cast<std::size_t>(place)];
}

void add_text(pugi::xml_node parent, const char* name, const std::string& text) {
  parent.append_child(name).text().set(text.c_str());
}
void add_number(pugi::xml_node parent, const char* name, std::int64_t number) {
  parent.append_child(name).text().set(static_cast<long long>(number));
}

class ScoreWriter {
 public:
  ScoreWriter(const Passage& passage, const std::vector<BarWords>& words) : passage_(passage), words_(words) {}

  PassageScore write() {
    add_head();
    pugi::xml_node part = score_.append_child("part");
    part.append_attribute("id").set_value(passage_.part_id.c_str());
    std::size_t note = 0;
    for (std::size_t m = 0; m < passage_.measures.size(); ++m) {
      pugi::xml_node bar = part.append_child("measure");
      bar.append_attribute("number").set_value(passage_.measures[m].name.c_str());
      break_line(bar, m);
      add_attributes(bar, m);
      add_directions(bar, m);
      altered_.clear();
      note = add_notes(bar, m, note);
      if (m + 1 == passage_.measures.size()) {
        pugi::xml_node line = bar.append_child("barline");
        line.append_attribute("location").set_value("right");
        add_text(line, "bar-style", "light-heavy");
      }
    }
    std::ostringstream out;
    document_.save(out, " ", pugi::format_default, pugi::encoding_utf8);
    result_.text = out.str();
    return std::move(result_);
  }

 private:
  void add_head() {
    pugi::xml_node declaration = document_.append_child(pugi::node_declaration);
    declaration.append_attribute("version").set_value("1.0");
    declaration.append_attribute("encoding").set_value("UTF-8");
    document_.append_child(pugi::node_doctype)
        .set_value(
            "score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" "
            "\"http://www.musicxml.org/dtds/partwise.dtd\"");
    score_ = document_.append_child("score-partwise");
    score_.append_attribute("version").set_value("4.0");
    add_text(score_.append_child("work"), "work-title", passage_.title);
    add_text(score_.append_child("identification").append_child("encoding"), "software", "Fingerway");
    pugi::xml_node part = score_.append_child("part-list").append_child("score-part");
    part.append_attribute("id").set_value(passage_.part_id.c_str());
    add_text(part, "part-name", passage_.part_name);
  }

  [[nodiscard]] bool low() const {
    std::int64_t sum = 0;
    for (const NoteEvent& note : passage_.notes) sum += note.pitch.key;
    constexpr std::int64_t middle_c = 60;
    return !passage_.notes.empty() && sum < middle_c * static_cast<std::int64_t>(passage_.notes.size());
  }

  /// What is said over a bar has room at the start of a line; no line holds more than four bars.
  void break_line(pugi::xml_node bar, std::size_t m) {
    constexpr std::size_t longest_line = 4;
    const bool said = std::ranges::find(words_, m, &BarWords::measure) != words_.end();
    if (m == 0 || (!said && m - line_start_ < longest_line)) return;
    line_start_ = m;
    bar.append_child("print").append_attribute("new-system").set_value("yes");
  }

  void add_attributes(pugi::xml_node bar, std::size_t m) {
    const Measure& measure = passage_.measures[m];
    const bool first = m == 0;
    const bool new_key = first || measure.key_fifths != passage_.measures[m - 1].key_fifths;
    if (!new_key) return;
    pugi::xml_node attributes = bar.append_child("attributes");
    if (first) add_number(attributes, "divisions", divisions);
    add_number(attributes.append_child("key"), "fifths", measure.key_fifths);
    if (!first) return;
    pugi::xml_node time = attributes.append_child("time");
    add_number(time, "beats", measure.beats);
    add_number(time, "beat-type", measure.beat_type);
    pugi::xml_node clef = attributes.append_child("clef");
    add_text(clef, "sign", low() ? "F" : "G");
    add_number(clef, "line", low() ? 4 : 2);
    add_transposition(attributes);
  }

  void add_transposition(pugi::xml_node attributes) {
    const int interval = passage_.transposition.interval.count;
    if (interval == 0) return;
    constexpr std::array<int, 12> diatonic = {0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6};
    const int chromatic = interval % 12;
    const int steps = diatonic[static_cast<std::size_t>(std::abs(chromatic))];
    pugi::xml_node transpose = attributes.append_child("transpose");
    add_number(transpose, "diatonic", chromatic < 0 ? -steps : steps);
    add_number(transpose, "chromatic", chromatic);
    if (interval / 12 != 0) add_number(transpose, "octave-change", interval / 12);
  }

  void add_directions(pugi::xml_node bar, std::size_t m) {
    for (const BarWords& words : words_) {
      if (words.measure != m) continue;
      pugi::xml_node direction = bar.append_child("direction");
      direction.append_attribute("placement").set_value("above");
      add_text(direction.append_child("direction-type"), "words", words.text);
    }
    for (const TempoChange& change : passage_.tempo.changes()) {
      if (change.at != passage_.measures[m].start || change.source == TempoSource::assumed) continue;
      pugi::xml_node direction = bar.append_child("direction");
      direction.append_attribute("placement").set_value("above");
      pugi::xml_node metronome = direction.append_child("direction-type").append_child("metronome");
      add_text(metronome, "beat-unit", "quarter");
      const std::string tempo = rounded(change.tempo.value(), 0);
      add_text(metronome, "per-minute", tempo);
      direction.append_child("sound").append_attribute("tempo").set_value(tempo.c_str());
    }
  }

  std::size_t add_notes(pugi::xml_node bar, std::size_t m, std::size_t note) {
    const Measure& measure = passage_.measures[m];
    ScoreTime at = measure.start;
    for (; note < passage_.notes.size() && passage_.notes[note].place.measure == m; ++note) {
      add_rests(bar, in_divisions(passage_.notes[note].onset - at));
      add_note(bar, note);
      at = passage_.notes[note].onset + passage_.notes[note].length;
    }
    add_rests(bar, in_divisions(measure.start + measure.length - at));
    return note;
  }

  /// Short rests first, so that what follows stands on the beat.
  void add_rests(pugi::xml_node bar, std::int64_t length) {
    std::vector<const Sign*> rests;
    for (const Sign& sign : signs) {
      while (!sign.dotted && length >= sign.length) {
        rests.push_back(&sign);
        length -= sign.length;
      }
    }
    for (auto rest = rests.rbegin(); rest != rests.rend(); ++rest) {
      pugi::xml_node node = next_note(bar);
      node.append_child("rest");
      finish_note(node, **rest);
    }
  }

  void add_note(pugi::xml_node bar, std::size_t index) {
    const NoteEvent& note = passage_.notes[index];
    const Sign* sign = sign_for(in_divisions(note.length));
    assert(sign != nullptr);
    result_.elements.push_back(element_);
    pugi::xml_node node = next_note(bar);
    pugi::xml_node pitch = node.append_child("pitch");
    add_text(pitch, "step", std::string(1, note.spelling.step));
    if (note.spelling.alter != 0) add_number(pitch, "alter", note.spelling.alter);
    add_number(pitch, "octave", note.spelling.octave);
    finish_note(node, *sign);
    add_accidental(node, note);
    add_beams(node, index);
    add_slurs(node, index);
  }

  pugi::xml_node next_note(pugi::xml_node bar) {
    ++element_;
    return bar.append_child("note");
  }

  static void finish_note(pugi::xml_node node, const Sign& sign) {
    add_number(node, "duration", sign.length);
    add_text(node, "voice", "1");
    add_text(node, "type", sign.type);
    if (sign.dotted) node.append_child("dot");
  }

  void add_accidental(pugi::xml_node node, const NoteEvent& note) {
    const Spelling& spelling = note.spelling;
    const int fifths = passage_.measures[note.place.measure].key_fifths;
    const auto [entry, is_new] =
        altered_.try_emplace({spelling.step, spelling.octave}, key_alter(spelling.step, fifths));
    if (entry->second != spelling.alter) add_text(node, "accidental", accidental_name(spelling.alter));
    entry->second = spelling.alter;
  }

  /// The beat of the bar that a note lies in, counted from 0; nothing for notes that have no beam.
  [[nodiscard]] std::optional<std::int64_t> beamed_beat(std::size_t index) const {
    const NoteEvent& note = passage_.notes[index];
    if (note.length >= ScoreTime(1)) return std::nullopt;
    return in_divisions(note.onset - passage_.measures[note.place.measure].start) / divisions;
  }

  [[nodiscard]] bool beamed_together(std::size_t a, std::size_t b) const {
    if (b >= passage_.notes.size() || passage_.notes[a].place.measure != passage_.notes[b].place.measure) return false;
    return beamed_beat(a) && beamed_beat(a) == beamed_beat(b);
  }

  /// Notes of one beat are beamed; a sixteenth beside a longer note has a hook towards it.
  void add_beams(pugi::xml_node node, std::size_t index) {
    const bool from_before = index > 0 && beamed_together(index - 1, index);
    const bool to_next = beamed_together(index, index + 1);
    if (!from_before && !to_next) return;
    const auto beam = [&](int number, const char* what) {
      add_text(node, "beam", what);
      node.last_child().append_attribute("number").set_value(number);
    };
    beam(1, !from_before ? "begin" : to_next ? "continue" : "end");
    if (passage_.notes[index].length >= ScoreTime(1, 2)) return;
    beam(2, from_before ? "backward hook" : "forward hook");
  }

  void add_slurs(pugi::xml_node node, std::size_t index) {
    const bool from_before = passage_.notes[index].attack == Attack::slurred;
    const bool to_next = index + 1 < passage_.notes.size() && passage_.notes[index + 1].attack == Attack::slurred;
    if (from_before == to_next) return;
    pugi::xml_node slur = node.append_child("notations").append_child("slur");
    slur.append_attribute("type").set_value(to_next ? "start" : "stop");
    slur.append_attribute("number").set_value(1);
  }

  const Passage& passage_;
  const std::vector<BarWords>& words_;
  pugi::xml_document document_;
  pugi::xml_node score_;
  PassageScore result_;
  std::uint32_t element_ = 0;
  std::size_t line_start_ = 0;
  std::map<std::pair<char, int>, int> altered_;
};

}  // namespace

PassageScore passage_score(const Passage& passage, const std::vector<BarWords>& words) {
  return ScoreWriter(passage, words).write();
}

}  // namespace fingerway
