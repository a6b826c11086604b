// What this part answers: ways on (rows.hpp) that were found before, when the same lies ahead again.
// It prices nothing itself.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "fingerway/search/rows.hpp"

namespace fingerway {

/// What went on before over the same steps, for when the same lies ahead again: after a change elsewhere, or in music
/// that repeats. Weights ahead that differ by the same amount everywhere are the same but for that amount.
class RememberedWays {
 public:
  /// Adds the bytes that it comes to hold to `held`.
  explicit RememberedWays(std::size_t& held) : held_(held) {}

  /// As ways_on(), above the least weight of `ahead`, which is taken off it. `steps` gives the steps, the same at every
  /// call; it is asked only where they are needed. Holds until the next call.
  template <class Steps>
  [[nodiscard]] const WaysOn& ways_on(const Steps& steps, std::vector<Weight>& ahead, Weight& least) {
    least = std::ranges::min(ahead);
    if (is_forbidden(least)) least = 0;
    for (Weight& weight : ahead) weight = is_forbidden(weight) ? forbidden : weight - least;
    const auto known = std::ranges::find(kept_, ahead, &Remembered::ahead);
    if (known != kept_.end()) return known->on;
    if (kept_.size() < most) kept_.emplace_back();
    Remembered& place = kept_[oldest_++ % most];
    place.on = fingerway::ways_on(steps(), std::span<const Weight>(ahead));
    const bool is_new = place.ahead.empty();
    place.ahead = ahead;
    if (is_new) held_ += sizeof(Remembered) + 12 * place.on.next.size() + 8 * ahead.size();
    return place.on;
  }
  /// As smoothest_on().
  template <class Steps>
  [[nodiscard]] const std::vector<Load>& smoothest_on(const Steps& steps, const std::vector<Load>& ahead) {
    if (loads_.empty() || ahead != loads_ahead_) {
      if (loads_.empty()) held_ += 8 * ahead.size();
      loads_ = fingerway::smoothest_on(steps(), std::span<const Load>(ahead));
      loads_ahead_ = ahead;
    }
    return loads_;
  }

 private:
  struct Remembered {
    std::vector<Weight> ahead;
    WaysOn on;
  };
  static constexpr std::size_t most = 4;

  std::size_t& held_;
  std::vector<Remembered> kept_;
  std::size_t oldest_ = 0;
  std::vector<Load> loads_ahead_, loads_;
};

}  // namespace fingerway
