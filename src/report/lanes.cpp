#include "fingerway/report/lanes.hpp"

#include <algorithm>

#include "lane_time.hpp"
#include "moments.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

/// A flick is over long before its note; it is drawn so long, or a third of a short note.
constexpr Ms flick_shown(90);

/// All that is drawn of one finger, over the whole passage.
struct WholeLane {
  std::vector<LaneBar> bars;
  std::vector<LaneMove> moves;
};

std::string bar_label(const Instrument& instrument, TouchSet touches) {
  std::vector<std::string> names;
  for (TouchId touch : touches) {
    const std::string name = touch_short(instrument, touch, Script::signs);
    if (!name.empty()) names.push_back(name);
  }
  return joined(names, " ");
}

class LaneBuilder {
 public:
  /// Only the notes from `first` to before `end` are looked at.
  LaneBuilder(const Passage& passage, const LanePlan& side, const std::vector<Span>& spans, std::size_t first,
              std::size_t end)
      : passage_(passage), side_(side), instrument_(side.played.instrument), spans_(spans), first_(first), end_(end) {}

  [[nodiscard]] WholeLane lane(Finger finger) const {
    WholeLane lane;
    for (std::size_t i = first_; i < end_; ++i) add_note(lane, finger, i);
    return lane;
  }

  [[nodiscard]] std::vector<LaneNeed> needs() const {
    std::vector<LaneNeed> all;
    for (std::size_t i = first_; i < end_; ++i) {
      const auto& arrive = side_.plan.notes[i].arrive;
      if (!arrive || arrive->from == arrive->to) {
        // A trill out of reach is a hard moment even where nothing leads into it.
        if (rank(i) > 0) all.push_back({.note = i, .start = spans_[i].start, .end = spans_[i].start, .rank = rank(i)});
        continue;
      }
      LaneNeed need{.note = i, .start = spans_[i].start - arrive->step.time, .end = spans_[i].start};
      need.available = arrive->context.available;
      need.fits = fits(*arrive);
      need.decides = side_.plan.summary.worst_note == i;
      need.rank = rank(i);
      need.words = change_words(side_.played, passage_, side_.plan, i);
      all.push_back(need);
    }
    return all;
  }

 private:
  [[nodiscard]] std::size_t rank(std::size_t note) const {
    const auto found = std::ranges::find(side_.hardest, note);
    return found == side_.hardest.end() ? 0 : static_cast<std::size_t>(found - side_.hardest.begin()) + 1;
  }

  void add_note(WholeLane& lane, Finger finger, std::size_t i) const {
    const PlannedNote& note = side_.plan.notes[i];
    if (!note.candidate) return;
    add_hold(lane, finger, i);
    const TouchSet flicked = held_by(instrument_, note.candidate->fingering.flicked, finger);
    if (!flicked.empty()) {
      LaneBar bar{.start = spans_[i].start, .end = spans_[i].start + std::min(flick_shown, spans_[i].length() / 3.0)};
      bar.label = bar_label(instrument_, flicked);
      bar.words = std::string(words(finger)) + " flicks " + holds_words(instrument_, flicked, {});
      bar.flicked = true;
      lane.bars.push_back(bar);
    }
    if (!note.arrive) return;
    for (const FingerMove& m : moves_into(side_.played, *note.arrive)) {
      if (m.finger == finger) lane.moves.push_back(move(m, *note.arrive, i));
    }
  }

  void add_hold(WholeLane& lane, Finger finger, std::size_t i) const {
    const PlannedNote& note = side_.plan.notes[i];
    const Fingering& f = note.candidate->fingering;
    const TouchSet held = held_by(instrument_, f.pressed, finger);
    const TouchSet with = note.other ? held_by(instrument_, note.other->fingering.pressed, finger) : held;
    const TouchSet half = held & f.half;
    const bool shaken = with != held || (note.other && (with & note.other->fingering.half) != half);
    if (held.empty() && with.empty()) return;
    LaneBar bar{.start = spans_[i].start, .end = spans_[i].end};
    bar.label = bar_label(instrument_, held | with);
    bar.half = !half.empty();
    bar.shaken = shaken;
    bar.words = std::string(words(finger)) + ": " + holds_words(instrument_, held | with, half);
    if (shaken) bar.words += ", moving in the trill";
    LaneBar* before = lane.bars.empty() ? nullptr : &lane.bars.back();
    // The same hold goes on as one bar, through rests too: nothing asks the finger to leave.
    const bool goes_on = before != nullptr && !before->flicked && !before->shaken && !shaken &&
                         before->end == bar.start && before->words == bar.words;
    if (goes_on) {
      before->end = bar.end;
    } else {
      lane.bars.push_back(bar);
    }
  }

