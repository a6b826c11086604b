#include "kept.hpp"

namespace fingerway {
namespace {

// Measured on passages of some thousand notes, rounded up.
constexpr std::size_t note_bytes = 400;
constexpr std::size_t planned_note_bytes = 4'000;

}  // namespace

std::size_t bytes_of(const KeptScore& score) {
  return score.file.text.size() + (score.file.container ? score.file.container->archive.size() : 0) + 4'000;
}

std::size_t bytes_of(const PreparedPassage& prepared) { return prepared.passage.notes.size() * note_bytes + 100'000; }

std::size_t bytes_of(const KeptPlan& plan) {
  const std::size_t notes = plan.passage().notes.size();
  const std::size_t plans = plan.sides.size() + (plan.comparison ? 2 : 0);
  return notes * plans * planned_note_bytes + bytes_of(*plan.prepared);
}

Plan plan_under(const PreparedPassage& prepared, std::size_t side, const Choices& choices, Objective objective) {
  return plan_passage(*prepared.players[side], prepared.passage,
                      {.objective = objective, .alternatives = 1, .choices = choices})
      .front();
}

Explanation explain_under(const PreparedPassage& prepared, std::size_t side, const Choices& choices, std::size_t note,
                          std::size_t most) {
  return explain_note(*prepared.players[side], prepared.passage, choices, note, most);
}

}  // namespace fingerway
