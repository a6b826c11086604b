// What this part answers: the measured and assumed numbers of finger movement, each with unit, range and source.
// It computes nothing; `hand.hpp` turns them into one hand. The values stand in instruments/motion.yaml only.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "fingerway/instrument/finger.hpp"

namespace fingerway {

/// How a number came about. `assumed` numbers are said to be assumed wherever they decide something.
enum class Basis { published, derived, common_practice, assumed, fitted };

/// One number with what must be known of it. `low` and `high` bound what is plausible.
struct Number {
  double value = 0.0;
  double prior = 0.0;  ///< of a fitted number: what it was before any statement; the value itself otherwise
  double low = 0.0;
  double high = 0.0;
  std::string unit;
  Basis basis = Basis::assumed;
  std::string source;
};

/// Numbers that depend on the player's level, by digit (0 thumb to 4 little finger) where it says so.
struct LevelNumbers {
  Number index_rate;                 ///< full cycles a second of the index finger at top speed, Hz
  std::array<Number, 5> rate_ratio;  ///< of each digit to the index finger
  Number onset_scatter;              ///< standard deviation of one finger's onset, ms
};

enum class Level { professional, amateur, beginner };

/// All numbers of the motion model; see instruments/motion.yaml for what each means and where it comes from.
struct MotionNumbers {
  std::array<LevelNumbers, 3> levels;  ///< by Level
  // Times.
  Number pad_pressed;             ///< ms, pad moved by the finger
  Number pad_sprung;              ///< ms, pad moved by its spring
  Number travel_per_bit;          ///< ms a bit of log2(1 + distance / width)
  Number slide_per_bit;           ///< ms a bit
  Number slide_friction;          ///< ms more without a roller
  Number sideways_ratio;          ///< sideways rate over up-and-down rate, bounds sliding back and forth
  Number roll_share;              ///< of a half cycle, to roll a touch on or off within a grip
  Number roll_per_touch;          ///< ms a touch rolled
  Number tongue_hides;            ///< ms of silence that a tongued attack hides
  Number shortest_sounding;       ///< ms a note must sound beside the gap of a jump or slide
  Number contrary_one_hand;       ///< factor on the spread when fingers of one hand go contrary ways
  Number contrary_two_hands;      ///< the same when the two hands go contrary ways
  std::array<Number, 10> spread;  ///< expected range of n scattered onsets over their deviation, n = 1..10
  // Awkwardness, points.
  Number per_finger;                    ///< a finger beyond the first
  Number same_way_share;                ///< of it for further fingers of one hand that all go the same way
  Number per_difference;                ///< a neighbouring pair doing different things
  std::array<Number, 5> individuation;  ///< by digit, 1 = the others keep still
  std::array<Number, 5> stationarity;   ///< by digit, 1 = keeps still itself
  Number far_holder_share;              ///< of lost stationarity, for a holder not beside a moving finger of its hand
  Number independence_points;           ///< points for a whole unit of lost individuation or stationarity
  Number jump_points, slide_points, roller_points, roll_points, shift_points, travel_points, flick_points;
  Number straddle_points;                   ///< shifting to lie over a second touch, or off it again
  std::array<Number, 3> comfortable_reach;  ///< mm between touches of fingers 1-2, 2-3, 3-4
  Number reach_points;                      ///< a millimetre beyond
  Number hand_span;                         ///< mm, of the hand the reaches are for; a player's own scales them
  // Choosing: how times, awkwardness and tone are weighed. One function uses them (plan/weigh).
  Number effort_floor;      ///< share of awkwardness that counts however slow the passage is
  Number tightness_points;  ///< at load 1, growing with its square
  Number misfit_points;     ///< a change that does not fit its time
  Number overload_points;   ///< a unit of load beyond 1
  Number gap_points;        ///< a millisecond of audible gap
  Number blip_points;       ///< a semitone of a passing wrong note under a slur
  Number alternate_points, alternate_points_per_second;
  Number trill_only_points, trill_only_points_per_second;  ///< the latter beyond the length of a trill's note
  Number pass_through_points;                              ///< a trill fingering passed through, not come back from
  Number later_line_points;        ///< a table line for each before it of the same note and standing
  Number harmonic_points;          ///< an overblown partial outside a trill
  Number trait_points_per_second;  ///< a drawback named by the source, on a held note
  Number dynamic_points;           ///< a trait that goes against the dynamic
  Number doubtful_points;          ///< a line of low confidence beside a sure one
  Number spare_points;             ///< a touch held down without need
  Number shade_points_per_second;  ///< a pad shut below the note without need
  Number rest_points;              ///< a touch pressed that the player wants to rest
  Number habit_points;             ///< a fingering other than the one the player is used to
  // Trills.
  Number fluent_from, workable_from, laborious_from;  ///< notes a second
  Number trill_enough;                                ///< notes a second beyond which more speed is worth nothing
  Number trill_tone;                                  ///< notes a second that a point of tone cost is worth
  Number trill_after_half_minute;                     ///< share of the rate left after 30 s
};

/// Every number with its name as it stands in the data file, for reading, for `--explain` and for sampling in ranges.
struct NamedNumber {
  std::string name;
  Number* number = nullptr;
};
[[nodiscard]] std::vector<NamedNumber> named_numbers(MotionNumbers& numbers);

[[nodiscard]] std::string_view words(Level level);

}  // namespace fingerway
