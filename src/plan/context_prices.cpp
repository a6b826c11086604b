#include "context_prices.hpp"

#include <algorithm>

namespace fingerway {

double limiting_load(const HandOnInstrument& hand, const HandStep& left, const HandStep& right,
                     const StepContext& context) {
  const auto at_share = [&](double share) {
    StepContext faster = context;
    faster.silence = context.silence * share;
    return joined(hand, left, right, faster).load(context.available);
  };
  const double most = at_share(0.0);
  // Silence hides nothing but the way of a finger that leaves one touch for another.
  const bool hidden = context.silence > Ms(0) && (left.crosses() || right.crosses());
  if (!hidden || at_share(most) >= most) return most;
  // The less silence, the longer the change: just one share of the time equals its own load, and it lies between these.
  double least = std::min(at_share(1.0), 1.0);
  double enough = most;
  for (int halving = 0; halving < 40; ++halving) {
    const double middle = (least + enough) / 2;
    (at_share(middle) > middle ? least : enough) = middle;
  }
  return enough;
}

ContextPrices::ContextPrices(const Played& played, const StepContext& context)
    : numbers_(played.hand.numbers()),
      context_(context),
      joining_(played.hand, context),
      share_of_each_ms_(share_of_each_ms(context.available)),
      slurred_(!context.tongued && context.silence <= Ms(0)),
      bounded_(numbers_.contrary_one_hand.value >= 1.0 && numbers_.contrary_two_hands.value >= 1.0) {}

}  // namespace fingerway
