#include "musicxml_attributes.hpp"

#include <algorithm>
#include <array>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <utility>

#include "musicxml_text.hpp"

namespace fingerway {

namespace {

/// Elements without a staff number hold for every staff of the part.
bool holds_for(const pugi::xml_node& node, int staff) {
  const pugi::xml_attribute number = node.attribute("number");
  return !number || parse_whole(number.value(), 1, 1000) == staff;
}

void read_divisions(const pugi::xml_node& node, Attributes& attributes, Findings& findings) {
  const ScoreTime most(10'000'000);
  const std::optional<ScoreTime> divisions = parse_decimal(text_of(node));
  if (!divisions || *divisions <= ScoreTime(0) || *divisions > most) {
    findings.fault("divisions " + short_quote(text_of(node)) + " is not a number above 0 and up to 10000000",
                   "export the score again");
    return;
  }
  attributes.divisions = divisions;
}

void read_key(const pugi::xml_node& key, Attributes& attributes, Findings& findings) {
  const pugi::xml_node fifths = key.child("fifths");
  if (!fifths) {
    if (key.child("key-step")) findings.remark("a key signature of its own making is read as none");
    attributes.key_fifths = 0;
    return;
  }
  // Beyond seven, signs are doubled one after the other.
  constexpr int most_signs = 14;
  const std::optional<int> count = parse_whole(text_of(fifths), -most_signs, most_signs);
  if (!count) {
    findings.fault("key of " + short_quote(text_of(fifths)) + " fifths is not a whole number from -14 to 14");
    return;
  }
  attributes.key_fifths = *count;
}

/// The sum of "3+2"; nothing when a term is not a whole number of beats.
std::optional<int> beats_in(std::string_view text) {
  constexpr int most_beats = 256;
  int sum = 0;
  for (;;) {
    const std::size_t plus = text.find('+');
    const std::optional<int> term = parse_whole(text.substr(0, plus), 1, most_beats);
    if (!term || sum + *term > most_beats) return std::nullopt;
    sum += *term;
    if (plus == std::string_view::npos) return sum;
    text.remove_prefix(plus + 1);
  }
}

void read_time(const pugi::xml_node& time, Attributes& attributes, Findings& findings) {
  if (time.child("senza-misura")) return;
  constexpr int shortest = 128;
  int beats = 0;
  int beat_type = 1;
  for (const pugi::xml_node count : time.children("beats")) {
    const pugi::xml_node type = count.next_sibling("beat-type");
    const std::optional<int> more = beats_in(text_of(count));
    const std::optional<int> unit = parse_whole(text_of(type), 1, shortest);
    // Common practice: note values are halves of halves, so 4/6 or 3/7 is no time signature.
    if (!more || !unit || (*unit & (*unit - 1)) != 0 || beats > shortest) {
      findings.fault("time signature " + short_quote(text_of(count)) + " over " + short_quote(text_of(type)) +
                     " is not one");
      return;
    }
    // 3/8 + 2/4 is counted in its smaller beat, as 7/8.
    const int finer = std::max(beat_type, *unit);
    beats = beats * (finer / beat_type) + *more * (finer / *unit);
    beat_type = finer;
  }
  if (beats == 0) return;
  attributes.beats = beats;
  attributes.beat_type = beat_type;
}

/// Semitones that a number of steps stands for on transposing instruments, where the file leaves them out: down a
/// step in B flat, two in A, four in F, five in E flat; up two in E flat (common practice).
std::optional<int> usual_semitones(int steps) {
  constexpr std::array<std::pair<int, int>, 10> usual = {
      {{-5, -9}, {-4, -7}, {-3, -5}, {-2, -3}, {-1, -2}, {0, 0}, {1, 2}, {2, 3}, {3, 5}, {4, 7}}};
  const auto row = std::ranges::find(usual, steps, &std::pair<int, int>::first);
  return row == usual.end() ? std::nullopt : std::optional<int>(row->second);
}

std::optional<ScoreTime> chromatic_of(const pugi::xml_node& transpose, Findings& findings) {
  if (const pugi::xml_node stated = transpose.child("chromatic")) return parse_decimal(text_of(stated));
  const pugi::xml_node diatonic = transpose.child("diatonic");
  if (!diatonic) return transpose.child("octave-change") ? std::optional<ScoreTime>(ScoreTime(0)) : std::nullopt;
  constexpr int most_steps = 7;
  const std::optional<int> steps = parse_whole(text_of(diatonic), -most_steps, most_steps);
  const std::optional<int> semitones = steps ? usual_semitones(*steps) : std::nullopt;
  if (!semitones) return std::nullopt;
  findings.remark("a transposition by steps alone is taken as the usual one of " + std::to_string(*semitones) +
                  " semitones");
  return ScoreTime(*semitones);
}

std::optional<Transposition> read_transposition(const pugi::xml_node& transpose, Findings& findings) {
  constexpr int most_octaves = 4;
  constexpr int semitones_per_octave = 12;
  constexpr int most = most_octaves * semitones_per_octave;
  const pugi::xml_node octaves = transpose.child("octave-change");
  const std::optional<ScoreTime> chromatic = chromatic_of(transpose, findings);
  const std::optional<int> shift = octaves ? parse_whole(text_of(octaves), -most_octaves, most_octaves) : 0;
  const bool whole =
      chromatic && chromatic->denominator() == 1 && *chromatic >= ScoreTime(-most) && *chromatic <= ScoreTime(most);
  if (whole && shift) {
    return Transposition{Semitones(static_cast<int>(chromatic->numerator()) + semitones_per_octave * *shift)};
  }
  findings.fault("a transposition that is not a whole number of semitones within four octaves");
  return std::nullopt;
}

void read_transpose(const pugi::xml_node& transpose, Attributes& attributes, Findings& findings) {
  const std::optional<Transposition> stated = read_transposition(transpose, findings);
  if (!stated) return;
  if (transpose.child("double")) findings.remark("an octave that is to be doubled is left out");
  if (attributes.transposition && *attributes.transposition != *stated) {
    findings.remark("the transposition changes here: written pitches are kept, sounding ones follow the first");
    return;
  }
  attributes.transposition = stated;
}

void read_for_part(const pugi::xml_node& for_part, Attributes& attributes, Findings& findings) {
  const pugi::xml_node transpose = for_part.child("part-transpose");
  if (transpose && !attributes.transposed_part) attributes.transposed_part = read_transposition(transpose, findings);
}

void check_clef(const pugi::xml_node& clef, Findings& findings) {
  const std::string_view sign = text_of(clef.child("sign"));
  if (sign == "percussion" || sign == "TAB") {
    findings.fault(
        "a " + std::string(sign == "TAB" ? "tablature" : "percussion") + " staff: it names no woodwind notes",
        "choose another part");
  }
}

}  // namespace

void read_attributes(const pugi::xml_node& node, int staff, Attributes& attributes, Findings& findings) {
  for (const pugi::xml_node child : node.children()) {
    const std::string_view word = child.name();
    if (word == "divisions") read_divisions(child, attributes, findings);
    if (word == "directive") findings.remark("the directive " + short_quote(text_of(child)) + " is not read");
    if (!holds_for(child, staff)) continue;
    if (word == "key") read_key(child, attributes, findings);
    if (word == "time") read_time(child, attributes, findings);
    if (word == "transpose") read_transpose(child, attributes, findings);
    if (word == "for-part") read_for_part(child, attributes, findings);
    if (word == "clef") check_clef(child, findings);
  }
}

ScoreTime full_measure(const Attributes& attributes) {
  return ScoreTime(attributes.beats) * ScoreTime(4, attributes.beat_type);
}

}  // namespace fingerway
