// What this part answers: one passage planned again and again as the player's choices change.
// It keeps what a choice does not touch, so that a new plan comes at once; each plan is what plan_passage would give.
#pragma once

#include <memory>

#include "fingerway/plan/explain.hpp"
#include "fingerway/plan/plan.hpp"

namespace fingerway {

class Workshop;

/// Plans passages on one instrument in one player's hands. What it has worked out serves the next request, of the same
/// passage or another. Not for several threads at once.
class Planner {
 public:
  /// `played` must outlive it.
  explicit Planner(const Played& played);
  Planner(Planner&&) noexcept;
  Planner& operator=(Planner&&) noexcept;
  ~Planner();

  /// As plan_passage.
  [[nodiscard]] std::vector<Plan> plans(const Passage& passage, const PlanRequest& request);
  /// As passage_graph.
  [[nodiscard]] PassageGraph graph(const Passage& passage, const Choices& choices);
  /// As explain_note.
  [[nodiscard]] Explanation explain(const Passage& passage, const Choices& choices, std::size_t note, std::size_t most);
  /// The notes that the choices leave without any of the fingerings they have.
  [[nodiscard]] std::vector<std::size_t> left_without(const Passage& passage, const Choices& choices);

 private:
  std::unique_ptr<Workshop> workshop_;
};

}  // namespace fingerway
