#include "fingerway/music/pitch.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdlib>

namespace fingerway {

namespace {

constexpr int keys_per_octave = 12;

/// Semitones of a natural note above C.
int natural_key(char step) {
  // A to G, counted up from the C of the same octave.
  constexpr std::array<int, 7> above_c = {9, 11, 0, 2, 4, 5, 7};
  return step >= 'A' && step <= 'G' ? above_c[static_cast<std::size_t>(step - 'A')] : 0;
}

std::string spelled(const Spelling& spelling, std::string_view sharp, std::string_view flat) {
  std::string text(1, spelling.step);
  const std::string_view sign = spelling.alter < 0 ? flat : sharp;
  for (int i = 0; i < std::abs(spelling.alter); ++i) text += sign;
  return text + std::to_string(spelling.octave);
}

}  // namespace

WrittenPitch written(const Spelling& spelling) {
  return WrittenPitch(keys_per_octave * (spelling.octave + 1) + natural_key(spelling.step) + spelling.alter);
}

std::string name(const Spelling& spelling) { return spelled(spelling, "#", "b"); }

std::string display_name(const Spelling& spelling) { return spelled(spelling, "♯", "♭"); }

std::optional<Spelling> parse_spelling(std::string_view text) {
  if (text.empty() || text.front() < 'A' || text.front() > 'G') return std::nullopt;
  Spelling spelling{text.front(), 0, 0};
  text.remove_prefix(1);
  while (!text.empty() && (text.front() == '#' || text.front() == 'b')) {
    const int sign = text.front() == '#' ? 1 : -1;
    if (spelling.alter * sign < 0 || std::abs(spelling.alter) == 2) return std::nullopt;
    spelling.alter += sign;
    text.remove_prefix(1);
  }
  if (text == "-1") {
    spelling.octave = -1;
    return spelling;
  }
  if (text.size() != 1 || text.front() < '0' || text.front() > '9') return std::nullopt;
  spelling.octave = text.front() - '0';
  return spelling;
}

Spelling chart_spelling(WrittenPitch pitch) {
  struct Name {
    char step;
    int alter;
  };
  constexpr std::array<Name, keys_per_octave> names = {{{'C', 0},
                                                        {'C', 1},
                                                        {'D', 0},
                                                        {'E', -1},
                                                        {'E', 0},
                                                        {'F', 0},
                                                        {'F', 1},
                                                        {'G', 0},
                                                        {'A', -1},
                                                        {'A', 0},
                                                        {'B', -1},
                                                        {'B', 0}}};
  const int in_octave = (pitch.key % keys_per_octave + keys_per_octave) % keys_per_octave;
  const int octave = (pitch.key - in_octave) / keys_per_octave - 1;
  const Name& note = names[static_cast<std::size_t>(in_octave)];
  return {note.step, note.alter, octave};
}

Hertz frequency(SoundingPitch pitch) {
  constexpr SoundingPitch a4(69);
  constexpr double a4_hertz = 440.0;
  return Hertz(a4_hertz * std::exp2(static_cast<double>((pitch - a4).count) / keys_per_octave));
}

}  // namespace fingerway
