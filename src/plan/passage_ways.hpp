// What this part answers: a passage, note by note, as ways and prices of changes that are made when asked for and
// shared where notes are alike. Private to plan; planner.hpp and passage_graph.hpp are made of it.
#pragma once

#include <map>
#include <memory>
#include <unordered_map>

#include "admit.hpp"
#include "fingerway/search/remembered_ways.hpp"
#include "note_ways.hpp"
#include "step_prices.hpp"

namespace fingerway {

struct WantHash {
  std::size_t operator()(const Want& want) const;
};
struct PlacesHash {
  std::size_t operator()(const IdlePlaces& places) const;
};
struct NoteContextHash {
  std::size_t operator()(const NoteContext& context) const;
};
struct StepContextHash {
  std::size_t operator()(const StepContext& context) const;
};

/// All that a note's shape depends on.
struct ShapeKey {
  std::uint32_t first = 0;   ///< Workshop::admitted
  std::uint32_t second = 0;  ///< the same of the second pitch of a trill or tremolo, and 1 more; 0: a plain note
  NoteKind kind = NoteKind::plain;
  std::uint32_t places = 0;   ///< Workshop::places; none where no finger is ever idle
  std::uint32_t context = 0;  ///< Workshop::note_contexts, of a trill or tremolo

  friend bool operator==(const ShapeKey&, const ShapeKey&) = default;
};
struct ShapeKeyHash {
  std::size_t operator()(const ShapeKey& key) const;
};

/// From the ways of a shape to those of another, in a context.
struct StepKey {
  std::uint32_t from = 0, to = 0, context = 0;
  friend bool operator==(const StepKey&, const StepKey&) = default;
};
struct StepKeyHash {
  std::size_t operator()(const StepKey& key) const;
};

/// What is worked out once for one instrument in the hands of one player, whatever is planned. What takes much memory
/// is dropped when there is much of it, and made again.
class Workshop {
 public:
  explicit Workshop(const Played& played);

  [[nodiscard]] const Played& played() const { return played_; }
  [[nodiscard]] const BothHands<HandChanges>& changes() const { return changes_; }

  /// Which of admitted() meets each entry.
  [[nodiscard]] std::vector<std::uint32_t> admit(const std::vector<AdmitNote>& entries, const Choices& choices);
  [[nodiscard]] const Admitted& admitted(std::uint32_t number) const { return *admitted_[number]; }

  Numbered<IdlePlaces, PlacesHash> places;
  Numbered<NoteContext, NoteContextHash> note_contexts;
  Numbered<ShapeKey, ShapeKeyHash> shapes;
  Numbered<StepContext, StepContextHash> contexts;

  [[nodiscard]] std::shared_ptr<const NoteShape> shape(std::uint32_t number);
  /// What each candidate weighs in a context.
  [[nodiscard]] const std::vector<Weight>& weights(std::uint32_t admitted, std::uint32_t note_context);
  /// Valid until the next call, as what it speaks of.
  [[nodiscard]] StepPrices& prices(const StepKey& key);
  [[nodiscard]] RememberedWays& remembered(const StepKey& key);
  /// From now on passages have up to so many notes: what is remembered may take as much memory as their plans.
  void serve(std::size_t notes) { most_remembered_bytes_ = std::max(most_remembered_bytes_, 160 * notes); }
  /// How much memory there is in what is never dropped, roughly.
  [[nodiscard]] std::size_t bytes() const;

 private:
  [[nodiscard]] std::uint32_t met_by(std::uint32_t want);
  [[nodiscard]] Weight passing_weight(WrittenPitch from_pitch, std::uint32_t from, WrittenPitch to_pitch,
                                      std::uint32_t to);
  struct SetHash {
    std::size_t operator()(const std::vector<std::uint32_t>& set) const;
  };

  const Played& played_;
  BothHands<HandChanges> changes_;
  Admission admission_;
  Numbered<Want, WantHash> wants_;
  std::vector<std::uint32_t> met_by_;  ///< of a want, 1 more than the number in admitted_; 0: unknown
  std::map<std::pair<WrittenPitch, Fingering>, std::vector<std::pair<Candidate, std::uint32_t>>> sounded_;
  std::vector<Fingering> fingerings_;                      ///< of the candidates, by number
  Numbered<std::vector<std::uint32_t>, SetHash> sets_;     ///< candidates admitted together, behind their pitch
  std::vector<std::shared_ptr<const Admitted>> admitted_;  ///< as sets_
  std::unordered_map<std::uint64_t, std::vector<Weight>> weights_;
  PassingNotes passing_;
  std::unordered_map<std::uint64_t, Weight> passing_weights_;

  std::vector<std::shared_ptr<const NoteShape>> shapes_;
  std::size_t shape_bytes_ = 0;
  std::vector<std::unique_ptr<ContextPrices>> context_prices_;
  std::unordered_map<StepKey, RememberedWays, StepKeyHash> remembered_;
  std::size_t remembered_bytes_ = 0;
  std::size_t most_remembered_bytes_ = 16'000'000;

  StepPrices prices_;
  std::shared_ptr<const NoteShape> from_, to_;  ///< of prices_
};

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
  [[nodiscard]] Node node(std::size_t note, const NoteShape& shape, std::size_t way) const;
  /// From a note to the next.
  [[nodiscard]] StepPrices& prices(std::size_t note) const { return workshop_.prices(key(note)); }
  [[nodiscard]] RememberedWays& remembered(std::size_t note) const { return workshop_.remembered(key(note)); }
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
