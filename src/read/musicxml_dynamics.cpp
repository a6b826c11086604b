#include "musicxml_dynamics.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>

namespace fingerway {

namespace {

constexpr int softest = static_cast<int>(Dynamic::ppp);
constexpr int loudest = static_cast<int>(Dynamic::fff);

/// A hairpin from its first to its last moment.
struct Hairpin {
  ScoreTime start;
  ScoreTime end;
  bool louder = true;
};

std::vector<Hairpin> hairpins(const std::vector<WedgeAt>& wedges) {
  constexpr std::size_t numbers = 17;
  std::array<std::optional<Hairpin>, numbers> open;
  std::vector<Hairpin> closed;
  for (const WedgeAt& end : wedges) {
    std::optional<Hairpin>& hairpin = open[static_cast<std::size_t>(end.wedge.number)];
    if (end.wedge.kind != Wedge::Kind::stop) {
      hairpin = Hairpin{end.at, end.at, end.wedge.kind == Wedge::Kind::crescendo};
    } else if (hairpin) {
      hairpin->end = end.at;
      if (hairpin->start < hairpin->end) closed.push_back(*hairpin);
      hairpin.reset();
    }
  }
  std::ranges::stable_sort(closed, {}, &Hairpin::start);
  return closed;
}

/// Marks at notes hold from there on as well.
std::vector<DynamicChange> all_changes(const Line& line) {
  std::vector<DynamicChange> changes = line.dynamics;
  for (const LineNote& note : line.notes) {
    if (note.marks.dynamic) changes.push_back({note.onset, *note.marks.dynamic});
  }
  std::ranges::stable_sort(changes, {}, &DynamicChange::at);
  return changes;
}

/// The last change up to a moment; `later` holds too where it stands after that one.
std::optional<Dynamic> in_force(const std::vector<DynamicChange>& changes, ScoreTime at,
                                const std::optional<DynamicChange>& later) {
  const auto after = std::ranges::upper_bound(changes, at, {}, &DynamicChange::at);
  if (later && later->at <= at && (after == changes.begin() || (after - 1)->at < later->at)) return later->dynamic;
  return after == changes.begin() ? std::nullopt : std::optional<Dynamic>((after - 1)->dynamic);
}

/// Loudness under one hairpin.
class Swell {
 public:
  Swell(const Hairpin& hairpin, const std::vector<DynamicChange>& changes, const std::vector<LineNote>& notes,
        const std::optional<DynamicChange>& swell_before)
      : hairpin_(hairpin), start_(in_force(changes, hairpin.start, swell_before)) {
    const int degree = hairpin.louder ? 1 : -1;
    // The mark a hairpin leads to stands at its end, or at the next note after it.
    const auto next_note = std::ranges::lower_bound(notes, hairpin.end, {}, &LineNote::onset);
    const ScoreTime reach = next_note == notes.end() ? hairpin.end : next_note->onset;
    const auto mark = std::ranges::lower_bound(changes, hairpin.end, {}, &DynamicChange::at);
    const bool marked = mark != changes.end() && mark->at <= reach;
    if (!start_ && !marked) return;
    const int first = start_ ? static_cast<int>(*start_) : static_cast<int>(mark->dynamic) - degree;
    const int last = marked ? static_cast<int>(mark->dynamic) : first + degree;
    from_ = std::clamp(first, softest, loudest);
    to_ = std::clamp(last, softest, loudest);
    if (!marked) after_ = static_cast<Dynamic>(to_);
  }

  /// What holds after it where no mark says so.
  [[nodiscard]] std::optional<Dynamic> after() const { return after_; }
  [[nodiscard]] std::optional<Dynamic> at(ScoreTime moment) const {
    if (from_ == 0) return std::nullopt;
    const double part = (moment - hairpin_.start).quarters() / (hairpin_.end - hairpin_.start).quarters();
    const double degree = from_ + part * (to_ - from_) + 0.5;
    return static_cast<Dynamic>(std::clamp(static_cast<int>(degree), softest, loudest));
  }

 private:
  Hairpin hairpin_;
  std::optional<Dynamic> start_;
  std::optional<Dynamic> after_;
  int from_ = 0;  // 0: nothing known
  int to_ = 0;
};

}  // namespace

void settle_dynamics(Line& line) {
  std::vector<DynamicChange> changes = all_changes(line);
  std::vector<Swell> swells;
  std::vector<Hairpin> spans;
  std::vector<DynamicChange> afterwards;
  std::optional<DynamicChange> last_swell;
  for (const Hairpin& hairpin : hairpins(line.wedges)) {
    if (!spans.empty() && hairpin.start < spans.back().end) continue;  // one at a time tells enough
    spans.push_back(hairpin);
    swells.emplace_back(hairpin, changes, line.notes, last_swell);
    if (!swells.back().after()) continue;
    last_swell = DynamicChange{hairpin.end, *swells.back().after()};
    afterwards.push_back(*last_swell);
  }
  changes.insert(changes.begin(), afterwards.begin(), afterwards.end());
  std::ranges::stable_sort(changes, {}, &DynamicChange::at);
  std::size_t next_change = 0;
  std::size_t next_span = 0;
  std::optional<Dynamic> now;
  for (LineNote& note : line.notes) {
    while (next_change < changes.size() && changes[next_change].at <= note.onset) now = changes[next_change++].dynamic;
    while (next_span < spans.size() && spans[next_span].end <= note.onset) ++next_span;
    const bool swells_here = next_span < spans.size() && spans[next_span].start <= note.onset;
    const std::optional<Dynamic> swelling = swells_here ? swells[next_span].at(note.onset) : std::nullopt;
    if (!note.marks.dynamic) note.marks.dynamic = swelling ? swelling : now;
  }
}

}  // namespace fingerway
