// Every kind of move of one finger on the toy instrument, worked out by hand. Amateur level: the index finger makes six
// full cycles a second, so half a cycle is 500 / 6 = 83.33 ms; touches are 10 mm apart and 10 mm wide, so one bit away.
#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>

#include "fingerway/motion/transition.hpp"
#include "support/passages.hpp"
#include "support/toy_world.hpp"

using namespace fingerway;

namespace {

constexpr double half = 500.0 / 6.0;

/// The toy with a third touch for L1, 20 mm from the first, in a row of grips with the others.
Instrument toy_row() {
  Instrument toy = toy_instrument();
  Touch third = toy.touches[0];
  third.name = "far";
  third.spot.along = Mm(20.0);
  toy.touches.push_back(third);
  toy.touches[0].can_be_half = true;
  toy.grips.push_back({.touches = {toy_two, TouchId(3)}, .evidence = {}});
  toy.grips.push_back({.touches = {toy_one, toy_two, TouchId(3)}, .evidence = {}});
  return toy;
}

struct Finger1 {
  explicit Finger1(Instrument instrument, Level level = Level::amateur)
      : toy(std::move(instrument)), hand(toy, prior_numbers(), level) {}

  [[nodiscard]] StateIndex held(TouchSet touches, TouchSet half_touches = {}) const {
    const auto holds = holds_of(toy, Finger::L1);
    for (std::size_t h = 0; h < holds.size(); ++h) {
      if (holds[h].touches == touches && holds[h].half == half_touches) return hand.states(Finger::L1).holding(h);
    }
    throw std::runtime_error("no such hold");
  }
  [[nodiscard]] StateIndex over(TouchId touch) const { return hand.states(Finger::L1).idle_over(touch); }
  [[nodiscard]] StateIndex flicks(TouchId touch) const { return hand.states(Finger::L1).flicking(touch); }
  [[nodiscard]] Move move(StateIndex from, StateIndex to) const { return hand.move(Finger::L1, from, to); }

  Instrument toy;
  HandOnInstrument hand;
};

constexpr TouchId far_touch(3);

}  // namespace

TEST_CASE("a finger that stays takes no time") {
  const Finger1 f(toy_row());
  for (StateIndex state : {f.over(toy_one), f.held({toy_one}), f.held({toy_one, toy_two})}) {
    CHECK(f.move(state, state).kind == MoveKind::stay);
    CHECK(f.move(state, state).busy == Ms(0));
    CHECK(f.move(state, state).gap == Ms(0));
  }
}

TEST_CASE("pressing the touch a finger is over takes half a cycle, and the pad 10 ms") {
  const Finger1 f(toy_row());
  const Move press = f.move(f.over(toy_one), f.held({toy_one}));
  CHECK(press.kind == MoveKind::press);
  CHECK(press.direction == Direction::down);
  CHECK(press.busy.count() == Approx(half));
  // Almeida et al. 2009 (flute; abstract): a key closes in about 10 ms when the finger drives it.
  CHECK(press.gap == Ms(10));
  CHECK(press.points == Points(0));
  CHECK_FALSE(press.crosses);
}

TEST_CASE("letting go takes half a cycle, and the pad 16 ms") {
  const Finger1 f(toy_row());
  const Move lift = f.move(f.held({toy_one}), f.over(toy_one));
  CHECK(lift.kind == MoveKind::lift);
  CHECK(lift.direction == Direction::up);
  CHECK(lift.busy.count() == Approx(half));
  // Almeida et al. 2009 (flute; abstract): about 16 ms when its spring drives it.
  CHECK(lift.gap == Ms(16));
}

TEST_CASE("a finger that lets go is where it was") {
  const Finger1 f(toy_row());
  CHECK(f.move(f.held({toy_one}), f.over(toy_two)).kind == MoveKind::impossible);
  CHECK(f.move(f.held({toy_one, toy_two}), f.over(toy_two)).kind == MoveKind::lift);
}

TEST_CASE("an idle finger travels 40 ms a bit and is not busy with it") {
  const Finger1 f(toy_row());
  const Move near = f.move(f.over(toy_one), f.over(toy_two));
  CHECK(near.kind == MoveKind::travel);
  CHECK(near.direction == Direction::none);
  CHECK(near.travel.count() == Approx(40.0));  // log2(1 + 10/10) = 1 bit
  CHECK(near.busy == Ms(0));
  CHECK(near.gap == Ms(0));
  CHECK(near.points.value() == Approx(1.5));
  const Move far = f.move(f.over(toy_one), f.over(far_touch));
  CHECK(far.travel.count() == Approx(40.0 * std::log2(3.0)));  // 20 mm: log2(1 + 20/10)
}

