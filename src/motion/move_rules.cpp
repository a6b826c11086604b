#include "move_rules.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace fingerway {
namespace {

/// Index of difficulty of an aimed movement, Shannon form (Fitts; MacKenzie).
double bits(Mm distance, Mm width) { return std::log2(1.0 + distance / width); }

/// The shortest way from any of these touches to any of those.
struct Way {
  TouchId from;
  TouchId to;
  Mm length{0};
};

Way shortest_way(const Instrument& instrument, TouchSet from, TouchSet to) {
  std::optional<Way> best;
  for (TouchId a : from) {
    for (TouchId b : to) {
      const Mm d = distance(instrument, a, b);
      if (!best || d < best->length) best = Way{.from = a, .to = b, .length = d};
    }
  }
  return *best;
}

double bits(const Instrument& instrument, const Way& way) {
  return bits(way.length, instrument.touches[way.to.index].width);
}

const Slide* slide_between(const Instrument& instrument, TouchSet from, TouchSet to) {
  for (const Slide& slide : instrument.slides) {
    if ((from.contains(slide.a) && to.contains(slide.b)) || (from.contains(slide.b) && to.contains(slide.a))) {
      return &slide;
    }
  }
  return nullptr;
}

Move travel(const FingerFacts& f, TouchId from, TouchId to) {
  if (from == to) return {};
  const double way = bits(f.instrument, {.from = from, .to = to, .length = distance(f.instrument, from, to)});
  return {.kind = MoveKind::travel,
          .travel = Ms(f.numbers.travel_per_bit.value * way),
          .points = Points(f.numbers.travel_points.value * way)};
}

Move press(const FingerFacts& f, TouchId over, const Hold& hold) {
  Move move{.kind = MoveKind::press, .direction = Direction::down, .gap = Ms(f.numbers.pad_pressed.value)};
  move.busy = f.half_cycle;
  if (!hold.touches.contains(over)) {
    // The finger was idle, so the way there costs time but no silence.
    const double way = bits(f.instrument, shortest_way(f.instrument, {over}, hold.touches));
    move.busy += Ms(f.numbers.travel_per_bit.value * way);
    move.points = Points(f.numbers.travel_points.value * way);
  }
  move.busy_again = move.busy;
  return move;
}

Move lift(const FingerFacts& f, const Hold& hold, TouchId over) {
  // A finger that lets go first is where it was; it may travel on the next note (motion model: idle at both ends).
  if (!hold.touches.contains(over)) return {.kind = MoveKind::impossible};
  return {.kind = MoveKind::lift,
          .direction = Direction::up,
          .busy = f.half_cycle,
          .busy_again = f.half_cycle,
          .gap = Ms(f.numbers.pad_sprung.value)};
}

Move flick(const FingerFacts& f, Ms before, double way_bits, Direction direction) {
  Move move{.kind = MoveKind::flick, .direction = direction};
  move.busy = before + 2.0 * f.half_cycle;
  move.busy_again = move.busy;
  move.points = Points(f.numbers.flick_points.value + f.numbers.travel_points.value * way_bits);
  return move;
}

Ms roll_time(const FingerFacts& f, int touches) {
  return f.numbers.roll_share.value * f.half_cycle + Ms(f.numbers.roll_per_touch.value * touches);
}

Move roll(const FingerFacts& f, int touches, Direction direction) {
  const bool opens = direction == Direction::up;
  const Ms time = roll_time(f, touches);
  return {.kind = MoveKind::roll,
          .direction = direction,
          .busy = time,
          .busy_again = time,
          .gap = Ms(opens ? f.numbers.pad_sprung.value : f.numbers.pad_pressed.value),
          .points = Points(f.numbers.roll_points.value * touches)};
}

Move jump(const FingerFacts& f, const Hold& from, const Hold& to) {
  const double way = bits(f.instrument, shortest_way(f.instrument, from.touches, to.touches));
  const Ms on_the_way(f.numbers.travel_per_bit.value * way);
  Move move{.kind = MoveKind::jump, .direction = Direction::aside, .crosses = true};
  move.busy = 2.0 * f.half_cycle + on_the_way;
  move.busy_again = move.busy;
  move.gap = on_the_way + f.half_cycle;
  move.points = Points(f.numbers.jump_points.value + f.numbers.travel_points.value * way);
  return move;
}

Move slide(const FingerFacts& f, const Slide& slide, const Hold& from, const Hold& to) {
  const bool forward = from.touches.contains(slide.a);
  const TouchId start = forward ? slide.a : slide.b;
  const TouchId end = forward ? slide.b : slide.a;
  const double way = bits(distance(f.instrument, start, end), f.instrument.touches[end.index].width);
  Ms time(f.numbers.slide_per_bit.value * way);
  if (!slide.roller) time += Ms(f.numbers.slide_friction.value);
  const int others = from.touches.size() + to.touches.size() - 2;
  time += Ms(f.numbers.roll_per_touch.value * others);
  const Move by_jump = jump(f, from, to);
  Move move{.kind = MoveKind::slide, .direction = Direction::aside, .crosses = true};
  move.busy = std::min(time, by_jump.busy);
  move.busy_again = std::max(move.busy, f.half_cycle / f.numbers.sideways_ratio.value);
  move.gap = move.busy;
  move.points = Points(slide.roller ? f.numbers.roller_points.value : f.numbers.slide_points.value);
  return move;
}

/// Adding touches to a hold, or taking them off. Where a fingertip slides between what stays and what is added, it must
/// shift sideways to lie over both, and shifting back and forth is slower than up and down.
Move roll_over(const FingerFacts& f, TouchSet stays, TouchSet changes, Direction direction) {
  Move move = roll(f, changes.size(), direction);
  // A thumb lies along its keys and tilts from one to the next.
  if (digit(f.instrument.touches[stays.first().index].finger) == 0) return move;
  const Slide* s = slide_between(f.instrument, stays, changes);
  if (s == nullptr || s->one_plate) return move;
  const double way = bits(f.instrument, shortest_way(f.instrument, stays, changes));
  const Ms sideways(f.numbers.slide_per_bit.value * way + (s->roller ? 0.0 : f.numbers.slide_friction.value));
  move.busy = std::max(move.busy, sideways);
  move.points = Points(s->roller ? f.numbers.roller_points.value : f.numbers.straddle_points.value);
  move.busy_again = std::max(move.busy, f.half_cycle / f.numbers.sideways_ratio.value);
  return move;
}

Move between_holds(const FingerFacts& f, const Hold& from, const Hold& to) {
  if (from == to) return {};
  if (from.touches == to.touches) {
    const bool closing = to.half.size() < from.half.size();
    return roll(f, (from.half - to.half).size() + (to.half - from.half).size(),
                closing ? Direction::down : Direction::up);
  }
  const int off = (from.touches - to.touches).size();
  const int on = (to.touches - from.touches).size();
  if (off == 0) return roll_over(f, from.touches, to.touches - from.touches, Direction::down);
  if (on == 0) return roll_over(f, to.touches, from.touches - to.touches, Direction::up);
  if (from.touches.intersects(to.touches)) {
    // Part of the grip stays: roll off the one end and on at the other.
    Move move{.kind = MoveKind::shift, .direction = Direction::aside, .crosses = true};
    move.busy = std::min(roll_time(f, off) + roll_time(f, on), jump(f, from, to).busy);
    move.busy_again = move.busy;
    move.gap = roll_time(f, on);
    move.points = Points(f.numbers.shift_points.value);
    return move;
  }
  if (const Slide* s = slide_between(f.instrument, from.touches, to.touches)) {
    if (!s->one_plate) return slide(f, *s, from, to);
    const int others = from.touches.size() + to.touches.size() - 2;
    // The plate stays down throughout, so such a roll need not fall together with what the other fingers do.
    return roll(f, 1 + others, Direction::none);
  }
  return jump(f, from, to);
}

}  // namespace

Move move_between(const FingerFacts& f, const FingerState& from, const FingerState& to) {
  using Kind = FingerState::Kind;
  if (from.nowhere || to.nowhere) return from == to ? Move{} : Move{.kind = MoveKind::impossible};
  const bool held = from.kind == Kind::holding;
  switch (to.kind) {
    case Kind::holding:
      return held ? between_holds(f, from.hold, to.hold) : press(f, from.over, to.hold);
    case Kind::idle:
      return held ? lift(f, from.hold, to.over) : travel(f, from.over, to.over);
    case Kind::flicking:
      break;
  }
  const TouchSet start = held ? from.hold.touches : TouchSet{from.over};
  const double way = start.contains(to.over) ? 0.0 : bits(f.instrument, shortest_way(f.instrument, start, {to.over}));
  const Ms on_the_way(f.numbers.travel_per_bit.value * way);
  // Lifting from what it held is part of getting there; letting the vent go again is the second half cycle, and happens
  // while the note already sounds.
  return flick(f, on_the_way, way, held ? Direction::aside : Direction::down);
}

}  // namespace fingerway
