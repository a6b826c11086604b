// A change of the whole hand on the toy instrument, worked out by hand. Amateur level: half a cycle is 83.33 ms for the
// index finger and 500 / (6 * 0.98) = 85.03 ms for the middle one; onsets scatter by 16.5 ms.
#include <catch2/catch.hpp>

#include "fingerway/motion/hand_step.hpp"
#include "fingerway/motion/transition.hpp"
#include "support/passages.hpp"
#include "support/toy_world.hpp"

using namespace fingerway;

namespace {

constexpr double index_half = 500.0 / 6.0;
constexpr double middle_half = 500.0 / (6.0 * 0.98);
constexpr double two_fingers = 16.5 * 1.128;

/// The toy with a fourth key for the right index finger.
const HandOnInstrument& hand() {
  static const HandOnInstrument made = [] {
    Instrument toy = toy_instrument();
    Touch right = toy.touches[0];
    right.finger = Finger::R1;
    toy.touches.push_back(right);
    return HandOnInstrument(toy, prior_numbers(), Level::amateur);
  }();
  return made;
}

/// Which fingers hold what: hold numbers of L1 (0 nothing, 1 one, 2 two, 3 both), L2 and R1; 0 is idle over its first.
Posture at(std::size_t left_index, std::size_t left_middle, std::size_t right_index = 0) {
  Posture posture;
  for (Finger finger : all_fingers) posture.at[index(finger)] = hand().states(finger).at_ease();
  const auto set = [&](Finger finger, std::size_t hold) {
    if (hold != 0) posture.at[index(finger)] = hand().states(finger).holding(hold);
  };
  set(Finger::L1, left_index);
  set(Finger::L2, left_middle);
  set(Finger::R1, right_index);
  return posture;
}

StepContext slurred(double available = 200.0) {
  StepContext context;
  context.available = Ms(available);
  context.tongued = false;
  return context;
}

double term(const Step& step, Term name) { return step.terms[static_cast<std::size_t>(name)]; }

}  // namespace

TEST_CASE("a hand that stays takes nothing") {
  const Step step = fingerway::step(hand(), at(1, 1), at(1, 1), slurred());
  CHECK(step.possible);
  CHECK(step.movers == 0);
  CHECK(step.time == Ms(0));
  CHECK(step.gap == Ms(0));
  CHECK(step.awkwardness() == Points(0));
}

TEST_CASE("one finger takes its half cycle, alone") {
  const Step step = fingerway::step(hand(), at(0, 0), at(1, 0), slurred());
  CHECK(step.movers == 1);
  CHECK(step.time.count() == Approx(index_half));
  CHECK(step.spread == Ms(0));
  CHECK(step.gap == Ms(10));
  CHECK(step.load(Ms(100)) == Approx(index_half / 100.0));
}

TEST_CASE("two fingers the same way take the slower one's half cycle and their spread") {
  const Step step = fingerway::step(hand(), at(0, 0), at(1, 1), slurred());
  CHECK(step.movers == 2);
  CHECK(step.slowest.count() == Approx(middle_half));
  CHECK(step.spread.count() == Approx(two_fingers));
  CHECK(step.time.count() == Approx(middle_half + two_fingers));
  CHECK(step.gap.count() == Approx(10.0 + two_fingers));
}

TEST_CASE("fingers of one hand going contrary ways spread twice as far") {
  const Step step = fingerway::step(hand(), at(1, 0), at(0, 1), slurred());
  CHECK(step.spread.count() == Approx(2.0 * two_fingers));
  CHECK(step.time.count() == Approx(middle_half + 2.0 * two_fingers));
  CHECK(step.gap.count() == Approx(16.0 + 2.0 * two_fingers));
}

TEST_CASE("hands going contrary ways spread 1.45 times as far, hands going the same way no further") {
  CHECK(fingerway::step(hand(), at(1, 0, 0), at(0, 0, 1), slurred()).spread.count() == Approx(1.45 * two_fingers));
  CHECK(fingerway::step(hand(), at(0, 0, 0), at(1, 0, 1), slurred()).spread.count() == Approx(two_fingers));
}

