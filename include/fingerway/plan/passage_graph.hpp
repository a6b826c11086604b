// What this part answers: a passage on an instrument as a layered graph: what can be played where, at what cost.
// It does not search; plan.hpp reads paths through it. It is also what `--dump` shows.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "fingerway/plan/choices.hpp"
#include "fingerway/plan/passing.hpp"
#include "fingerway/plan/weigh.hpp"

namespace fingerway {

/// A way to play one note: a fingering (two for a trill or tremolo) and where the idle fingers are.
struct Node {
  std::optional<std::uint32_t> candidate;  ///< into NoteLayer::candidates; nothing: the note has no fingering
  std::optional<std::uint32_t> other;      ///< into NoteLayer::seconds, for trills and tremolos
  Posture enter;                           ///< as the note starts
  Posture leave;                           ///< as it ends
  NotesPerSecond rate;                     ///< of the trill or tremolo
  bool ends_on_second = false;             ///< a tremolo does, a trill does not
  NoteCost cost;

  friend bool operator==(const Node& a, const Node& b) {
    return a.candidate == b.candidate && a.other == b.other && a.enter == b.enter && a.leave == b.leave;
  }
};

struct NoteLayer {
  WrittenPitch pitch;
  std::optional<WrittenPitch> other;
  NoteContext context;
  std::vector<Candidate> candidates;  ///< that the passage can make use of
  std::vector<Candidate> seconds;     ///< of the second pitch
  std::vector<Node> nodes;            ///< never empty: without a fingering, one node that costs nothing
  std::size_t choices = 0;            ///< lean fingerings there are for the note
};

/// The whole passage; one layer a note.
struct PassageGraph {
  std::vector<NoteLayer> layers;
  std::vector<StepContext> contexts;  ///< contexts[i]: from note i to note i + 1
  LayeredGraph graph;
};

/// Builds the graph. A note on which the choices leave nothing has the single empty node, as if it had no fingering.
[[nodiscard]] PassageGraph passage_graph(const Played& played, const Passage& passage, const Choices& choices);

/// What the music asks of the change from note i to i + 1.
[[nodiscard]] StepContext step_context(const Passage& passage, std::size_t i);

/// The candidate a node plays, or its second one; null where it has none.
[[nodiscard]] const Candidate* candidate_of(const NoteLayer& layer, const Node& node);
[[nodiscard]] const Candidate* other_of(const NoteLayer& layer, const Node& node);

/// What is sounding as a node's note ends; the candidate is null where there is no fingering.
struct Leaving {
  WrittenPitch pitch;
  const Candidate* candidate = nullptr;
};
[[nodiscard]] Leaving leaving_from(const NoteLayer& layer, const Node& node);

}  // namespace fingerway
