// What this part answers: what every change between the ways of two neighbouring notes weighs, worked out when asked.
// Private to plan. A change is a pair of hand changes, and few pairs differ; so a weight is looked up, mostly.
#pragma once

#include <functional>
#include <limits>

#include "fingerway/search/rows.hpp"
#include "note_ways.hpp"

namespace fingerway {

/// What changes weigh in one context, whatever notes they are between.
class ContextPrices {
 public:
  ContextPrices(const Played& played, const BothHands<HandChanges>& changes, const StepContext& context);

  /// What one hand's change weighs at least, whatever the other does: effort adds up over the hands; of the rest the
  /// worse hand's remains. There are very many, so they are kept small: beyond the largest number they say less.
  struct Bound {
    std::int32_t effort = 0;
    std::int32_t rest = 0;

    static constexpr std::int32_t shut = std::numeric_limits<std::int32_t>::max();  ///< as effort: no such change
    friend Weight least_of(const Bound& a, const Bound& b) {
      if (a.effort == shut || b.effort == shut) return forbidden;
      return Weight{a.effort} + b.effort + std::max(a.rest, b.rest);
    }
    void lower_to(const Bound& other) {
      effort = std::min(effort, other.effort);
      rest = std::min(rest, other.rest);
    }
  };
  [[nodiscard]] const Bound& bound(Hand side, HandNumber change) {
    std::vector<Bound>& known = bounds_[static_cast<std::size_t>(side)];
    if (change >= known.size()) known.resize(std::max<std::size_t>(change + 1, 2 * known.size()), unknown);
    if (known[change].rest == unknown.rest) known[change] = bound_of(side, change);
    return known[change];
  }
  /// What a pair of hand changes weighs, but for passing notes.
  struct Price {
    Weight weight = 0;
    bool passing = false;  ///< other notes may be heard on the way
  };
  [[nodiscard]] const Price& price(HandNumber left, HandNumber right) {
    const std::uint64_t pair = std::uint64_t{left} << 32U | right;
    const std::size_t place = Mixed().add(pair).value() % prices_.size();
    return prices_[place].pair == pair ? prices_[place].price : newly_priced(left, right);
  }
  [[nodiscard]] Price price_of(const Step& step) const;
  /// The whole change.
  [[nodiscard]] Step changed(HandNumber left, HandNumber right) const {
    return joined(played_.hand, changes_[0].step(left), changes_[1].step(right), context_);
  }
  /// The load that bounds the tempo of a change, in search units; nothing: there is no such change.
  [[nodiscard]] std::optional<Load> limiting_load(HandNumber left, HandNumber right) const;
  [[nodiscard]] const StepContext& context() const { return context_; }
  /// Other notes are heard only under a slur.
  [[nodiscard]] bool heard() const { return !context_.tongued && context_.silence <= Ms(0); }

 private:
  static constexpr Bound unknown{.effort = 0, .rest = -1};
  /// A pair of hand changes and what it weighs, in the only place where it may stand.
  struct Priced {
    std::uint64_t pair = ~std::uint64_t{0};
    Price price;
  };
  [[nodiscard]] const Price& newly_priced(HandNumber left, HandNumber right);
  [[nodiscard]] Bound bound_of(Hand side, HandNumber change) const;

  const Played& played_;
  const BothHands<HandChanges>& changes_;
  StepContext context_;
  bool bounded_;  ///< a second hand cannot make a change cheaper
  BothHands<std::vector<Bound>> bounds_;
  std::vector<Priced> prices_;  ///< grows with use to a bound; then the newer takes the place of the older
  std::size_t newly_priced_ = 0;
};

/// The weight of what is passed through on the way from one candidate to another, by their indices.
using PassingWeight = std::function<Weight(std::uint32_t from, std::uint32_t to)>;

/// The load that sets the speed limit of a change. Rests shrink with the tempo and then hide less, so it is the share
/// of its time the change takes at the very tempo at which it just fits.
[[nodiscard]] double limiting_load(const HandOnInstrument& hand, const HandStep& left, const HandStep& right,
                                   const StepContext& context);

/// All changes from one note to the next, one pair of notes after another. Rows are the ways of the first note; columns
/// those of the second. Models the `StepRows` of search/rows.hpp.
class StepPrices {
 public:
  explicit StepPrices(BothHands<HandChanges>& changes) : changes_(changes) {}

  /// From now on it speaks of the changes from `from` to `to`; all must outlive what is asked of them.
  void take(const NoteShape& from, const NoteShape& to, ContextPrices& prices, PassingWeight passing);

  [[nodiscard]] std::size_t rows() const { return from_->size(); }
  [[nodiscard]] std::span<const std::uint32_t> runs() const { return to_->runs; }
  /// From now on the following speak of this row.
  void start_row(std::size_t row);
  /// No change of the row weighs less.
  [[nodiscard]] Weight least_of_row() const { return free_ ? 0 : least_of(left_row_->least, right_row_->least); }
  /// No change of the row to a way of the run weighs less.
  [[nodiscard]] Weight least_of_run(std::size_t run) const {
    if (free_) return 0;
    return least_of(left_bound(to_->ways[to_->runs[run]]), right_row_->by_set[to_->right_set[run]]);
  }
  /// The weight of a change of the row; where it is more than `enough`, anything more than that.
  [[nodiscard]] Weight weight(std::size_t /*run*/, std::size_t column, Weight enough) {
    if (free_) return 0;
    const PackedWay& way = to_->ways[column];
    const Weight bound = least_of(left_bound(way), right_row_->changes[way.enter[1]].bound);
    if (bound > enough || is_forbidden(bound)) return bound;
    return worked_out(way, enough);
  }
  [[nodiscard]] std::optional<Load> limiting_load(std::size_t run, std::size_t column) const;
  /// Every change with its weight and load, ways in their own order.
  [[nodiscard]] Steps written_out();

 private:
  using Bound = ContextPrices::Bound;
  /// A hand's change, with what it weighs at least.
  struct Change {
    HandNumber number = 0;
    Bound bound;
  };
  /// A hand's changes from one posture.
  struct HandRow {
    std::vector<Change> changes;  ///< to posture
    Bound least;                  ///< of all of them
    std::vector<Bound> by_set;    ///< the least to any posture of a set of the right hand's
  };

  void take_hand(Hand side);
  [[nodiscard]] const Bound& left_bound(const PackedWay& way) const { return left_row_->changes[way.enter[0]].bound; }
  [[nodiscard]] Weight worked_out(const PackedWay& way, Weight enough);

  BothHands<HandChanges>& changes_;
  const NoteShape* from_ = nullptr;
  const NoteShape* to_ = nullptr;
  ContextPrices* prices_ = nullptr;
  PassingWeight passing_;
  bool free_ = false;                      ///< one of the notes has no fingering: nothing to price
  BothHands<std::vector<HandRow>> hands_;  ///< by posture of the first note; as many as were ever needed
  const HandRow* left_row_ = nullptr;
  const HandRow* right_row_ = nullptr;
  std::uint32_t row_candidate_ = 0;
};

}  // namespace fingerway