TEST_CASE("a tongued attack hides 34.5 ms of the gap, a rest as long as it lasts") {
  StepContext context = slurred();
  const double heard = 16.0 + 2.0 * two_fingers;
  context.tongued = true;
  CHECK(fingerway::step(hand(), at(1, 0), at(0, 1), context).gap.count() == Approx(heard - 34.5));
  context.silence = Ms(40);
  CHECK(fingerway::step(hand(), at(1, 0), at(0, 1), context).gap.count() == Approx(heard - 40.0));
  context.silence = Ms(100);
  CHECK(fingerway::step(hand(), at(1, 0), at(0, 1), context).gap == Ms(0));
  // What is hidden takes its time all the same.
  CHECK(fingerway::step(hand(), at(1, 0), at(0, 1), context).time.count() == Approx(middle_half + 2.0 * two_fingers));
}

TEST_CASE("a note must sound for 50 ms beside the gap of a slide") {
  // The slide takes 88 ms and is silent as long; the note before it must still be heard.
  CHECK(fingerway::step(hand(), at(1, 0), at(2, 0), slurred()).time.count() == Approx(88.0 + 50.0));
  StepContext context = slurred();
  context.silence = Ms(60);
  CHECK(fingerway::step(hand(), at(1, 0), at(2, 0), context).time.count() == Approx(88.0));
}

TEST_CASE("an idle finger's travel bounds the note but moves nothing that is heard") {
  Posture to = at(0, 1);
  to.at[index(Finger::L1)] = hand().states(Finger::L1).idle_over(toy_two);
  const Step step = fingerway::step(hand(), at(0, 0), to, slurred());
  CHECK(step.movers == 1);
  CHECK(step.travel.count() == Approx(40.0));
  CHECK(step.time.count() == Approx(middle_half));
  CHECK(step.gap == Ms(10));
  const Step travel_only = fingerway::step(hand(), at(0, 1), to, slurred());
  CHECK(travel_only.movers == 0);
  CHECK(travel_only.time.count() == Approx(40.0));
  CHECK(travel_only.awkwardness().value() == Approx(1.5));
}

TEST_CASE("awkwardness of two fingers going the same way, term by term") {
  const Step step = fingerway::step(hand(), at(0, 0), at(1, 1), slurred());
  // The second goes with the first: 0.3 of a finger more (assumed).
  CHECK(term(step, Term::fingers) == Approx(0.3 * 13.6));
  // Thumb and index, middle and ring: one of each pair moves. Index and middle do the same.
  CHECK(term(step, Term::differences) == Approx(2 * 4.67));
  // Hager-Ross and Schieber 2000: individuation 0.982 (index), 0.937 (middle).
  // One of three others goes along anyway.
  CHECK(term(step, Term::individuation) == Approx(100 * (0.018 + 0.063) * 2.0 / 3.0));
  CHECK(term(step, Term::holding) == Approx(0.0));
  CHECK(term(step, Term::moves) == Approx(0.0));
}

TEST_CASE("neighbours going contrary ways count twice, and the second finger in full") {
  const Step step = fingerway::step(hand(), at(1, 0), at(0, 1), slurred());
  CHECK(term(step, Term::fingers) == Approx(13.6));
  CHECK(term(step, Term::individuation) == Approx(100 * (0.018 + 0.063)));
  CHECK(term(step, Term::differences) == Approx(4 * 4.67));
}

TEST_CASE("a neighbour that must hold still counts") {
  const Step step = fingerway::step(hand(), at(0, 1), at(1, 1), slurred());
  // Hager-Ross and Schieber 2000: stationarity of the middle finger 0.941.
  CHECK(term(step, Term::holding) == Approx(100 * 0.059));
  CHECK(term(fingerway::step(hand(), at(0, 0), at(1, 0), slurred()), Term::holding) == Approx(0.0));
}

TEST_CASE("the moves of a change are those of the fingers that do something") {
  const auto moves = finger_moves(hand(), at(1, 0), at(2, 1));
  REQUIRE(moves.size() == 2);
  CHECK(moves[0].finger == Finger::L1);
  CHECK(moves[0].move.kind == MoveKind::slide);
  CHECK(moves[1].finger == Finger::L2);
  CHECK(moves[1].move.kind == MoveKind::press);
  CHECK(finger_moves(hand(), at(1, 1), at(1, 1)).empty());
}

