#include "fingerway/decide/losses.hpp"

#include <algorithm>
#include <cassert>

namespace fingerway {
namespace {

/// Smaller differences than this are not worth a line.
constexpr Points telling{0.05};

Points cost_at(const PlannedNote& note) {
  return note.cost.total() + (note.arrive ? note.arrive->cost.total() : Points(0));
}

}  // namespace

std::vector<Loss> losses(const Plan& own, const Plan& best) {
  assert(own.notes.size() == best.notes.size());
  std::vector<Loss> all;
  for (std::size_t i = 0; i < own.notes.size(); ++i) {
    const Points more = cost_at(own.notes[i]) - cost_at(best.notes[i]);
    if (more > telling) all.push_back({.note = i, .points = more});
  }
  std::ranges::stable_sort(all, std::greater{}, &Loss::points);
  return all;
}

}  // namespace fingerway