TEST_CASE("travel follows Fitts's law in Shannon's form: the same ratio of way to width takes the same time") {
  // MacKenzie's form of Fitts's law: time grows with log2(1 + D/W).
  Instrument toy = toy_row();
  toy.touches[1].spot.along = Mm(30.0);
  toy.touches[1].width = Mm(10.0);
  CHECK(Finger1(toy).move(Finger1(toy).over(toy_one), Finger1(toy).over(toy_two)).travel.count() == Approx(80.0));
  toy.touches[1].spot.along = Mm(15.0);
  toy.touches[1].width = Mm(5.0);
  CHECK(Finger1(toy).move(Finger1(toy).over(toy_one), Finger1(toy).over(toy_two)).travel.count() == Approx(80.0));
}

TEST_CASE("pressing a touch the finger is not over takes the travel as well") {
  const Finger1 f(toy_row());
  const Move press = f.move(f.over(toy_one), f.held({toy_two}));
  CHECK(press.kind == MoveKind::press);
  CHECK(press.busy.count() == Approx(half + 40.0));
  CHECK(press.gap == Ms(10));
  CHECK(press.points.value() == Approx(1.5));
}

TEST_CASE("a slide without a roller takes 58 ms a bit and 30 more") {
  const Finger1 f(toy_row());
  const Move slide = f.move(f.held({toy_one}), f.held({toy_two}));
  CHECK(slide.kind == MoveKind::slide);
  CHECK(slide.direction == Direction::aside);
  CHECK(slide.busy.count() == Approx(88.0));
  CHECK(slide.gap.count() == Approx(88.0));
  CHECK(slide.points.value() == Approx(18.0));
  CHECK(slide.crosses);
  // To and fro no faster than a finger can go sideways: half a cycle over 0.7.
  CHECK(slide.busy_again.count() == Approx(half / 0.7));
}

TEST_CASE("a slide over rollers takes 58 ms a bit") {
  Instrument toy = toy_row();
  toy.slides[0].roller = true;
  const Finger1 f(toy);
  const Move slide = f.move(f.held({toy_one}), f.held({toy_two}));
  CHECK(slide.busy.count() == Approx(58.0));
  CHECK(slide.busy_again.count() == Approx(half / 0.7));
  CHECK(slide.points.value() == Approx(6.0));
}

TEST_CASE("a slide is never slower than a jump") {
  Instrument toy = toy_row();
  toy.touches[1].spot.along = Mm(10.0 * 1023.0);  // ten bits: 610 ms to slide, 567 to jump
  const Finger1 f(toy);
  CHECK(f.move(f.held({toy_one}), f.held({toy_two})).busy.count() == Approx(2 * half + 400.0));
}

TEST_CASE("a jump takes a lift, the way and a press; it is silent for the way and the press") {
  const Finger1 f(toy_row());
  const Move jump = f.move(f.held({toy_one}), f.held({far_touch}));
  const double way = 40.0 * std::log2(3.0);
  CHECK(jump.kind == MoveKind::jump);
  CHECK(jump.busy.count() == Approx(2 * half + way));
  CHECK(jump.gap.count() == Approx(half + way));
  CHECK(jump.points.value() == Approx(30.0 + 1.5 * std::log2(3.0)));
  CHECK(jump.crosses);
}

TEST_CASE("to a hold of several touches the finger goes the shortest way") {
  Instrument row = toy_row();
  row.slides.clear();
  const Finger1 f(row);
  CHECK(f.move(f.over(toy_one), f.held({toy_two, far_touch})).busy.count() == Approx(half + 40.0));
  CHECK(f.move(f.held({toy_one}), f.held({toy_two, far_touch})).busy.count() == Approx(2 * half + 40.0));
}

TEST_CASE("rolling a touch on or off takes 0.8 of half a cycle and 10 ms a touch") {
  Instrument row = toy_row();
  row.slides.clear();
  const Finger1 f(row);
  const Move on = f.move(f.held({toy_one}), f.held({toy_one, toy_two}));
  CHECK(on.kind == MoveKind::roll);
  CHECK(on.direction == Direction::down);
  CHECK(on.busy.count() == Approx(0.8 * half + 10.0));
  CHECK(on.busy_again == on.busy);
  CHECK(on.gap == Ms(10));
  CHECK(on.points.value() == Approx(3.0));
  const Move off = f.move(f.held({toy_one, toy_two, far_touch}), f.held({toy_one}));
  CHECK(off.direction == Direction::up);
  CHECK(off.busy.count() == Approx(0.8 * half + 20.0));
  CHECK(off.gap == Ms(16));
  CHECK(off.points.value() == Approx(6.0));
}

