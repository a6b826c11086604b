#include "musicxml_slurs.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>

namespace fingerway {

namespace {

constexpr unsigned slur_numbers = 17;  // 1 to 16; 0 stays unused

}  // namespace

std::vector<bool> slurred_into(const std::vector<LineNote>& notes, const std::vector<Measure>& measures,
                               Findings& findings) {
  const auto at = [&](std::size_t i) { findings.at_measure(measures[notes[i].measure].name); };
  std::array<std::optional<std::size_t>, slur_numbers> open;
  // Slurs may nest or cross, so each adds one where it starts to lead on and takes it back where it ends.
  std::vector<int> change(notes.size() + 1, 0);
  for (std::size_t i = 0; i < notes.size(); ++i) {
    const NoteMarks& marks = notes[i].marks;
    for (unsigned number = 1; number < slur_numbers; ++number) {
      const std::uint32_t bit = std::uint32_t{1} << number;
      // Where a slur ends and the next of its number starts, the end comes first.
      if ((marks.slur_stops & bit) != 0) {
        if (open[number]) {
          ++change[*open[number] + 1];
          --change[i + 1];
        } else {
          at(i);
          findings.remark("a slur ends here that never began");
        }
        open[number].reset();
      }
      if ((marks.slur_starts & bit) == 0) continue;
      if (open[number]) {
        at(*open[number]);
        findings.remark("a slur begins here that never ends: it is left out");
      }
      open[number] = i;
    }
  }
  for (const std::optional<std::size_t>& start : open) {
    if (!start) continue;
    at(*start);
    findings.remark("a slur begins here that never ends: it is left out");
  }

  std::vector<bool> slurred(notes.size());
  int depth = 0;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    depth += change[i];
    slurred[i] = depth > 0;
  }
  return slurred;
}

}  // namespace fingerway
