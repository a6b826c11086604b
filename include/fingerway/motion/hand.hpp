// What this part answers: one player's hand on one instrument: every state a finger can be in, and every move.
// It knows pads and notes only through the touches; whole-hand transitions stand in transition.hpp.
#pragma once

#include <array>
#include <vector>

#include "fingerway/instrument/grips.hpp"
#include "fingerway/motion/finger_part.hpp"
#include "fingerway/motion/numbers.hpp"
#include "fingerway/motion/player.hpp"

namespace fingerway {

enum class MoveKind : std::uint8_t { stay, press, lift, travel, jump, slide, roll, shift, flick, impossible };
enum class Direction : std::uint8_t { none, down, up, aside };

/// How one finger gets from one state to another.
struct Move {
  MoveKind kind = MoveKind::stay;
  Direction direction = Direction::none;
  Ms busy{0};            ///< until the finger is where the next note needs it
  Ms busy_again{0};      ///< the same when it goes back and forth, as in a trill
  Ms gap{0};             ///< in which neither note sounds right, when slurred
  Ms travel{0};          ///< of an idle finger, before the next note needs it
  Points points{0};      ///< awkwardness of the move by itself
  bool crosses = false;  ///< leaves one touch for another: the note between must still sound
};

/// A state of one finger: an index into FingerStates::all.
using StateIndex = std::uint8_t;

/// A finger holds something, or is idle over a touch, or flicks a touch at the start of the note and is idle after.
struct FingerState {
  enum class Kind : std::uint8_t { holding, idle, flicking } kind = Kind::idle;
  Hold hold;             ///< what is held; empty unless holding
  TouchId over;          ///< the touch an idle finger is over, or flicks; meaningless for a finger without touches
  bool nowhere = false;  ///< idle, and has no touch to be over

  friend bool operator==(const FingerState&, const FingerState&) = default;
};

/// All states of one finger. Holding state h (h > 0) has the index of the hold in holds_of().
struct FingerStates {
  std::vector<FingerState> all;
  std::size_t holds = 0;

  [[nodiscard]] StateIndex holding(std::size_t hold) const { return static_cast<StateIndex>(hold); }
  [[nodiscard]] StateIndex idle_over(TouchId touch) const;
  [[nodiscard]] StateIndex flicking(TouchId touch) const;
  /// Where an idle finger is when nothing is known: over its first touch.
  [[nodiscard]] StateIndex at_ease() const { return static_cast<StateIndex>(holds); }
};

/// What a level's hand needs for anything, in milliseconds; formulas in DEVELOPERS.md, numbers in
/// instruments/motion.yaml.
class HandOnInstrument {
 public:
  HandOnInstrument(const Instrument& instrument, const MotionNumbers& numbers, Level level,
                   const MeasuredHand& measured = {});

  [[nodiscard]] const MotionNumbers& numbers() const { return numbers_; }
  [[nodiscard]] Level level() const { return level_; }
  [[nodiscard]] const FingerStates& states(Finger finger) const { return states_[index(finger)]; }
  [[nodiscard]] const Move& move(Finger finger, StateIndex from, StateIndex to) const {
    const std::size_t f = index(finger);
    return moves_[f][from * states_[f].all.size() + to];
  }
  /// From a state to each of them.
  [[nodiscard]] const FingerPart* parts_from(Finger finger, StateIndex from) const {
    const std::size_t f = index(finger);
    return parts_[f].data() + from * strides_[f];
  }
  /// By the sum of the five fingers' `ways`.
  [[nodiscard]] const Together& together(std::size_t ways) const { return together_[ways]; }
  [[nodiscard]] const TogetherBrief& together_in_brief(std::size_t ways) const { return brief_[ways]; }
  /// Expected from the first of so many moving fingers to the last, in ms; from the ways of the left and of the right.
  [[nodiscard]] float spread(unsigned left_ways, unsigned right_ways, int movers) const {
    return spread_[left_ways << 3U | right_ways][static_cast<std::size_t>(movers)];
  }
  /// Points for moving so many fingers in these ways.
  [[nodiscard]] float fingers_points(unsigned left_ways, unsigned right_ways, int movers) const {
    return fingers_[left_ways << 3U | right_ways][static_cast<std::size_t>(movers)];
  }
  /// True when a finger presses something in this state.
  [[nodiscard]] bool holds(Finger finger, StateIndex state) const { return state < states_[index(finger)].holds; }
  /// Half a cycle of a finger at top speed: one press or one lift.
  [[nodiscard]] Ms half_cycle(Finger finger) const { return half_cycles_[index(finger)]; }
  /// Awkwardness of holding these two states at once on neighbouring fingers (reach beyond comfort).
  [[nodiscard]] Points reach(Finger finger, StateIndex a, StateIndex next_finger) const;

 private:
  MotionNumbers numbers_;
  Level level_;
  std::array<Ms, finger_count> half_cycles_;
  std::array<FingerStates, finger_count> states_;
  std::array<std::vector<Move>, finger_count> moves_;
  std::array<std::vector<FingerPart>, finger_count> parts_;  ///< as moves_
  std::array<std::size_t, finger_count> strides_{};          ///< of parts_, by state before
  std::vector<Together> together_;
  std::vector<TogetherBrief> brief_;  ///< as together_
  MoversTable spread_{}, fingers_{};
  std::array<std::vector<Points>, finger_count> reach_;  ///< with the next finger of the same hand; empty where none
};

}  // namespace fingerway
