#include "hand_changes.hpp"

#include <algorithm>

namespace fingerway {

HandNumber HandChanges::newly_met(HandNumber from, HandNumber to) {
  const auto worked_out = [&] { return kinds_.number(hand_step(hand_, side_, postures_[from], postures_[to])); };
  // A passage has some hundred postures of a hand. Where it has very many, later ones are not remembered.
  constexpr HandNumber most = 4096;
  if (from >= most || to >= most) return worked_out();
  if (from >= changes_.size()) changes_.resize(from + 1);
  std::vector<HandNumber>& row = changes_[from];
  if (to >= row.size()) row.resize(std::max<std::size_t>(to + 1, std::min<std::size_t>(2 * row.size(), most)), unknown);
  return row[to] = worked_out();
}

std::size_t HandChanges::PostureHash::operator()(const HandPosture& posture) const {
  std::uint64_t word = 0;
  for (const StateIndex state : posture.at) word = word << 8U | state;
  return Mixed().add(word).value();
}

std::size_t HandChanges::StepHash::operator()(const HandStep& step) const {
  const std::uint64_t small = std::uint64_t{step.possible} | std::uint64_t{step.crosses} << 1U |
                              std::uint64_t{step.movers} << 8U | std::uint64_t{step.groups} << 16U |
                              std::uint64_t{step.ways} << 24U | std::uint64_t{step.differences} << 32U;
  Mixed mixed;
  mixed.add(small).add_real(step.busy.count()).add_real(step.gap.count()).add_real(step.travel.count());
  mixed.add_real(step.individuation).add_real(step.holding).add_real(step.moves);
  return mixed.value();
}

}  // namespace fingerway
