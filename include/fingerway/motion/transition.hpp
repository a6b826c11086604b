// What this part answers: how long the whole hand takes from one note to the next, and how awkward that is.
// It does not weigh time against awkwardness (plan/weigh) and does not know what sounds on the way (plan/passing).
#pragma once

#include <array>
#include <string_view>
#include <vector>

#include "fingerway/motion/hand.hpp"

namespace fingerway {

/// Where every finger is while a note sounds: the state of each.
struct Posture {
  std::array<StateIndex, finger_count> at{};

  friend auto operator<=>(const Posture&, const Posture&) = default;
};

/// What the music asks of a change.
struct StepContext {
  Ms available{0};  ///< from the start of the one note to the start of the next
  Ms silence{0};    ///< of it, written rest before the next note
  bool tongued = true;
  bool back_and_forth = false;  ///< one of many repetitions, as in a trill

  friend auto operator<=>(const StepContext&, const StepContext&) = default;
};

/// How much of the time there is each ms takes; 0 where nothing is said of the time.
[[nodiscard]] inline double share_of_each_ms(Ms available) { return available > Ms(0) ? 1.0 / available.count() : 0.0; }

/// What makes a change awkward, each in points.
enum class Term : std::uint8_t { fingers, differences, individuation, holding, moves };
inline constexpr std::size_t term_count = 5;
/// "more than one finger", "neighbours doing different things", ...
[[nodiscard]] std::string_view words(Term term);

/// A change of the whole hand.
struct Step {
  bool possible = true;
  int movers = 0;  ///< fingers that move for the next note; idle travel does not count
  Ms slowest{0};   ///< the busiest finger, with the time a note must sound beside a gap
  Ms spread{0};    ///< expected from the first finger to the last
  Ms gap{0};       ///< heard, after what the tongue or a rest hides
  Ms travel{0};    ///< the longest way of an idle finger
  Ms time{0};      ///< the shortest note that sustains the change: slowest + spread, or the travel
  std::array<double, term_count> terms{};
  double awkward = 0;  ///< points, all terms

  /// Share of the time there is.
  [[nodiscard]] double load(Ms available) const { return time.count() * share_of_each_ms(available); }
  [[nodiscard]] Points awkwardness() const { return Points(awkward); }
};

/// The change from one posture to the next. Cheap: called for every edge of the search.
[[nodiscard]] Step step(const HandOnInstrument& hand, const Posture& from, const Posture& to,
                        const StepContext& context);

/// One finger's part in a change.
struct FingerMove {
  Finger finger = Finger::LT;
  Move move;
  FingerState from;
  FingerState to;
};
/// The fingers that do something, in order LT, L1 ... R4.
[[nodiscard]] std::vector<FingerMove> finger_moves(const HandOnInstrument& hand, const Posture& from,
                                                   const Posture& to);

/// Awkwardness of a posture by itself: reach beyond comfort.
[[nodiscard]] Points strain(const HandOnInstrument& hand, const Posture& posture);

/// Notes a second of a trill between two postures: both directions averaged, each as one of many repetitions.
/// Zero when no hand can do it.
[[nodiscard]] NotesPerSecond trill_rate(const HandOnInstrument& hand, const Posture& a, const Posture& b);

}  // namespace fingerway
