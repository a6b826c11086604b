#include "least_parts.hpp"

#include <algorithm>

namespace fingerway {
namespace {

/// The least of each, of parts that may be taken.
class Least {
 public:
  void offer(const FingerPart& part) {
    if (part.tally.impossible()) return;
    if (least_.tally.impossible()) {
      least_ = part;
      return;
    }
    least_.largest.lower_to(part.largest);
    least_.busy_again = std::min(least_.busy_again, part.busy_again);
    least_.points = std::min(least_.points, part.points);
    alike_ = alike_ && least_.tally.ways() == part.tally.ways();
    if (!part.tally.crosses()) least_.tally = Tally(least_.tally.ways(), false, false);
  }
  [[nodiscard]] const FingerPart& part() const { return least_; }
  [[nodiscard]] bool alike() const { return alike_; }

 private:
  FingerPart least_{.largest = {}, .tally = Tally(0, true, false)};
  bool alike_ = true;
};

}  // namespace

const Several& LeastParts::of(Finger finger, std::span<const StateIndex> states) {
  std::vector<Known>& known = known_[index(finger)];
  const auto same = std::ranges::find_if(known, [&](const Known& k) { return std::ranges::equal(k.states, states); });
  if (same != known.end()) return *same->several;
  known.push_back({.states = {states.begin(), states.end()}, .several = std::make_unique<Several>()});
  Several& several = *known.back().several;
  const std::size_t count = hand_.states(finger).all.size();
  for (std::size_t other = 0; other < count; ++other) {
    Least from, to;
    for (const StateIndex state : states) {
      from.offer(hand_.parts_from(finger, state)[other]);
      to.offer(hand_.parts_from(finger, static_cast<StateIndex>(other))[state]);
    }
    several.from.push_back(from.part());
    several.to.push_back(to.part());
    several.alike = several.alike && from.alike() && to.alike();
  }
  return several;
}

}  // namespace fingerway
