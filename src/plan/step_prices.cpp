#include "step_prices.hpp"

#include <algorithm>
#include <unordered_map>
#include <utility>

namespace fingerway {

double limiting_load(const HandOnInstrument& hand, const HandStep& left, const HandStep& right,
                     const StepContext& context) {
  const auto at_share = [&](double share) {
    StepContext faster = context;
    faster.silence = context.silence * share;
    return joined(hand, left, right, faster).load(context.available);
  };
  const double most = at_share(0.0);
  // Silence hides nothing but the way of a finger that leaves one touch for another.
  const bool hidden = context.silence > Ms(0) && (left.crosses || right.crosses);
  if (!hidden || at_share(most) >= most) return most;
  // The less silence, the longer the change: just one share of the time equals its own load, and it lies between these.
  double least = std::min(at_share(1.0), 1.0);
  double enough = most;
  for (int halving = 0; halving < 40; ++halving) {
    const double middle = (least + enough) / 2;
    (at_share(middle) > middle ? least : enough) = middle;
  }
  return enough;
}

ContextPrices::ContextPrices(const Played& played, const BothHands<HandChanges>& changes, const StepContext& context)
    : played_(played), changes_(changes), context_(context), prices_(128) {
  const MotionNumbers& n = played.hand.numbers();
  bounded_ = n.contrary_one_hand.value >= 1.0 && n.contrary_two_hands.value >= 1.0;
}

/// What one hand has to do, the change needs at least.
ContextPrices::Bound ContextPrices::bound_of(Hand side, HandNumber change) const {
  // Rounding may add a few units.
  constexpr Weight slack = 8;
  const HandStep still;
  const HandStep& moving = changes_[static_cast<std::size_t>(side)].step(change);
  const bool left = side == Hand::left;
  const Step step = joined(played_.hand, left ? moving : still, left ? still : moving, context_);
  if (!step.possible) return {.effort = Bound::shut, .rest = 0};
  if (!bounded_) return {};
  StepCost cost = step_cost(played_.hand.numbers(), step, context_, 0.0);
  const Points effort(std::exchange(cost.terms[static_cast<std::size_t>(StepTerm::effort)], 0.0));
  const auto kept = [](Weight weight) { return static_cast<std::int32_t>(std::min<Weight>(weight, Bound::shut - 1)); };
  return {.effort = kept(weight(effort) - slack), .rest = kept(weight(cost.total()))};
}

ContextPrices::Price ContextPrices::price_of(const Step& step) const {
  if (!step.possible) return {.weight = forbidden, .passing = false};
  return {.weight = fingerway::weight(step_cost(played_.hand.numbers(), step, context_, 0.0)),
          .passing = heard() && step.movers > 1};
}

std::optional<Load> ContextPrices::limiting_load(HandNumber left, HandNumber right) const {
  const HandStep& l = changes_[0].step(left);
  const HandStep& r = changes_[1].step(right);
  if (!l.possible || !r.possible) return std::nullopt;
  return load_units(fingerway::limiting_load(played_.hand, l, r, context_));
}

const ContextPrices::Price& ContextPrices::newly_priced(HandNumber left, HandNumber right) {
  constexpr std::size_t most = 8192;
  if (++newly_priced_ > prices_.size() && prices_.size() < most) prices_ = std::vector<Priced>(4 * prices_.size());
  const std::uint64_t pair = std::uint64_t{left} << 32U | right;
  Priced& priced = prices_[Mixed().add(pair).value() % prices_.size()];
  priced = {.pair = pair, .price = price_of(changed(left, right))};
  return priced.price;
}

void StepPrices::take(const NoteShape& from, const NoteShape& to, ContextPrices& prices, PassingWeight passing) {
  from_ = &from;
  to_ = &to;
  prices_ = &prices;
  passing_ = std::move(passing);
  free_ = from.ways.empty() || to.ways.empty();
  if (free_) return;
  for (Hand side : both_hands) take_hand(side);
}

void StepPrices::take_hand(Hand side) {
  const auto s = static_cast<std::size_t>(side);
  const std::vector<HandNumber>& leaving = from_->leaving(side);
  const std::vector<HandNumber>& entering = to_->enter[s];
  constexpr Bound most{.effort = Bound::shut, .rest = Bound::shut};
  if (hands_[s].size() < leaving.size()) hands_[s].resize(leaving.size());
  for (std::size_t a = 0; a < leaving.size(); ++a) {
    HandRow& row = hands_[s][a];
    row.least = most;
    row.changes.resize(entering.size());
    for (std::size_t b = 0; b < entering.size(); ++b) {
      Change& change = row.changes[b];
      change.number = changes_[s].change(leaving[a], entering[b]);
      change.bound = prices_->bound(side, change.number);
      row.least.lower_to(change.bound);
    }
    if (side == Hand::left) continue;
    row.by_set.assign(to_->right_sets.size(), most);
    for (std::size_t set = 0; set < row.by_set.size(); ++set) {
      for (const std::uint32_t b : to_->right_sets[set]) row.by_set[set].lower_to(row.changes[b].bound);
    }
  }
}

void StepPrices::start_row(std::size_t row) {
  if (free_) return;
  const BothHands<std::uint32_t>& leave = from_->leave_of(row);
  left_row_ = &hands_[0][leave[0]];
  right_row_ = &hands_[1][leave[1]];
  row_candidate_ = from_->last_candidate(row);
}

Weight StepPrices::worked_out(const PackedWay& way, Weight enough) {
  const ContextPrices::Price& known =
      prices_->price(left_row_->changes[way.enter[0]].number, right_row_->changes[way.enter[1]].number);
  return known.passing && known.weight <= enough ? known.weight + passing_(row_candidate_, way.candidate)
                                                 : known.weight;
}

std::optional<Load> StepPrices::limiting_load(std::size_t /*run*/, std::size_t column) const {
  if (free_) return Load{0};
  const PackedWay& way = to_->ways[column];
  return prices_->limiting_load(left_row_->changes[way.enter[0]].number, right_row_->changes[way.enter[1]].number);
}

Steps StepPrices::written_out() {
  Steps steps{.from = rows(), .to = to_->size(), .weight = {}, .load = {}};
  if (free_) {
    steps.weight.assign(steps.from * steps.to, 0);
    steps.load.assign(steps.from * steps.to, 0);
    return steps;
  }
  // Few pairs of changes differ.
  struct Known {
    ContextPrices::Price price;
    Load load = 0;
  };
  std::unordered_map<std::uint64_t, Known> prices;
  steps.weight.reserve(steps.from * steps.to);
  steps.load.reserve(steps.from * steps.to);
  for (std::size_t i = 0; i < steps.from; ++i) {
    start_row(i);
    for (const PackedWay& way : to_->ways) {
      const HandNumber left = left_row_->changes[way.enter[0]].number;
      const HandNumber right = right_row_->changes[way.enter[1]].number;
      const auto [entry, is_new] = prices.try_emplace(std::uint64_t{left} << 32U | right);
      Known& known = entry->second;
      if (is_new) {
        const Step step = prices_->changed(left, right);
        known.price = prices_->price_of(step);
        if (step.possible) known.load = load_units(step.load(prices_->context().available));
      }
      steps.weight.push_back(known.price.weight + (known.price.passing ? passing_(row_candidate_, way.candidate) : 0));
      steps.load.push_back(known.load);
    }
  }
  return steps;
}

}  // namespace fingerway
