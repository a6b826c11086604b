#include "musicxml_slurs.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>

namespace fingerway {

namespace {

constexpr unsigned slur_numbers = 17;  // 1 to 16; 0 stays unused

std::uint32_t bit_of(unsigned number) { return std::uint32_t{1} << number; }

/// The ends of one slur number in this line that have no other end in it.
struct LooseEnds {
  std::vector<std::size_t> starts;
  std::vector<std::size_t> stops;
};

LooseEnds loose_ends(const std::vector<LineNote>& notes, unsigned number) {
  LooseEnds loose;
  bool open = false;  // the last start has found no stop yet
  for (std::size_t i = 0; i < notes.size(); ++i) {
    if ((notes[i].marks.slur_stops & bit_of(number)) != 0) {
      if (open) {
        loose.starts.pop_back();
      } else {
        loose.stops.push_back(i);
      }
      open = false;
    }
    if ((notes[i].marks.slur_starts & bit_of(number)) == 0) continue;
    loose.starts.push_back(i);
    open = true;
  }
  return loose;
}

/// Ends of slurs of one number in other voices, each used once.
class OtherEnds {
 public:
  OtherEnds(const std::vector<StraySlur>& strays, unsigned number, bool starts) {
    for (const StraySlur& stray : strays) {
      if (stray.number == number && stray.starts == starts) times_.push_back(stray.at);
    }
  }
  [[nodiscard]] bool empty() const { return times_.empty(); }
  std::optional<ScoreTime> take_first_from(ScoreTime at) {
    next_ = std::max(next_, static_cast<std::size_t>(std::ranges::lower_bound(times_, at) - times_.begin()));
    return next_ < times_.size() ? std::optional<ScoreTime>(times_[next_++]) : std::nullopt;
  }
  /// Asked in rising order of `at`.
  std::optional<ScoreTime> take_last_until(ScoreTime at) {
    const auto end = static_cast<std::size_t>(std::ranges::upper_bound(times_, at) - times_.begin());
    if (end <= next_) return std::nullopt;
    next_ = end;
    return times_[end - 1];
  }

 private:
  std::vector<ScoreTime> times_;
  std::size_t next_ = 0;
};

void join_number(Line& line, unsigned number) {
  OtherEnds starts(line.stray_slurs, number, true);
  OtherEnds stops(line.stray_slurs, number, false);
  if (starts.empty() && stops.empty()) return;
  std::vector<LineNote>& notes = line.notes;
  const LooseEnds loose = loose_ends(notes, number);
  for (const std::size_t i : loose.starts) {
    const std::optional<ScoreTime> end = stops.take_first_from(notes[i].onset);
    if (!end) continue;
    const auto behind = std::ranges::upper_bound(notes, *end, {}, &LineNote::onset);
    const std::size_t last = static_cast<std::size_t>(behind - notes.begin()) - 1;
    // A slur that leads straight into the other voice slurs nothing here.
    if (last > i) {
      notes[last].marks.slur_stops |= bit_of(number);
    } else {
      notes[i].marks.slur_starts &= ~bit_of(number);
    }
  }
  for (const std::size_t i : loose.stops) {
    const std::optional<ScoreTime> start = starts.take_last_until(notes[i].onset);
    if (!start) continue;
    const auto first = std::ranges::lower_bound(notes, *start, {}, &LineNote::onset);
    const auto begin = static_cast<std::size_t>(first - notes.begin());
    if (begin < i) {
      notes[begin].marks.slur_starts |= bit_of(number);
    } else {
      notes[i].marks.slur_stops &= ~bit_of(number);
    }
  }
}

/// Follows all slur numbers through a line.
class SlurWalk {
 public:
  SlurWalk(const std::vector<LineNote>& notes, const std::vector<Measure>& measures, const std::vector<bool>& jumped,
           Findings& findings)
      : notes_(notes), measures_(measures), jumped_(jumped), findings_(findings), change_(notes.size() + 1, 0) {}

  std::vector<bool> walk() {
    for (std::size_t i = 0; i < notes_.size(); ++i) {
      pass_jumps(i);
      const NoteMarks& marks = notes_[i].marks;
      if (marks.slur_starts == 0 && marks.slur_stops == 0) continue;
      for (unsigned number = 1; number < slur_numbers; ++number) {
        // Where a slur ends and the next of its number starts, the end comes first.
        if ((marks.slur_stops & bit_of(number)) != 0) stop(number, i);
        if ((marks.slur_starts & bit_of(number)) != 0) start(number, i);
      }
    }
    for (unsigned number = 1; number < slur_numbers; ++number) leave(number);
    std::vector<bool> slurred(notes_.size());
    int depth = 0;
    for (std::size_t i = 0; i < notes_.size(); ++i) {
      depth += change_[i];
      slurred[i] = depth > 0;
    }
    return slurred;
  }

 private:
  struct Open {
    std::size_t start = 0;
    std::optional<std::size_t> last_before_jump;
  };

  void pass_jumps(std::size_t i) {
    bool any = false;
    for (; measure_ < notes_[i].measure; ++measure_) any = any || jumped_[measure_ + 1];
    if (!any || i == 0) return;
    jumped_yet_ = true;
    for (std::optional<Open>& open : open_) {
      if (open && !open->last_before_jump) open->last_before_jump = i - 1;
    }
  }

  void start(unsigned number, std::size_t i) {
    leave(number);
    open_[number] = Open{i, std::nullopt};
  }

  void stop(unsigned number, std::size_t i) {
    if (open_[number]) {
      cover(open_[number]->start, i);
    } else if (!jumped_yet_) {
      // After a jump the start may have been left behind, which is nobody's mistake.
      findings_.at_measure(measures_[notes_[i].measure].name);
      findings_.remark("a slur ends here that never began");
    }
    open_[number].reset();
  }

  /// Gives up on a slur that has found no end.
  void leave(unsigned number) {
    const std::optional<Open>& open = open_[number];
    if (!open) return;
    if (open->last_before_jump) {
      cover(open->start, *open->last_before_jump);
    } else {
      findings_.at_measure(measures_[notes_[open->start].measure].name);
      findings_.remark("a slur begins here that never ends: it is left out");
    }
    open_[number].reset();
  }

  // Slurs may nest or cross, so each adds one where it starts to lead on and takes it back where it ends.
  void cover(std::size_t first, std::size_t last) {
    ++change_[first + 1];
    --change_[last + 1];
  }

  const std::vector<LineNote>& notes_;
  const std::vector<Measure>& measures_;
  const std::vector<bool>& jumped_;
  Findings& findings_;
  std::vector<int> change_;
  std::array<std::optional<Open>, slur_numbers> open_;
  std::uint32_t measure_ = 0;
  bool jumped_yet_ = false;
};

}  // namespace

void join_slurs_across_voices(Line& line) {
  if (line.stray_slurs.empty()) return;
  for (unsigned number = 1; number < slur_numbers; ++number) join_number(line, number);
}

std::vector<bool> slurred_into(const std::vector<LineNote>& notes, const std::vector<Measure>& measures,
                               const std::vector<bool>& jumped, Findings& findings) {
  return SlurWalk(notes, measures, jumped, findings).walk();
}

}  // namespace fingerway
