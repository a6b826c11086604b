// What this part answers: a passage, note by note, as ways and prices of changes that are made when asked for and
// shared where notes are alike. Private to plan; planner.hpp and passage_graph.hpp are made of it.
#pragma once

#include <map>
#include <memory>
#include <tuple>
#include <unordered_map>

#include "admit.hpp"
#include "note_ways.hpp"
#include "step_prices.hpp"

namespace fingerway {

/// Numbers of equal things, from 0.
template <class T>
class Numbered {
 public:
  std::uint32_t number(const T& thing) {
    const auto [entry, is_new] = numbers_.try_emplace(thing, static_cast<std::uint32_t>(things_.size()));
    if (is_new) things_.push_back(&entry->first);
    return entry->second;
  }
  [[nodiscard]] const T& operator[](std::uint32_t number) const { return *things_[number]; }

 private:
  std::map<T, std::uint32_t> numbers_;
  std::vector<const T*> things_;  ///< into numbers_
};

/// What is worked out once for one instrument in the hands of one player, whatever is planned. Bounded: what takes much
/// memory is dropped when there is much of it, and made again.
class Workshop {
 public:
  explicit Workshop(const Played& played);

  [[nodiscard]] const Played& played() const { return played_; }
  [[nodiscard]] const BothHands<HandChanges>& changes() const { return changes_; }

  /// What admitted candidates make the fingers press.
  struct Admitted {
    std::vector<Candidate> candidates;
    std::vector<std::uint32_t> numbers;  ///< of the candidates, over all notes
    FingerUse use;
  };
  using WantNumber = std::uint32_t;
  [[nodiscard]] std::vector<WantNumber> wants(const std::vector<AdmitNote>& entries, const Choices& choices);
  [[nodiscard]] std::shared_ptr<const Admitted> admitted(WantNumber want);

  /// All that a note's ways depend on.
  struct NoteKey {
    NoteAsked asked;
    WantNumber want = 0;
    std::optional<WantNumber> second;
    std::uint32_t places = 0;

    friend auto operator<=>(const NoteKey&, const NoteKey&) = default;
  };
  Numbered<IdlePlaces> places;
  Numbered<NoteKey> notes;
  Numbered<StepContext> contexts;

  [[nodiscard]] std::shared_ptr<const NoteWays> ways(std::uint32_t note);
  [[nodiscard]] std::shared_ptr<StepPrices> prices(std::uint32_t from, std::uint32_t to, std::uint32_t context);

 private:
  [[nodiscard]] Weight passing_weight(WrittenPitch from_pitch, std::uint32_t from, WrittenPitch to_pitch,
                                      std::uint32_t to);

  const Played& played_;
  BothHands<HandChanges> changes_;
  Admission admission_;
  Numbered<Want> wants_;
  Numbered<std::pair<WrittenPitch, Fingering>> sounded_;  ///< candidates with the note they are for
  PassingNotes passing_;
  std::unordered_map<WantNumber, std::shared_ptr<const Admitted>> admitted_;
  std::unordered_map<std::uint32_t, std::shared_ptr<const NoteWays>> ways_;
  std::map<std::tuple<std::uint32_t, std::uint32_t, std::uint32_t>, std::shared_ptr<StepPrices>> prices_;
  std::map<std::uint32_t, std::shared_ptr<HandBounds>> bounds_;  ///< by context
  std::size_t price_bytes_ = 0;
  std::unordered_map<std::uint64_t, Weight> passing_weights_;
};

/// One passage under the player's choices.
class PassageWays {
 public:
  PassageWays(Workshop& workshop, const Passage& passage, const Choices& choices);

  [[nodiscard]] std::size_t size() const { return notes_.size(); }
  [[nodiscard]] std::shared_ptr<const NoteWays> ways(std::size_t note) const { return workshop_.ways(notes_[note]); }
  /// From a note to the next.
  [[nodiscard]] std::shared_ptr<StepPrices> prices(std::size_t note) const {
    return workshop_.prices(notes_[note], notes_[note + 1], contexts_[note]);
  }
  [[nodiscard]] const StepContext& context(std::size_t note) const { return workshop_.contexts[contexts_[note]]; }
  [[nodiscard]] const Workshop& workshop() const { return workshop_; }

 private:
  Workshop& workshop_;
  std::vector<std::uint32_t> notes_;     ///< Workshop::notes
  std::vector<std::uint32_t> contexts_;  ///< Workshop::contexts, one fewer
};

/// The whole of it written out: every way and the weight and load of every change.
[[nodiscard]] PassageGraph passage_graph(const PassageWays& passage);

}  // namespace fingerway