  [[nodiscard]] LaneMove move(const FingerMove& m, const Arrival& arrive, std::size_t i) const {
    const Ms time = std::max(m.move.busy, m.move.travel);
    LaneMove result{.note = i, .start = spans_[i].start - time, .end = spans_[i].start, .kind = m.move.kind};
    result.upward = m.move.direction == Direction::up;
    result.too_long = time > arrive.context.available;
    if (m.move.crosses) {
      const Ms tongue(arrive.context.tongued ? side_.played.hand.numbers().tongue_hides.value : 0.0);
      result.heard = std::max(Ms(0), m.move.gap - std::max(tongue, arrive.context.silence));
    }
    result.words = move_words(instrument_, m) + ", " + ms_words(time);
    return result;
  }

  const Passage& passage_;
  const LanePlan& side_;
  const Instrument& instrument_;
  const std::vector<Span>& spans_;
  std::size_t first_;
  std::size_t end_;
};

Lane within(const WholeLane& whole, Finger finger, const Span& system) {
  Lane lane{.finger = finger, .bars = {}, .moves = {}};
  for (LaneBar bar : whole.bars) {
    if (bar.end <= system.start || bar.start >= system.end) continue;
    bar.cut_left = bar.start < system.start;
    bar.cut_right = bar.end > system.end;
    bar.start = std::max(bar.start, system.start);
    bar.end = std::min(bar.end, system.end);
    lane.bars.push_back(bar);
  }
  for (const LaneMove& move : whole.moves) {
    if (system.holds(move.end)) lane.moves.push_back(move);
  }
  return lane;
}

/// True when the finger does nothing in the system that a line of text does not tell.
bool still(const Lane& lane) {
  return lane.moves.empty() && lane.bars.size() <= 1 && (lane.bars.empty() || !lane.bars.front().shaken);
}

std::string short_finger(Finger finger) { return digit(finger) == 0 ? "thumb" : std::string(1, code(finger)[1]); }

/// "left 1, 2, 3; right thumb (E), 1, 2, 3 (G)".
std::string fold(const std::vector<Lane>& lanes, bool holding) {
  std::vector<std::string> hands;
  for (Hand hand : {Hand::left, Hand::right}) {
    std::vector<std::string> fingers;
    for (const Lane& lane : lanes) {
      if (hand_of(lane.finger) != hand || lane.bars.empty() == holding) continue;
      const std::string label = holding ? lane.bars.front().label : "";
      const std::string half = holding && lane.bars.front().half ? "½ " : "";
      fingers.push_back(half + short_finger(lane.finger) + (label.empty() ? "" : " (" + label + ")"));
    }
    if (!fingers.empty()) hands.push_back((hand == Hand::left ? "left " : "right ") + joined(fingers, ", "));
  }
  return joined(hands, "; ");
}

/// The blocks of one system; a finger that moves on one instrument has a lane on both, so that they compare.
std::vector<LaneBlock> blocks_of(const std::vector<std::vector<WholeLane>>& sides,
                                 const std::vector<std::vector<LaneNeed>>& needs, const Span& system) {
  std::vector<LaneBlock> blocks(sides.size());
  std::vector<std::vector<Lane>> folded(sides.size());
  for (Finger finger : all_fingers) {
    std::vector<Lane> lanes;
    lanes.reserve(sides.size());
    for (const auto& side : sides) lanes.push_back(within(side[index(finger)], finger, system));
    const bool all_still = std::ranges::all_of(lanes, still);
    for (std::size_t s = 0; s < sides.size(); ++s) {
      (all_still ? folded[s] : blocks[s].lanes).push_back(std::move(lanes[s]));
    }
  }
  for (std::size_t s = 0; s < sides.size(); ++s) {
    blocks[s].stay_down = fold(folded[s], true);
    blocks[s].unused = fold(folded[s], false);
    for (const LaneNeed& need : needs[s]) {
      if (system.holds(need.end)) blocks[s].needs.push_back(need);
    }
  }
  return blocks;
}

