#include "kept.hpp"

#include <algorithm>

namespace fingerway {
namespace {

// Rounded up. What a planner remembers grows with the passage, up to a bound of its own.
constexpr std::size_t note_bytes = 40'000;
constexpr std::size_t most_remembered = 80'000'000;
constexpr std::size_t planned_note_bytes = 4'000;

}  // namespace

std::size_t bytes_of(const KeptScore& score) {
  return score.file.text.size() + (score.file.container ? score.file.container->archive.size() : 0) + 4'000;
}

std::size_t bytes_of(const PreparedPassage& prepared) {
  return std::max<std::size_t>(1, prepared.desks.size()) *
         (std::min(prepared.passage.notes.size() * note_bytes, most_remembered) + 100'000);
}

std::size_t bytes_of(const KeptPlan& plan) {
  const std::size_t notes = plan.passage().notes.size();
  const std::size_t plans = plan.sides.size() + (plan.comparison ? 2 : 0);
  return notes * plans * planned_note_bytes + bytes_of(*plan.prepared);
}

Plan plan_under(const PreparedPassage& prepared, std::size_t side, const Choices& choices, Objective objective) {
  PreparedPassage::Desk& desk = *prepared.desks[side];
  const std::lock_guard only_one(desk.busy);
  return desk.planner.plans(prepared.passage, {.objective = objective, .alternatives = 1, .choices = choices}).front();
}

Explanation explain_under(const PreparedPassage& prepared, std::size_t side, const Choices& choices, std::size_t note,
                          std::size_t most) {
  PreparedPassage::Desk& desk = *prepared.desks[side];
  const std::lock_guard only_one(desk.busy);
  return desk.planner.explain(prepared.passage, choices, note, most);
}

}  // namespace fingerway