TEST_CASE("lying over two touches the finger slides between is a shift sideways, but nothing falls silent") {
  const Finger1 f(toy_row());
  const Move on = f.move(f.held({toy_one}), f.held({toy_one, toy_two}));
  CHECK(on.kind == MoveKind::roll);
  CHECK(on.busy.count() == Approx(88.0));
  CHECK(on.busy_again.count() == Approx(half / 0.7));
  CHECK(on.gap == Ms(10));
  CHECK(on.points.value() == Approx(25.0));
  CHECK_FALSE(on.crosses);
  Instrument rollers = toy_row();
  rollers.slides[0].roller = true;
  const Finger1 eased(rollers);
  CHECK(eased.move(eased.held({toy_one}), eased.held({toy_one, toy_two})).points.value() == Approx(6.0));
}

TEST_CASE("on one plate the finger rolls from part to part and falls together with nothing") {
  Instrument plate = toy_row();
  plate.slides[0].one_plate = true;
  const Finger1 f(plate);
  const Move over = f.move(f.held({toy_one}), f.held({toy_two}));
  CHECK(over.kind == MoveKind::roll);
  CHECK(over.direction == Direction::none);
  CHECK(over.busy.count() == Approx(0.8 * half + 10.0));
  CHECK_FALSE(over.crosses);
}

TEST_CASE("a half hole is rolled on and off") {
  const Finger1 f(toy_row());
  const Move opening = f.move(f.held({toy_one}), f.held({toy_one}, {toy_one}));
  CHECK(opening.kind == MoveKind::roll);
  CHECK(opening.direction == Direction::up);
  CHECK(opening.busy.count() == Approx(0.8 * half + 10.0));
  CHECK(f.move(f.held({toy_one}, {toy_one}), f.held({toy_one})).direction == Direction::down);
}

TEST_CASE("a shift along a row rolls off one end and on at the other") {
  const Finger1 f(toy_row());
  const Move shift = f.move(f.held({toy_one, toy_two}), f.held({toy_two, far_touch}));
  CHECK(shift.kind == MoveKind::shift);
  CHECK(shift.busy.count() == Approx(2 * (0.8 * half + 10.0)));
  CHECK(shift.gap.count() == Approx(0.8 * half + 10.0));
  CHECK(shift.points.value() == Approx(20.0));
}

TEST_CASE("while a finger shifts, neither note sounds as long as it rolls on") {
  Instrument row = toy_row();
  Touch fourth = row.touches[3];
  fourth.name = "farthest";
  fourth.spot.along = Mm(30.0);
  row.touches.push_back(fourth);
  row.grips.push_back({.touches = {toy_two, far_touch, TouchId(4)}, .evidence = {}});
  const Finger1 f(row);
  const Move one_off_two_on = f.move(f.held({toy_one, toy_two}), f.held({toy_two, far_touch, TouchId(4)}));
  CHECK(one_off_two_on.kind == MoveKind::shift);
  CHECK(one_off_two_on.gap.count() == Approx(0.8 * half + 20.0));
}

TEST_CASE("a flick presses and lets go at the start of the note") {
  const Finger1 f(toy_row());
  const Move flick = f.move(f.over(toy_one), f.flicks(toy_one));
  CHECK(flick.kind == MoveKind::flick);
  CHECK(flick.busy.count() == Approx(2 * half));
  CHECK(flick.gap == Ms(0));
  CHECK(flick.points.value() == Approx(6.0));
  // From another touch the way is added. Letting go of what it held is the first half cycle then, and the vent is let
  // go while the note already sounds.
  CHECK(f.move(f.over(toy_two), f.flicks(toy_one)).busy.count() == Approx(2 * half + 40.0));
  CHECK(f.move(f.held({toy_two}), f.flicks(toy_one)).busy.count() == Approx(2 * half + 40.0));
}

TEST_CASE("after a flick the finger is idle over the touch it flicked") {
  const Finger1 f(toy_row());
  CHECK(f.move(f.flicks(toy_one), f.held({toy_one})).busy.count() == Approx(half));
  CHECK(f.move(f.flicks(toy_one), f.held({toy_two})).busy.count() == Approx(half + 40.0));
  CHECK(f.move(f.flicks(toy_one), f.over(toy_one)).travel == Ms(0));
}

TEST_CASE("a longer way is never quicker, a wider touch never slower") {
  double last = 0.0;
  for (double along : {5.0, 10.0, 20.0, 40.0, 80.0}) {
    Instrument toy = toy_row();
    toy.slides.clear();
    toy.touches[1].spot.along = Mm(along);
    const Finger1 f(toy);
    const double busy = f.move(f.held({toy_one}), f.held({toy_two})).busy.count();
    CHECK(busy > last);
    last = busy;
    toy.touches[1].width = Mm(20.0);
    const Finger1 wide(toy);
    CHECK(wide.move(wide.held({toy_one}), wide.held({toy_two})).busy.count() < busy);
  }
}
