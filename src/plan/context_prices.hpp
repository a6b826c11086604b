// What this part answers: what changes weigh where the music asks for one thing, whatever notes they are between; and
// what one hand's part in a change tells of it. Private to plan.
#pragma once

#include <limits>

#include "fingerway/motion/hand_step.hpp"
#include "fingerway/plan/weigh.hpp"

namespace fingerway {

/// What changes weigh in one context, whatever notes they are between.
class ContextPrices {
 public:
  ContextPrices(const Played& played, const StepContext& context);

  /// What one hand's change weighs at least, whatever the other does: effort adds up over the hands; of the rest the
  /// worse hand's remains. There are very many, so they are kept small: beyond the largest numbers they say less, and
  /// those of two hands have room in one.
  struct Bound {
    std::int32_t effort;
    std::int32_t rest;

    static constexpr std::int32_t most_rest = std::numeric_limits<std::int32_t>::max() / 2;
    static constexpr std::int32_t most_effort = most_rest / 4;
    static constexpr std::int32_t shut = most_rest / 2;  ///< as effort: no such change
    static constexpr std::int32_t slack = 8;             ///< rounding may add a millionth and a few units
    /// Less than any: what was not worked out yet rules out nothing.
    static constexpr std::int32_t unknown = -slack - 1;
    static constexpr Bound not_known() { return {.effort = unknown, .rest = unknown}; }
    [[nodiscard]] bool known() const { return effort != unknown; }
    friend Weight sum_of(const Bound& a, const Bound& b) { return a.effort + b.effort + std::max(a.rest, b.rest); }
  };
  [[nodiscard]] Bound bound(const HandShare& share) const {
    if (share.impossible) return {.effort = Bound::shut, .rest = 0};
    if (!bounded_) return {.effort = 0, .rest = 0};
    // What one hand has to do, the change needs at least.
    const WholeStep alone = whole(share, {});
    const double load = load_of(alone);
    const auto kept = [](double points, std::int32_t most) {
      return static_cast<std::int32_t>(std::min<double>(points * 0.999999e6 - Bound::slack, most));
    };
    return {.effort = kept(alone.awkward * haste(numbers_, load), Bound::most_effort),
            .rest = kept(tightness(numbers_, load) + overload(numbers_, load) + numbers_.gap_points.value * alone.gap,
                         Bound::most_rest)};
  }
  [[nodiscard]] HandShare share(const HandStep& step) const { return joining_.share(step); }
  /// The whole change, of parts that are both possible.
  [[nodiscard]] WholeStep whole(const HandShare& left, const HandShare& right) const {
    return joining_.whole(left, right);
  }
  /// What it weighs, but for passing notes; to the last digit what step_cost() says.
  [[nodiscard]] Weight weight(const WholeStep& whole) const {
    const double load = load_of(whole);
    return fingerway::weight(Points(whole.awkward * haste(numbers_, load) + tightness(numbers_, load) +
                                    overload(numbers_, load) + numbers_.gap_points.value * whole.gap));
  }
  [[nodiscard]] double load_of(const WholeStep& whole) const { return whole.time * share_of_each_ms_; }
  /// A second hand cannot make a change cheaper.
  [[nodiscard]] bool bounded() const { return bounded_; }
  [[nodiscard]] const StepContext& context() const { return context_; }
  /// Other notes are heard only under a slur, and only on the way of several fingers.
  [[nodiscard]] bool heard(const WholeStep& whole) const { return slurred_ && whole.movers > 1; }

 private:
  const MotionNumbers& numbers_;
  StepContext context_;
  Joining joining_;
  double share_of_each_ms_;
  bool slurred_;
  bool bounded_;
};

/// The load that sets the speed limit of a change. Rests shrink with the tempo and then hide less, so it is the share
/// of its time the change takes at the very tempo at which it just fits.
[[nodiscard]] double limiting_load(const HandOnInstrument& hand, const HandStep& left, const HandStep& right,
                                   const StepContext& context);

}  // namespace fingerway
