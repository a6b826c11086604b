// What this part answers: a passage, note by note, as ways and prices of changes that are made when asked for and
// shared where notes are alike. Private to plan; planner.hpp and passage_graph.hpp are made of it.
#pragma once

#include <memory>
#include <vector>

#include "workshop.hpp"

namespace fingerway {

/// One passage under the player's choices.
class PassageWays {
 public:
  PassageWays(Workshop& workshop, const Passage& passage, const Choices& choices);

  [[nodiscard]] std::size_t size() const { return notes_.size(); }
  [[nodiscard]] std::shared_ptr<const NoteShape> shape(std::size_t note) const {
    return workshop_.shape(notes_[note].shape);
  }
  /// What each way of a note weighs by itself.
  void weights(std::size_t note, const NoteShape& shape, std::vector<Weight>& weights) const;
  /// One way spelled out.
  [[nodiscard]] Node node(std::size_t note, const NoteShape& shape, std::uint32_t way) const;
  /// Of the changes from a note to the next.
  [[nodiscard]] StepPrices& prices(std::size_t note) const { return workshop_.prices(note, key(note)); }
  /// What each candidate of a plain note weighs by itself.
  [[nodiscard]] const std::vector<Weight>& weights(std::size_t note) const {
    return workshop_.weights(workshop_.shapes[notes_[note].shape].first, notes_[note].context);
  }
  [[nodiscard]] const StepContext& context(std::size_t note) const { return workshop_.contexts[notes_[note].step]; }
  [[nodiscard]] const NoteContext& note_context(std::size_t i) const {
    return workshop_.note_contexts[notes_[i].context];
  }
  /// The whole of it written out: every way and the weight and load of every change.
  [[nodiscard]] PassageGraph written_out() const;
  [[nodiscard]] const Workshop& workshop() const { return workshop_; }

 private:
  struct Note {
    std::uint32_t shape = 0;    ///< Workshop::shapes
    std::uint32_t context = 0;  ///< Workshop::note_contexts
    std::uint32_t step = 0;     ///< Workshop::contexts, to the next note; of the last one nothing
  };
  [[nodiscard]] StepKey key(std::size_t note) const {
    return {.from = notes_[note].shape, .to = notes_[note + 1].shape, .context = notes_[note].step};
  }

  Workshop& workshop_;
  std::vector<Note> notes_;
};

}  // namespace fingerway
