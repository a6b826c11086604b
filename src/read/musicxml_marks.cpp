#include "musicxml_marks.hpp"

#include <algorithm>
#include <array>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "musicxml_directions.hpp"
#include "musicxml_names.hpp"
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

void read_articulations(const pugi::xml_node& articulations, NoteMarks& marks, Findings& findings) {
  for (const pugi::xml_node sign : articulations.children()) {
    const std::string_view word = sign.name();
    if (word == "staccato" || word == "staccatissimo" || word == "spiccato") marks.signs.staccato = true;
    if (word == "tenuto") marks.signs.tenuto = true;
    if (word == "detached-legato") marks.signs.staccato = marks.signs.tenuto = true;
    if (word == "accent" || word == "strong-accent") marks.signs.accent = true;
    if (word == "breath-mark" || word == "caesura") marks.signs.breath_after = true;
    const bool bends = word == "scoop" || word == "plop" || word == "doit" || word == "falloff";
    if (bends) findings.remark("a scoop, plop, doit or falloff is left out: the note is planned alone");
  }
  // Dots or dashes under a slur are tongued softly by wind players (common practice).
  if (marks.signs.staccato || marks.signs.tenuto) marks.separated = true;
}

bool holds_word(const std::string& text, std::string_view word) {
  const std::vector<std::string> words = words_of(text);
  return std::ranges::find(words, word) != words.end();
}

void tell_multiphonic(Findings& findings) { findings.remark("a multiphonic is planned as its written note"); }

void read_technical(const pugi::xml_node& technical, NoteMarks& marks, Findings& findings) {
  if (technical.child("double-tongue") || technical.child("triple-tongue")) marks.separated = true;
  for (const pugi::xml_node sign : technical.children()) {
    const std::string_view word = sign.name();
    if (word == "harmonic") findings.remark("a harmonic is planned as the note it is written as");
    if (word != "fingering" && word != "hole" && word != "other-technical") continue;
    const std::string text = clean_text(word == "hole" ? text_of(sign.child("hole-type")) : text_of(sign));
    if (text.empty()) continue;
    marks.marked.push_back(text);
    if (holds_word(text, "multiphonic")) tell_multiphonic(findings);
  }
}

/// The sides on which accidentals of an ornament stand, in the order in which they follow it.
enum class Side { above, below };

void read_ornament_accidental(const pugi::xml_node& mark, Side usual, NoteMarks& marks, Findings& findings) {
  const std::string_view placement = mark.attribute("placement").value();
  Side side = placement.empty() ? usual : (placement == "below" ? Side::below : Side::above);
  // A trill has a note above only, wherever the sign is put.
  if (marks.trill) side = Side::above;
  std::optional<int>& alter = side == Side::above ? marks.alter_above : marks.alter_below;
  alter = alteration_named(text_of(mark));
  if (!alter) {
    findings.remark("the accidental " + short_quote(text_of(mark)) + " of " +
                    (marks.trill ? "a trill" : "an ornament") + " is not read: the key signature is followed");
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

void read_wavy_line(std::string_view type, NoteMarks& marks) {
  if (type == "start") marks.wavy_line_starts = true;
  if (type == "stop") marks.wavy_line_stops = true;
}

std::optional<Ornament> ornament_named(std::string_view word) {
  constexpr std::array<std::pair<std::string_view, Ornament>, 9> ornaments = {
      {{"turn", Ornament::turn},
       {"delayed-turn", Ornament::delayed_turn},
       {"inverted-turn", Ornament::inverted_turn},
       {"delayed-inverted-turn", Ornament::delayed_inverted_turn},
       {"vertical-turn", Ornament::turn},
       {"inverted-vertical-turn", Ornament::inverted_turn},
       {"mordent", Ornament::mordent},
       {"inverted-mordent", Ornament::short_trill},
       {"schleifer", Ornament::slide}}};
  return look_up(ornaments, word);
}

void read_ornaments(const pugi::xml_node& ornaments, NoteMarks& marks, Findings& findings) {
  bool after_ornament = false;
  Side next_side = Side::above;
  for (const pugi::xml_node sign : ornaments.children()) {
    const std::string_view word = sign.name();
    if (word == "accidental-mark") {
      if (after_ornament) read_ornament_accidental(sign, next_side, marks, findings);
      next_side = Side::below;  // the second one of a turn
      continue;
    }
    if (word == "wavy-line") read_wavy_line(sign.attribute("type").value(), marks);
    const std::optional<Ornament> named = ornament_named(word);
    // A shake has the sign of a short trill, drawn longer: it goes on as a trill does.
    const bool trills = word == "trill-mark" || word == "shake";
    // An accidental belongs to the ornament it follows; the wavy line of a trill may stand between.
    after_ornament = trills || named.has_value() || (after_ornament && word == "wavy-line");
    if (trills) marks.trill = true;
    if (word == "tremolo") read_tremolo(sign, marks, findings);
    if (named && marks.ornament != Ornament::none) {
      findings.remark("of two ornaments on one note the first is played");
    } else if (named) {
      marks.ornament = *named;
      next_side = *named == Ornament::mordent ? Side::below : Side::above;
    }
    if (word == "haydn" || word == "other-ornament") {
      findings.remark("an ornament (" + std::string(word) + ") is not spelled out: its note is planned alone");
    }
  }
  if (marks.trill && marks.ornament != Ornament::none) {
    marks.ornament = Ornament::none;
    findings.remark("an ornament beside a trill is left out: the trill alone is planned");
  }
}

void read_notations(const pugi::xml_node& notations, NoteMarks& marks, Findings& findings) {
  for (const pugi::xml_node sign : notations.children()) {
    const std::string_view word = sign.name();
    if (word == "slur") read_slur(sign, marks, findings);
    if (word == "tied") read_tied(sign.attribute("type").value(), marks);
    if (word == "articulations") read_articulations(sign, marks, findings);
    if (word == "technical") read_technical(sign, marks, findings);
    if (word == "ornaments") read_ornaments(sign, marks, findings);
    if (word == "fermata") marks.signs.fermata = true;
    if (word == "glissando" || word == "slide") findings.remark("a glissando is planned as plain notes");
    if (word == "dynamics") {
      if (const std::optional<Dynamic> dynamic = dynamic_of(sign)) marks.dynamic = dynamic;
    }
  }
  // Some programs hang the accidental of an ornament beside it instead of inside.
  const pugi::xml_node beside = notations.child("accidental-mark");
  const bool ornamented = marks.trill || marks.ornament != Ornament::none;
  if (ornamented && beside && !marks.alter_above && !marks.alter_below) {
    read_ornament_accidental(beside, marks.ornament == Ornament::mordent ? Side::below : Side::above, marks, findings);
  }
}

}  // namespace

NoteMarks note_marks(const pugi::xml_node& note, Findings& findings) {
  NoteMarks marks;
  for (const pugi::xml_node child : note.children()) {
    const std::string_view word = child.name();
    if (word == "tie") read_tied(child.attribute("type").value(), marks);
    // Hidden notations are for playing back.
    if (word == "notations" && !is_hidden(child)) read_notations(child, marks, findings);
  }
  return marks;
}

}  // namespace fingerway
