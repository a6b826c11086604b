// What this part answers: what the changes between two neighbouring notes weigh, worked out when asked: between two
// ways exactly, between bands of ways what no change between them is below.
// Private to plan. A change is a pair of hand changes; what one hand has to do bounds the pair from below.
#pragma once

#include <functional>
#include <optional>

#include "context_prices.hpp"
#include "fingerway/search/bands.hpp"
#include "note_ways.hpp"
#include "pieces.hpp"

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
    explicit From(StepPrices& prices)
        : prices_(&prices), left_(prices.row_[0].changes.bounds), right_(prices.row_[1].changes.bounds) {}

    /// What each hand has to do, as far as it was worked out: no change weighs less.
    [[nodiscard]] Weight glance(const BandMark& mark) const { return sum_of(left_[mark[0]], right_[mark[1]]); }
    /// The same, worked out now. Anything more than `enough` where the left hand alone does.
    [[nodiscard]] Weight bound(const BandPlace& to, Weight enough) const {
      const BandMark& mark = to.mark;
      if (!left_[mark[0]].known()) prices_->work_out(Hand::left, mark[0]);
      if (right_[mark[1]].known()) return glance(mark);
      const Weight alone = glance(mark);
      if (alone > enough) return alone;
      prices_->work_out(Hand::right, mark[1]);
      return glance(mark);
    }
    /// Asked for only where the bound was.
    [[nodiscard]] Weight cost(const BandPlace& to, Weight enough) const { return prices_->cost(to, enough); }

   private:
    StepPrices* prices_;
    const ContextPrices::Bound *left_, *right_;
  };
  [[nodiscard]] From start(const BandPlace& from, Look look);
  /// The load that limits the tempo, between ways; between bands no load of theirs is below it.
  [[nodiscard]] Load load(const BandPlace& to);
  /// Every change with its weight and load, ways in their own order.
  [[nodiscard]] Steps written_out();

 private:
  using Bound = ContextPrices::Bound;
  /// All that is known of one hand's changes from a posture, by the posture after; those of bands stand behind those of
  /// ways.
  struct Changes {
    Bound* bounds = nullptr;  ///< not known: neither is the share
    HandShare* shares = nullptr;
  };
  /// By the posture before; begun when asked for.
  struct HandTable {
    std::size_t columns = 0;
    std::vector<Changes> rows;
  };
  /// What it says of one posture before.
  struct HandRow {
    Changes changes;
    std::uint32_t leave = 0;
    const HandPosture* posture = nullptr;
    const AnyPosture* any = nullptr;  ///< of a band
    std::optional<HandSteps> steps;   ///< posture and any are set with it
  };

  /// No change weighs less; between ways it is the weight, or anything more than `enough` where that is. What both
  /// hands have to do must have been worked out.
  [[nodiscard]] Weight cost(const BandPlace& to, Weight enough) const;
  [[nodiscard]] const HandShare& share(Hand side, std::uint32_t enter) {
    const HandRow& row = row_[static_cast<std::size_t>(side)];
    if (!row.changes.bounds[enter].known()) work_out(side, enter);
    return row.changes.shares[enter];
  }
  void work_out(Hand side, std::uint32_t enter);
  void look_up_from(Hand side);
  /// Of a band what none is below.
  [[nodiscard]] static HandStep step_to_any(const HandRow& row, const AnyPosture& to);
  [[nodiscard]] HandStep hand_step_to(Hand side, std::uint32_t enter);

  const HandOnInstrument* hand_;
  std::shared_ptr<const NoteShape> from_, to_;
  const ContextPrices* prices_ = nullptr;
  PassingWeight passing_weight_;
  bool free_ = false;  ///< one of the notes has no fingering: nothing to price
  BothHands<HandTable> hands_;
  Pieces<Bound, 512> bounds_;
  Pieces<HandShare, 512> shares_;
  BothHands<HandRow> row_{};                ///< of the place started from
  std::optional<std::uint32_t> candidate_;  ///< that sounds last there, where it is but one and looked at closely
  bool from_band_ = false;
};

}  // namespace fingerway
