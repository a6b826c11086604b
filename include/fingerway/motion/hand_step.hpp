// What this part answers: one hand's part in a change from note to note, and how two parts make the whole.
// All that a change costs in time and effort is a function of these two parts; the search prices pairs of them.
#pragma once

#include <algorithm>
#include <array>

#include "fingerway/motion/transition.hpp"

namespace fingerway {

/// Where the five fingers of one hand are, thumb first.
struct HandPosture {
  std::array<StateIndex, 5> at{};

  friend auto operator<=>(const HandPosture&, const HandPosture&) = default;
};
/// One hand of a posture.
[[nodiscard]] HandPosture hand_of(const Posture& posture, Hand side);
[[nodiscard]] Posture joined(const HandPosture& left, const HandPosture& right);

/// What one hand does in a change, whatever the other does and whatever the music asks.
struct HandStep {
  Largest largest;
  float busy_again = 0;  ///< ms, as in a trill
  float moves = 0;       ///< points of the moves by themselves
  Tally tally;

  /// Takes in one finger's part.
  void add(const FingerPart& part) {
    largest.raise_to(part.largest);
    busy_again = std::max(busy_again, part.busy_again);
    moves += part.points;
    tally.add(part.tally);
  }
  [[nodiscard]] bool possible() const { return !tally.impossible(); }
  /// Some finger leaves one touch for another.
  [[nodiscard]] bool crosses() const { return tally.crosses(); }
};

/// One hand's part in every change from one posture.
class HandSteps {
 public:
  HandSteps(const HandOnInstrument& hand, Hand side, const HandPosture& from) {
    for (std::size_t d = 0; d < 5; ++d)
      parts_[d] = hand.parts_from(all_fingers[side == Hand::left ? d : d + 5], from.at[d]);
  }

  /// One finger starts from elsewhere: `parts` to each of its states.
  void from(std::size_t digit, const FingerPart* parts) { parts_[digit] = parts; }
  /// One finger's part.
  [[nodiscard]] const FingerPart& part(std::size_t digit, StateIndex to) const { return parts_[digit][to]; }
  [[nodiscard]] HandStep to(const HandPosture& posture) const {
    HandStep step;
    for (std::size_t d = 0; d < 5; ++d) step.add(part(d, posture.at[d]));
    return step;
  }

 private:
  std::array<const FingerPart*, 5> parts_{};  ///< of each finger, from its state
};

/// One hand's part in the change between two postures.
[[nodiscard]] inline HandStep hand_step(const HandOnInstrument& hand, Hand side, const HandPosture& from,
                                        const HandPosture& to) {
  return HandSteps(hand, side, from).to(to);
}

/// One hand's part as the music sees it. Nothing is set beforehand: tables of very many are made, and few looked at.
struct HandShare {
  float slowest, gap, travel;  ///< ms
  float awkward;               ///< points, all that one hand makes awkward
  std::uint8_t movers, ways;   ///< as in Together
  bool impossible;
  bool crosses;
};

/// What counts of a change of the whole hand, as numbers (`Step` tells what they mean).
struct WholeStep {
  int movers = 0;
  float slowest = 0, spread = 0, gap = 0, travel = 0, time = 0;  ///< ms
  float awkward = 0;                                             ///< points
};

/// How the parts of both hands make a whole where the music asks for this. Called for very many pairs.
class Joining {
 public:
  Joining(const HandOnInstrument& hand, const StepContext& context);

  [[nodiscard]] HandShare share(const HandStep& step) const {
    const TogetherBrief& together = hand_->together_in_brief(step.tally.ways());
    HandShare share{.slowest = back_and_forth_ ? step.busy_again : step.largest.of[Largest::busy],
                    .gap = step.largest.of[Largest::gap],
                    .travel = step.largest.of[Largest::travel],
                    .awkward = together.points + step.moves,
                    .movers = together.movers,
                    .ways = together.ways,
                    .impossible = !step.possible(),
                    .crosses = step.crosses()};
    // The note between must still sound while a finger crosses over. Whether one does is hard to foretell, so that a
    // branch would cost more.
    const float silent = std::max(0.0F, step.largest.of[Largest::crossing_gap] - hides_);
    const float crossing = static_cast<float>(step.crosses()) * (silent + shortest_sounding_);
    share.slowest = std::max(share.slowest, crossing);
    return share;
  }
  /// Of parts that are both possible.
  [[nodiscard]] WholeStep whole(const HandShare& left, const HandShare& right) const {
    WholeStep step;
    step.movers = left.movers + right.movers;
    step.slowest = std::max(left.slowest, right.slowest);
    step.travel = std::max(left.travel, right.travel);
    step.awkward = left.awkward + right.awkward + hand_->fingers_points(left.ways, right.ways, step.movers);
    step.spread = hand_->spread(left.ways, right.ways, step.movers);
    const float gap = std::max(0.0F, std::max(left.gap, right.gap) + step.spread - hides_);
    step.gap = step.movers > 0 ? gap : 0.0F;
    step.time = std::max(step.slowest + step.spread, step.travel);
    return step;
  }

 private:
  const HandOnInstrument* hand_;
  float hides_;  ///< ms of a gap that are not heard
  float shortest_sounding_;
  bool back_and_forth_;
};

/// The change of the whole hand, from what the left and the right one do.
[[nodiscard]] Step joined(const HandOnInstrument& hand, const HandStep& left, const HandStep& right,
                          const StepContext& context);

}  // namespace fingerway
