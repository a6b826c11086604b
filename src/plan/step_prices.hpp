// What this part answers: what every change between the ways of two neighbouring notes weighs, worked out when asked.
// Private to plan. A change is a pair of hand changes; those of each hand are tabled, and what one hand has to do
// bounds the pair from below.
#pragma once

#include <functional>
#include <optional>

#include "context_prices.hpp"
#include "fingerway/search/rows.hpp"
#include "note_ways.hpp"

namespace fingerway {

/// The weight of what is passed through on the way from one candidate to another, by their indices.
using PassingWeight = std::function<Weight(std::uint32_t from, std::uint32_t to)>;

/// All changes from one note to the next, one pair of notes after another. Rows are the ways of the first note; columns
/// those of the second. Models the `StepRows` of search/rows.hpp.
class StepPrices {
 public:
  explicit StepPrices(const Played& played) : hand_(played.hand) {}

  /// From now on it speaks of the changes from `from` to `to`; all must outlive what is asked of them.
  void take(const NoteShape& from, const NoteShape& to, const ContextPrices& prices, PassingWeight passing);

  [[nodiscard]] std::size_t rows() const { return from_->size(); }
  [[nodiscard]] std::span<const std::uint32_t> runs() const { return to_->runs; }
  /// From now on the following speak of this row.
  void start_row(std::size_t row);
  /// No change of the row weighs less.
  [[nodiscard]] Weight least_of_row() const { return free_ ? 0 : least_of(*left_.least, *right_.least); }
  /// No change of the row to a way of the run weighs less.
  [[nodiscard]] Weight least_of_run(std::size_t run) const {
    if (free_) return 0;
    return least_of(left_.bounds[to_->ways[to_->runs[run]].enter[0]], right_.by_set[to_->right_set[run]]);
  }
  /// The weight of a change of the row; where it is more than `enough`, anything more than that.
  [[nodiscard]] Weight weight(std::size_t /*run*/, std::size_t column, Weight enough) {
    if (free_) return 0;
    const PackedWay& way = to_->ways[column];
    const Weight bound = least_of(left_.bounds[way.enter[0]], right_.bounds[way.enter[1]]);
    if (bound > enough || is_forbidden(bound)) return bound;
    return worked_out(way, enough);
  }
  [[nodiscard]] std::optional<Load> limiting_load(std::size_t run, std::size_t column) const;
  /// Every change with its weight and load, ways in their own order.
  [[nodiscard]] Steps written_out();

 private:
  using Bound = ContextPrices::Bound;
  /// A hand's changes, by posture before and after, and what bounds them.
  struct HandTable {
    std::size_t entering = 0, sets = 0;
    std::vector<HandShare> shares;
    std::vector<Bound> bounds;
    std::vector<Bound> least;   ///< from each posture, to any
    std::vector<Bound> by_set;  ///< from each posture, to any of each set of the right hand's
  };

  /// What it says of one posture before.
  struct HandRow {
    const HandShare* shares = nullptr;
    const Bound* bounds = nullptr;
    const Bound* least = nullptr;
    const Bound* by_set = nullptr;
  };

  void take_hand(Hand side);
  [[nodiscard]] static HandRow row_of(const HandTable& table, std::size_t leaving);
  [[nodiscard]] Weight worked_out(const PackedWay& way, Weight enough);
  [[nodiscard]] Weight passing(const PackedWay& way);
  [[nodiscard]] HandStep hand_step_to(Hand side, const PackedWay& way) const;

  const HandOnInstrument& hand_;
  const NoteShape* from_ = nullptr;
  const NoteShape* to_ = nullptr;
  const ContextPrices* prices_ = nullptr;
  PassingWeight passing_weight_;
  std::vector<Weight> passing_;  ///< by candidate from and to; `forbidden` where not asked for yet
  bool free_ = false;            ///< one of the notes has no fingering: nothing to price
  BothHands<HandTable> hands_;
  std::size_t row_ = 0;
  HandRow left_, right_;  ///< of row_
  Weight* passing_row_ = nullptr;
};

}  // namespace fingerway
