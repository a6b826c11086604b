// What this part answers: what every change between the ways of two neighbouring notes weighs, worked out when asked.
// Private to plan. A change is a pair of hand changes, and few pairs differ; so a weight is looked up, mostly.
#pragma once

#include <functional>
#include <memory>
#include <span>

#include "fingerway/search/rows.hpp"
#include "note_ways.hpp"

namespace fingerway {

/// What the changes of either hand weigh at least in one context, whatever the other does; kept for all notes that
/// share the context.
class HandBounds {
 public:
  HandBounds(const Played& played, const BothHands<HandChanges>& changes, const StepContext& context);

  /// Effort adds up over the hands; of the rest the worse hand's remains.
  struct Bound {
    Weight effort = 0;
    Weight rest = 0;
  };
  [[nodiscard]] const Bound& of(Hand side, HandNumber change) {
    std::vector<Bound>& known = known_[static_cast<std::size_t>(side)];
    while (change >= known.size()) known.push_back(worked_out(side, static_cast<HandNumber>(known.size())));
    return known[change];
  }
  [[nodiscard]] const StepContext& context() const { return context_; }

 private:
  [[nodiscard]] Bound worked_out(Hand side, HandNumber change) const;

  const Played& played_;
  const BothHands<HandChanges>& changes_;
  StepContext context_;
  bool bounded_;  ///< a second hand cannot make a change cheaper
  BothHands<std::vector<Bound>> known_;
};

/// The weight of what is passed through on the way from one candidate to another, by their indices.
using PassingWeight = std::function<Weight(std::uint32_t from, std::uint32_t to)>;

/// The load that sets the speed limit of a change. Rests shrink with the tempo and then hide less, so it is the share
/// of its time the change takes at the very tempo at which it just fits.
[[nodiscard]] double limiting_load(const HandOnInstrument& hand, const HandStep& left, const HandStep& right,
                                   const StepContext& context);

/// All changes from one note to the next. Rows are the ways of the first note; columns are the ways of the second, in
/// an order the search chooses. Models the `StepRows` of search/relax_rows.hpp.
class StepPrices {
 public:
  StepPrices(const Played& played, BothHands<HandChanges>& changes, std::shared_ptr<const NoteWays> from,
             std::shared_ptr<const NoteWays> to, std::shared_ptr<HandBounds> bounds, PassingWeight passing);

  [[nodiscard]] const NoteWays& from() const { return *from_; }
  [[nodiscard]] std::size_t rows() const { return from_->size(); }
  [[nodiscard]] std::size_t columns() const { return to_->size(); }
  /// From now on column k is way order[k].
  void arrange(std::span<const std::uint32_t> order);
  /// From now on weight() and limiting_load() speak of this row.
  void start_row(std::size_t row);
  /// No change of the row weighs less.
  [[nodiscard]] Weight least_of_row() const { return least_; }
  /// The weight of a change of the row; where it is more than `enough`, anything more than that.
  [[nodiscard]] Weight weight(std::size_t column, Weight enough);
  /// The load that bounds the tempo of a change of the row, in search units; nothing: there is no such change.
  [[nodiscard]] std::optional<Load> limiting_load(std::size_t column) const;
  /// Every change with its weight and load, ways in their own order.
  [[nodiscard]] Steps written_out();
  [[nodiscard]] std::size_t bytes() const;

  RememberedWays remembered;

 private:
  static constexpr Weight unknown = -1;

  /// What a pair of hand changes costs, but for passing notes.
  struct Price {
    Weight weight = unknown;
    Load load = 0;
    bool passing = false;  ///< other notes may be heard on the way
  };
  [[nodiscard]] Price price(const HandStep& left, const HandStep& right) const;

  [[nodiscard]] const HandStep& left(std::size_t column) const {
    return changes_[0].step(left_row_[columns_[column].left]);
  }
  [[nodiscard]] const HandStep& right(std::size_t column) const {
    return changes_[1].step(right_row_[columns_[column].right]);
  }
  [[nodiscard]] Weight passing_weight(std::size_t column);
  struct Column {
    std::uint32_t left, right;  ///< postures, numbered within the note
    std::uint32_t candidate;
  };

  const Played& played_;
  const BothHands<HandChanges>& changes_;
  std::shared_ptr<const NoteWays> from_, to_;
  std::shared_ptr<HandBounds> bounds_;
  PassingWeight passing_;
  bool heard_ = false;
  bool free_ = false;                           ///< one of the notes has no fingering: nothing to price
  BothHands<std::vector<HandNumber>> kind_of_;  ///< from posture x to posture, numbered within the notes
  BothHands<std::vector<Weight>> least_from_;   ///< a from posture: if the other hand kept still
  std::vector<Weight> passing_weights_;         ///< from candidate x to candidate; below zero: not worked out
  std::vector<Column> columns_;
  const std::uint32_t* left_row_ = nullptr;
  const std::uint32_t* right_row_ = nullptr;
  std::uint32_t row_candidate_ = 0;
  Weight least_ = 0;
};

}  // namespace fingerway
