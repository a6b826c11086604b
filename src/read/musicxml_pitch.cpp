#include "musicxml_pitch.hpp"

#include <pugixml.hpp>
#include <string>
#include <string_view>

#include "musicxml_text.hpp"

namespace fingerway {

namespace {

/// A quarter tone has no fingering of its own in most charts: it is planned as the nearest note, towards the natural.
int nearest_alteration(ScoreTime alter) {
  const ScoreTime half(1, 2);
  const ScoreTime size = alter < ScoreTime(0) ? ScoreTime(0) - alter : alter;
  int whole = static_cast<int>(size.numerator() / size.denominator());
  if (size - ScoreTime(whole) > half) ++whole;
  return alter < ScoreTime(0) ? -whole : whole;
}

/// The alteration a key signature gives a step. Sharps come in the order F C G D A E B, flats in the reverse; beyond
/// seven of them they are doubled in the same order.
int key_alteration(char step, int key_fifths) {
  constexpr std::string_view order_of_sharps = "FCGDAEB";
  constexpr int steps = 7;
  const int place = static_cast<int>(order_of_sharps.find(step));
  if (key_fifths > 0) return (key_fifths - place + steps - 1) / steps;
  return -((-key_fifths - (steps - 1 - place) + steps - 1) / steps);
}

int alteration(char step, int key_fifths, const SideAlterations& given) {
  if (given.stated) return *given.stated;
  return given.in_measure.value_or(key_alteration(step, key_fifths));
}

}  // namespace

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

Spelling note_above(const Spelling& main, int key_fifths, const SideAlterations& alterations) {
  Spelling upper{main.step == 'G' ? 'A' : static_cast<char>(main.step + 1), 0, main.octave};
  if (main.step == 'B') ++upper.octave;
  upper.alter = alteration(upper.step, key_fifths, alterations);
  // An ornament goes a semitone or a tone away: what an altered main note would make of the key's note is neither.
  while (!alterations.stated && written(upper) - written(main) > Semitones(2)) --upper.alter;
  while (written(upper) - written(main) < Semitones(1)) ++upper.alter;
  return upper;
}

Spelling note_below(const Spelling& main, int key_fifths, const SideAlterations& alterations) {
  Spelling lower{main.step == 'A' ? 'G' : static_cast<char>(main.step - 1), 0, main.octave};
  if (main.step == 'C') {
    lower.step = 'B';
    --lower.octave;
  }
  lower.alter = alteration(lower.step, key_fifths, alterations);
  while (!alterations.stated && written(main) - written(lower) > Semitones(2)) ++lower.alter;
  while (written(main) - written(lower) < Semitones(1)) --lower.alter;
  return lower;
}

}  // namespace fingerway
