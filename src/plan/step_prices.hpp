// What this part answers: what the changes between two neighbouring notes weigh, worked out when asked: between two
// ways exactly, between bands of ways what no change between them is below.
// Private to plan. A change is a pair of hand changes; what one hand has to do bounds the pair from below.
#pragma once

#include <functional>
#include <optional>

#include "context_prices.hpp"
#include "fingerway/search/bands.hpp"
#include "note_ways.hpp"

namespace fingerway {

/// The weight of what is passed through on the way from one candidate to another, by their indices.
using PassingWeight = std::function<Weight(std::uint32_t from, std::uint32_t to)>;

/// All changes from one note to the next.
class StepPrices {
 public:
  explicit StepPrices(const Played& played) : hand_(&played.hand) {}

  /// From now on it speaks of the changes from `from` to `to`; `prices` must outlive what is asked of them.
  void take(std::shared_ptr<const NoteShape> from, std::shared_ptr<const NoteShape> to, const ContextPrices& prices,
            PassingWeight passing);

  /// Changes from one place. It holds until the next is asked for.
  class From {
   public:
    explicit From(StepPrices& prices) : prices_(&prices), left_(prices.row_[0].bounds), right_(prices.row_[1].bounds) {}

    /// What each hand has to do: no change weighs less. Anything more than `enough` where the left hand alone does.
    [[nodiscard]] Weight bound(const BandPlace& to, Weight enough) const {
      const ContextPrices::Bound& left = known(Hand::left, left_, to.mark[0]);
      const Weight alone = sum_of(left, ContextPrices::Bound::least());
      return alone > enough ? alone : sum_of(left, known(Hand::right, right_, to.mark[1]));
    }
    [[nodiscard]] Weight cost(const BandPlace& to, Weight enough) const { return prices_->cost(to, enough); }

   private:
    const ContextPrices::Bound& known(Hand side, const ContextPrices::Bound* bounds, std::uint32_t enter) const {
      if (bounds[enter].effort == ContextPrices::Bound::unknown) prices_->work_out(side, enter);
      return bounds[enter];
    }

    StepPrices* prices_;
    const ContextPrices::Bound *left_, *right_;
  };
  [[nodiscard]] From start(const BandPlace& from, Look look);
  /// No change weighs less; between ways it is the weight, or anything more than `enough` where that is.
  [[nodiscard]] Weight cost(const BandPlace& to, Weight enough);
  /// The same of the load that limits the tempo.
  [[nodiscard]] Load load(const BandPlace& to);
  /// Every change with its weight and load, ways in their own order.
  [[nodiscard]] Steps written_out();

 private:
  using Bound = ContextPrices::Bound;
  /// A hand's changes by posture before and after, those of bands behind those of ways; in rows that are added when
  /// asked for.
  struct HandTable {
    std::size_t columns = 0;
    std::vector<std::uint32_t> row;  ///< 1 more than its number; 0: none
    std::size_t rows = 0;
    std::vector<Bound> bounds;  ///< Bound::unknown where not worked out yet
    std::vector<HandShare> shares;
  };
  /// What it says of one posture before.
  struct HandRow {
    Bound* bounds = nullptr;
    HandShare* shares = nullptr;
    const HandPosture* posture = nullptr;
    const AnyPosture* any = nullptr;  ///< of a band
    std::optional<HandSteps> steps;
  };

  [[nodiscard]] const HandShare& share(Hand side, std::uint32_t enter) {
    const HandRow& row = row_[static_cast<std::size_t>(side)];
    if (row.bounds[enter].effort == Bound::unknown) work_out(side, enter);
    return row.shares[enter];
  }
  void work_out(Hand side, std::uint32_t enter);
  /// Of a band what none is below; nothing where that is not known.
  [[nodiscard]] std::optional<HandStep> hand_step_to(Hand side, std::uint32_t enter);

  const HandOnInstrument* hand_;
  std::shared_ptr<const NoteShape> from_, to_;
  const ContextPrices* prices_ = nullptr;
  PassingWeight passing_weight_;
  bool free_ = false;  ///< one of the notes has no fingering: nothing to price
  BothHands<HandTable> hands_;
  BothHands<HandRow> row_{};                ///< of the place started from
  std::optional<std::uint32_t> candidate_;  ///< that sounds last there, where it is but one and looked at closely
  bool from_band_ = false;
};

}  // namespace fingerway