TEST_CASE("a trill's rate is the mean of both its directions") {
  // One finger: 83.33 ms there and back, 12 notes a second.
  CHECK(trill_rate(hand(), at(0, 0), at(1, 0)).value() == Approx(12.0));
  // Sliding to and fro: 83.33 / 0.7 ms by the sideways rate, but 88 + 50 ms so that each note still sounds.
  CHECK(trill_rate(hand(), at(1, 0), at(2, 0)).value() == Approx(1000.0 / 138.0));
  CHECK(trill_rate(hand(), at(0, 0), at(0, 0)).value() == 0.0);
}

TEST_CASE("a trill to a wider key goes there faster than it comes back, and its rate is the mean") {
  Instrument toy = toy_instrument();
  toy.slides.clear();
  toy.touches[1].width = Mm(40.0);
  const HandOnInstrument uneven(toy, prior_numbers(), Level::amateur);
  Posture narrow;
  for (Finger finger : all_fingers) narrow.at[index(finger)] = uneven.states(finger).at_ease();
  Posture wide = narrow;
  narrow.at[index(Finger::L1)] = uneven.states(Finger::L1).holding(1);
  wide.at[index(Finger::L1)] = uneven.states(Finger::L1).holding(2);
  StepContext again = slurred();
  again.back_and_forth = true;
  const double there = step(uneven, narrow, wide, again).time.count();
  const double back = step(uneven, wide, narrow, again).time.count();
  CHECK(there < back);
  CHECK(trill_rate(uneven, narrow, wide).value() == Approx(2000.0 / (there + back)));
}

TEST_CASE("the ring finger's reach to the little finger strains too") {
  Instrument toy = toy_instrument();
  for (const auto& [finger, along] : {std::pair(Finger::L3, 30.0), std::pair(Finger::L4, 230.0)}) {
    Touch touch = toy.touches[0];
    touch.finger = finger;
    touch.spot.along = Mm(along);
    toy.touches.push_back(touch);
  }
  const HandOnInstrument stretched(toy, prior_numbers(), Level::amateur);
  Posture posture;
  for (Finger finger : all_fingers) posture.at[index(finger)] = stretched.states(finger).at_ease();
  posture.at[index(Finger::L3)] = stretched.states(Finger::L3).holding(1);
  posture.at[index(Finger::L4)] = stretched.states(Finger::L4).holding(1);
  const MotionNumbers& n = prior_numbers();
  CHECK(strain(stretched, posture).value() == Approx((200.0 - n.comfortable_reach[2].value) * n.reach_points.value));
}

TEST_CASE("fingers stretched beyond comfort are strained, others are not") {
  CHECK(strain(hand(), at(1, 1)) == Points(0));  // 20 mm between index and middle: 42 is comfortable
  Instrument wide = toy_instrument();
  wide.touches[2].spot.along = Mm(52.0);
  const HandOnInstrument stretched(wide, prior_numbers(), Level::amateur);
  Posture posture;
  for (Finger finger : all_fingers) posture.at[index(finger)] = stretched.states(finger).at_ease();
  posture.at[index(Finger::L1)] = stretched.states(Finger::L1).holding(1);
  posture.at[index(Finger::L2)] = stretched.states(Finger::L2).holding(1);
  CHECK(strain(stretched, posture).value() == Approx(0.5 * 10.0));
}

TEST_CASE("a hand cannot do what one or all of its fingers cannot, and crosses where one of them does") {
  for (int able = 0; able <= 5; ++able) {
    HandStep step;
    for (int finger = 0; finger < 5; ++finger) {
      FingerPart part;
      part.tally = Tally(1, finger >= able, finger < able);
      step.add(part);
    }
    CAPTURE(able);
    CHECK(step.possible() == (able == 5));
    CHECK(step.crosses() == (able > 0));
    CHECK(step.tally.ways() == 5);
  }
}