std::vector<LaneNote> notes_within(const Passage& passage, const std::vector<LanePlan>& plans,
                                   const std::vector<Span>& spans, const std::vector<std::size_t>& differing,
                                   const Span& system) {
  std::vector<LaneNote> notes;
  for (std::size_t i = 0; i < spans.size(); ++i) {
    if (!system.holds(spans[i].start)) continue;
    LaneNote note{.note = i, .start = spans[i].start, .end = std::min(spans[i].end, system.end)};
    const NoteEvent& event = passage.notes[i];
    note.name = display_name(event.spelling);
    if (event.other) note.name += "~" + display_name(*event.other);
    note.slurred = event.attack == Attack::slurred;
    note.differs = std::ranges::find(differing, i) != differing.end();
    note.playable =
        std::ranges::all_of(plans, [&](const LanePlan& p) { return p.plan.notes[i].candidate.has_value(); });
    notes.push_back(note);
  }
  return notes;
}

/// The sides of a passage, ready to be cut into systems.
class Sides {
 public:
  Sides(const Passage& passage, const std::vector<LanePlan>& plans, const std::vector<std::size_t>& differing,
        const std::vector<Span>& spans, std::size_t first, std::size_t end)
      : passage_(passage), plans_(plans), differing_(differing), spans_(spans) {
    for (const LanePlan& side : plans) {
      const LaneBuilder builder(passage, side, spans, first, end);
      lanes_.emplace_back();
      for (Finger finger : all_fingers) lanes_.back().push_back(builder.lane(finger));
      needs_.push_back(builder.needs());
    }
  }

  [[nodiscard]] LaneSystem system(const Span& span) const {
    return {.start = span.start,
            .end = span.end,
            .beats = beats_within(passage_, span),
            .notes = notes_within(passage_, plans_, spans_, differing_, span),
            .blocks = blocks_of(lanes_, needs_, span),
            .axis = {}};
  }

 private:
  const Passage& passage_;
  const std::vector<LanePlan>& plans_;
  const std::vector<std::size_t>& differing_;
  const std::vector<Span>& spans_;
  std::vector<std::vector<WholeLane>> lanes_;
  std::vector<std::vector<LaneNeed>> needs_;
};

}  // namespace

Lanes lay_out(const Passage& passage, const std::vector<LanePlan>& plans, const std::vector<std::size_t>& differing,
              double width, double note_width) {
  Lanes result;
  const std::vector<Span> spans = note_spans(passage);
  const Systems systems = pack(passage, spans, width, note_width);
  result.units_per_ms = systems.units_per_ms;
  const Sides sides(passage, plans, differing, spans, 0, spans.size());
  for (const Span& system : systems.spans) result.systems.push_back(sides.system(system));
  return result;
}

Lanes lay_out(const Passage& passage, const std::vector<LanePlan>& plans, const std::vector<std::size_t>& differing,
              const LaneSpan& span) {
  const std::vector<Span> spans = note_spans(passage);
  // A neighbour on each side tells what goes on from before and beyond.
  const std::size_t first = span.first - std::min<std::size_t>(span.first, 1);
  const std::size_t end = std::min(span.last + 2, spans.size());
  const Sides sides(passage, plans, differing, spans, first, end);
  Lanes result;
  result.width = span.width;
  result.named = false;
  result.systems.push_back(sides.system({spans[span.first].start, spans[span.last].end}));
  result.systems.front().axis = span.anchors;
  return result;
}

}  // namespace fingerway
