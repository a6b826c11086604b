// What this part answers: shapes of notes and prices of changes, made when asked for and shared by all passages planned
// for one player on one instrument. Private to plan.
#pragma once

#include <map>
#include <memory>
#include <unordered_map>

#include "admit.hpp"
#include "note_ways.hpp"
#include "numbered.hpp"
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

/// What is worked out once for one instrument in the hands of one player, whatever is planned. What takes much memory
/// is dropped when there is much of it, and made again.
class Workshop {
 public:
  /// How many prices of changes are kept: as few as one plan needs, or those of every note, for the next plan of much
  /// the same passage.
  enum class Keeps : std::uint8_t { few_prices, prices_by_note };

  explicit Workshop(const Played& played, Keeps keeps = Keeps::few_prices);

  [[nodiscard]] const Played& played() const { return played_; }

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
  /// Of the changes from a note of a passage to the next. What was worked out for that note before is there still, as
  /// long as it is kept and the note is the same.
  [[nodiscard]] StepPrices& prices(std::size_t note, const StepKey& key);
  /// From now on passages have so many notes: what is kept may take some memory for each.
  void serve(std::size_t notes);
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
  Keeps keeps_;
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

  LeastParts least_parts_;
  std::vector<std::shared_ptr<const NoteShape>> shapes_;
  std::size_t shape_bytes_ = 0;
  std::size_t most_shape_bytes_ = 0;
  std::vector<std::unique_ptr<ContextPrices>> context_prices_;
  struct KeptPrices {
    std::optional<StepKey> key;
    StepPrices prices;
  };
  std::vector<KeptPrices> prices_;  ///< of a note by its number, the last ones in place of earlier ones
};

}  // namespace fingerway
