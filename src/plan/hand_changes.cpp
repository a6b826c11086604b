#include "hand_changes.hpp"

#include <algorithm>

namespace fingerway {

HandNumber HandChanges::number(const HandPosture& posture) {
  const auto [entry, is_new] = numbers_.try_emplace(posture, static_cast<HandNumber>(postures_.size()));
  if (is_new) postures_.push_back(posture);
  return entry->second;
}

HandNumber HandChanges::change(HandNumber from, HandNumber to) {
  // A passage has some hundred postures of a hand. Where it has very many, later ones are not remembered.
  constexpr HandNumber most = 4096;
  if (from >= most || to >= most) return worked_out(from, to);
  if (from >= changes_.size()) changes_.resize(from + 1);
  std::vector<HandNumber>& row = changes_[from];
  if (to >= row.size()) row.resize(std::max<std::size_t>(to + 1, std::min<std::size_t>(2 * row.size(), most)), unknown);
  if (row[to] == unknown) row[to] = worked_out(from, to);
  return row[to];
}

HandNumber HandChanges::worked_out(HandNumber from, HandNumber to) {
  const HandStep step = hand_step(hand_, side_, postures_[from], postures_[to]);
  const auto [kind, is_new] = kinds_.try_emplace(step, static_cast<HandNumber>(steps_.size()));
  if (is_new) steps_.push_back(&kind->first);
  return kind->second;
}

}  // namespace fingerway
