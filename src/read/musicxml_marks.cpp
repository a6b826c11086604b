#include "musicxml_marks.hpp"

#include <algorithm>
#include <array>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <utility>

#include "musicxml_text.hpp"

namespace fingerway {

namespace {

constexpr int most_slurs = 16;  // MusicXML 4.0, type number-level

template <class Value, std::size_t n>
std::optional<Value> look_up(const std::array<std::pair<std::string_view, Value>, n>& table, std::string_view word) {
  const auto row = std::ranges::find(table, word, &std::pair<std::string_view, Value>::first);
  return row == table.end() ? std::nullopt : std::optional<Value>(row->second);
}

/// Alterations named by accidental signs; others (quarter tones) are not read.
std::optional<int> alteration_named(std::string_view word) {
  constexpr std::array<std::pair<std::string_view, int>, 9> signs = {{{"natural", 0},
                                                                      {"sharp", 1},
                                                                      {"flat", -1},
                                                                      {"double-sharp", 2},
                                                                      {"sharp-sharp", 2},
                                                                      {"flat-flat", -2},
                                                                      {"double-flat", -2},
                                                                      {"natural-sharp", 1},
                                                                      {"natural-flat", -1}}};
  return look_up(signs, word);
}

/// Loudness that stays in force after a sign. An accent such as sf says nothing about the notes after it.
std::optional<Dynamic> dynamic_named(std::string_view word) {
  constexpr std::array<std::pair<std::string_view, Dynamic>, 20> signs = {{
      {"ppp", Dynamic::ppp},   {"pp", Dynamic::pp},      {"p", Dynamic::p},        {"mp", Dynamic::mp},
      {"mf", Dynamic::mf},     {"f", Dynamic::f},        {"ff", Dynamic::ff},      {"fff", Dynamic::fff},
      {"pppp", Dynamic::ppp},  {"ppppp", Dynamic::ppp},  {"pppppp", Dynamic::ppp}, {"ffff", Dynamic::fff},
      {"fffff", Dynamic::fff}, {"ffffff", Dynamic::fff}, {"n", Dynamic::ppp},      {"fp", Dynamic::p},
      {"sfp", Dynamic::p},     {"sfpp", Dynamic::pp},    {"pf", Dynamic::f},       {"sfzp", Dynamic::p},
  }};
  return look_up(signs, word);
}

std::optional<Dynamic> dynamic_of(const pugi::xml_node& dynamics) {
  std::optional<Dynamic> dynamic;
  for (const pugi::xml_node sign : dynamics.children()) {
    if (const std::optional<Dynamic> named = dynamic_named(sign.name())) dynamic = named;
  }
  return dynamic;
}

void read_slur(const pugi::xml_node& slur, NoteMarks& marks, Findings& findings) {
  const std::string_view type = slur.attribute("type").value();
  const std::optional<int> number = parse_whole(slur.attribute("number").as_string("1"), 1, most_slurs);
  if (!number) {
    findings.fault("slur number " + short_quote(slur.attribute("number").value()) + " is not a number from 1 to 16");
    return;
  }
  const std::uint32_t bit = std::uint32_t{1} << static_cast<unsigned>(*number);
  if (type == "start") marks.slur_starts |= bit;
  if (type == "stop") marks.slur_stops |= bit;
}

void read_tied(std::string_view type, NoteMarks& marks) {
  if (type == "start" || type == "continue") marks.tied_onward = true;
  if (type == "stop" || type == "continue") marks.tied_from_before = true;
}

void read_articulations(const pugi::xml_node& articulations, NoteMarks& marks) {
  for (const pugi::xml_node sign : articulations.children()) {
    const std::string_view word = sign.name();
    if (word == "staccato" || word == "staccatissimo" || word == "spiccato") marks.signs.staccato = true;
    if (word == "tenuto") marks.signs.tenuto = true;
    if (word == "detached-legato") marks.signs.staccato = marks.signs.tenuto = true;
    if (word == "accent" || word == "strong-accent") marks.signs.accent = true;
    if (word == "breath-mark" || word == "caesura") marks.signs.breath_after = true;
  }
  // Dots or dashes under a slur are tongued softly by wind players (common practice).
  if (marks.signs.staccato || marks.signs.tenuto) marks.separated = true;
}

void read_technical(const pugi::xml_node& technical, NoteMarks& marks) {
  if (technical.child("double-tongue") || technical.child("triple-tongue")) marks.separated = true;
}

void read_trill_accidental(const pugi::xml_node& mark, NoteMarks& marks, Findings& findings) {
  marks.trill_alter = alteration_named(text_of(mark));
  if (!marks.trill_alter) {
    findings.remark("the accidental " + short_quote(text_of(mark)) +
                    " of a trill is not read: the key signature is followed");
  }
}

void read_tremolo(const pugi::xml_node& tremolo, NoteMarks& marks, Findings& findings) {
  const std::string_view type = tremolo.attribute("type").as_string("single");
  if (type == "start") {
    marks.tremolo = TremoloRole::first;
  } else if (type == "stop") {
    marks.tremolo = TremoloRole::second;
  } else {
    findings.remark("a tremolo on one note is planned as a plain note");
  }
}

void read_ornaments(const pugi::xml_node& ornaments, NoteMarks& marks, Findings& findings) {
  constexpr std::array<std::string_view, 11> not_spelled_out = {"turn",
                                                                "delayed-turn",
                                                                "inverted-turn",
                                                                "delayed-inverted-turn",
                                                                "vertical-turn",
                                                                "inverted-vertical-turn",
                                                                "shake",
                                                                "mordent",
                                                                "inverted-mordent",
                                                                "schleifer",
                                                                "haydn"};
  bool after_trill = false;
  for (const pugi::xml_node sign : ornaments.children()) {
    const std::string_view word = sign.name();
    if (word == "accidental-mark") {
      if (after_trill) read_trill_accidental(sign, marks, findings);
      continue;
    }
    // An accidental belongs to the ornament it follows; the wavy line of a trill may stand between.
    after_trill = word == "trill-mark" || (after_trill && word == "wavy-line");
    if (word == "trill-mark") marks.trill = true;
    if (word == "tremolo") read_tremolo(sign, marks, findings);
    if (std::ranges::find(not_spelled_out, word) != not_spelled_out.end()) {
      findings.remark("an ornament (" + std::string(word) + ") is not spelled out: its note is planned alone");
    }
  }
}

void read_notations(const pugi::xml_node& notations, NoteMarks& marks, Findings& findings) {
  for (const pugi::xml_node sign : notations.children()) {
    const std::string_view word = sign.name();
    if (word == "slur") read_slur(sign, marks, findings);
    if (word == "tied") read_tied(sign.attribute("type").value(), marks);
    if (word == "articulations") read_articulations(sign, marks);
    if (word == "technical") read_technical(sign, marks);
    if (word == "ornaments") read_ornaments(sign, marks, findings);
    if (word == "fermata") marks.signs.fermata = true;
    if (word == "glissando" || word == "slide") findings.remark("a glissando is planned as plain notes");
    if (word == "dynamics") {
      if (const std::optional<Dynamic> dynamic = dynamic_of(sign)) marks.dynamic = dynamic;
    }
  }
  // Some programs hang the accidental of a trill beside the ornament instead of inside.
  const pugi::xml_node beside = notations.child("accidental-mark");
  if (marks.trill && beside && !marks.trill_alter) read_trill_accidental(beside, marks, findings);
}

/// Quarter notes in a note value ("eighth"); nothing for a word that names none.
std::optional<ScoreTime> note_value(std::string_view word) {
  constexpr std::array<std::string_view, 14> values = {"maxima",  "long",   "breve", "whole", "half",
                                                       "quarter", "eighth", "16th",  "32nd",  "64th",
                                                       "128th",   "256th",  "512th", "1024th"};
  const auto place = std::ranges::find(values, word);
  if (place == values.end()) return std::nullopt;
  const auto halvings = static_cast<unsigned>(place - values.begin());
  return ScoreTime(32) / ScoreTime(std::int64_t{1} << halvings);
}

/// The beat of a metronome mark in quarter notes: units tied together, each with its dots.
std::optional<ScoreTime> beat_unit(const pugi::xml_node& metronome) {
  ScoreTime total;
  ScoreTime dot;
  for (pugi::xml_node child = metronome.first_child(); child; child = child.next_sibling()) {
    const std::string_view word = child.name();
    if (word == "per-minute") return total.is_zero() ? std::nullopt : std::optional<ScoreTime>(total);
    if (word == "beat-unit-dot") {
      dot = dot / ScoreTime(2);
      total += dot;
      continue;
    }
    const bool tied = word == "beat-unit-tied";
    if (!tied && word != "beat-unit") continue;
    // A second plain unit means "this value = that value", which states no tempo.
    if (!tied && !total.is_zero()) return std::nullopt;
    const std::optional<ScoreTime> value = note_value(text_of(tied ? child.child("beat-unit") : child));
    if (!value) return std::nullopt;
    dot = *value;
    total += *value;
    if (!tied) continue;
    for (const pugi::xml_node more : child.children("beat-unit-dot")) {
      static_cast<void>(more);
      dot = dot / ScoreTime(2);
      total += dot;
    }
  }
  return std::nullopt;
}

/// The first number in a text such as "ca. 92" or "88-92".
std::optional<double> number_within(std::string_view text) {
  constexpr std::string_view digits = "0123456789";
  const std::size_t first = text.find_first_of(digits);
  if (first == std::string_view::npos) return std::nullopt;
  text.remove_prefix(first);
  return parse_inexact(text.substr(0, text.find_first_not_of(digits)));
}

/// A tempo somebody may have meant. Slower or faster ones are slips of whatever wrote the file.
std::optional<Qpm> plausible(double quarters_a_minute, Findings& findings) {
  constexpr double slowest = 1.0;
  constexpr double fastest = 4000.0;
  if (quarters_a_minute >= slowest && quarters_a_minute <= fastest) return Qpm(quarters_a_minute);
  findings.remark("a tempo outside 1 to 4000 quarter notes a minute is left out");
  return std::nullopt;
}

std::optional<Qpm> metronome_tempo(const pugi::xml_node& metronome, Findings& findings) {
  const std::optional<ScoreTime> unit = beat_unit(metronome);
  const std::string_view count = text_of(metronome.child("per-minute"));
  std::optional<double> per_minute = parse_inexact(count);
  if (unit && !per_minute) {
    per_minute = number_within(count);
    if (per_minute) findings.remark("the metronome mark " + short_quote(count) + " is read as its first number");
  }
  if (!unit || !per_minute) {
    findings.remark("a metronome mark that states no beats a minute is left out");
    return std::nullopt;
  }
  return plausible(unit->quarters() * *per_minute, findings);
}

}  // namespace

NoteMarks note_marks(const pugi::xml_node& note, Findings& findings) {
  NoteMarks marks;
  for (const pugi::xml_node child : note.children()) {
    const std::string_view word = child.name();
    if (word == "tie") read_tied(child.attribute("type").value(), marks);
    if (word == "notations") read_notations(child, marks, findings);
  }
  return marks;
}

DirectionMarks direction_marks(const pugi::xml_node& direction, Findings& findings) {
  DirectionMarks marks;
  for (const pugi::xml_node type : direction.children("direction-type")) {
    for (const pugi::xml_node sign : type.children()) {
      const std::string_view word = sign.name();
      if (word == "dynamics") {
        if (const std::optional<Dynamic> dynamic = dynamic_of(sign)) marks.dynamic = dynamic;
      } else if (word == "metronome") {
        if (const std::optional<Qpm> tempo = metronome_tempo(sign, findings)) {
          marks.tempo = DirectionMarks::Tempo{*tempo, TempoSource::metronome_mark};
        }
      }
    }
  }
  // The player reads the printed mark, so it wins over the number meant for playing back.
  const std::optional<Qpm> sound = sound_tempo(direction.child("sound"), findings);
  if (sound && !marks.tempo) marks.tempo = DirectionMarks::Tempo{*sound, TempoSource::sound_element};
  return marks;
}

std::optional<Qpm> sound_tempo(const pugi::xml_node& sound, Findings& findings) {
  const pugi::xml_attribute attribute = sound.attribute("tempo");
  if (!attribute) return std::nullopt;
  const std::optional<double> tempo = parse_inexact(attribute.value());
  if (!tempo) {
    findings.fault("tempo " + short_quote(attribute.value()) + " is not a number");
    return std::nullopt;
  }
  return plausible(*tempo, findings);
}

}  // namespace fingerway
