#include "step_prices.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

namespace fingerway {
namespace {

/// Numbers from 0 for the kinds of change that come up.
struct LocalKinds {
  std::vector<std::uint32_t> number;  ///< by kind
  std::size_t count = 0;

  explicit LocalKinds(const std::vector<HandNumber>& kinds) {
    constexpr std::uint32_t none = ~std::uint32_t{0};
    number.assign(kinds.empty() ? 0 : std::ranges::max(kinds) + 1, none);
    for (const HandNumber kind : kinds) {
      if (number[kind] == none) number[kind] = static_cast<std::uint32_t>(count++);
    }
  }
};

}  // namespace

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

HandBounds::HandBounds(const Played& played, const BothHands<HandChanges>& changes, const StepContext& context)
    : played_(played), changes_(changes), context_(context) {
  const MotionNumbers& n = played.hand.numbers();
  bounded_ = n.contrary_one_hand.value >= 1.0 && n.contrary_two_hands.value >= 1.0;
}

/// What one hand has to do, the change needs at least.
HandBounds::Bound HandBounds::worked_out(Hand side, HandNumber change) const {
  // Rounding may add a few units.
  constexpr Weight slack = 8;
  const HandStep still;
  const HandStep& moving = changes_[static_cast<std::size_t>(side)].step(change);
  const bool left = side == Hand::left;
  const Step step = joined(played_.hand, left ? moving : still, left ? still : moving, context_);
  if (!step.possible) return {.effort = forbidden, .rest = 0};
  if (!bounded_) return {};
  StepCost cost = step_cost(played_.hand.numbers(), step, context_, 0.0);
  const Points effort(std::exchange(cost.terms[static_cast<std::size_t>(StepTerm::effort)], 0.0));
  return {.effort = weight(effort) - slack, .rest = weight(cost.total())};
}

StepPrices::StepPrices(const Played& played, BothHands<HandChanges>& changes, std::shared_ptr<const NoteWays> from,
                       std::shared_ptr<const NoteWays> to, std::shared_ptr<HandBounds> bounds, PassingWeight passing)
    : played_(played),
      changes_(changes),
      from_(std::move(from)),
      to_(std::move(to)),
      bounds_(std::move(bounds)),
      passing_(std::move(passing)) {
  const StepContext& context = bounds_->context();
  heard_ = !context.tongued && context.silence <= Ms(0);
  free_ = from_->ways.empty() || to_->ways.empty();
  if (free_) return;
  for (Hand side : both_hands) {
    const auto s = static_cast<std::size_t>(side);
    kind_of_[s].reserve(from_->leave[s].size() * to_->enter[s].size());
    for (const HandNumber a : from_->leave[s]) {
      Weight least = forbidden;
      for (const HandNumber b : to_->enter[s]) {
        kind_of_[s].push_back(changes[s].change(a, b));
        const HandBounds::Bound& bound = bounds_->of(side, kind_of_[s].back());
        least = std::min(least, bound.effort + bound.rest);
      }
      least_from_[s].push_back(least);
    }
  }
  if (!heard_) return;
  const bool second = from_->kind == NoteKind::tremolo;
  const auto& leaving = second ? from_->note.seconds : from_->note.candidates;
  passing_weights_.assign(leaving.size() * to_->note.candidates.size(), unknown);
}

void StepPrices::arrange(std::span<const std::uint32_t> order) {
  columns_.clear();
  if (free_) return;
  for (const std::uint32_t i : order) {
    const PackedNode& way = to_->ways[i];
    columns_.push_back({.left = way.enter[0], .right = way.enter[1], .candidate = way.candidate});
  }
}

void StepPrices::start_row(std::size_t row) {
  if (free_) return;
  const PackedNode& way = from_->ways[row];
  left_row_ = kind_of_[0].data() + way.leave[0] * to_->enter[0].size();
  right_row_ = kind_of_[1].data() + way.leave[1] * to_->enter[1].size();
  row_candidate_ = from_->kind == NoteKind::tremolo ? way.second : way.candidate;
  least_ = std::max(least_from_[0][way.leave[0]], least_from_[1][way.leave[1]]);
}

Weight StepPrices::weight(std::size_t column, Weight enough) {
  if (free_) return 0;
  const HandBounds::Bound& a = bounds_->of(Hand::left, left_row_[columns_[column].left]);
  const HandBounds::Bound& b = bounds_->of(Hand::right, right_row_[columns_[column].right]);
  const Weight bound = a.effort + b.effort + std::max(a.rest, b.rest);
  if (bound > enough || is_forbidden(bound)) return std::min(bound, forbidden);
  const Price known = price(left(column), right(column));
  return known.passing && known.weight <= enough ? known.weight + passing_weight(column) : known.weight;
}

StepPrices::Price StepPrices::price(const HandStep& left, const HandStep& right) const {
  const StepContext& context = bounds_->context();
  const Step step = joined(played_.hand, left, right, context);
  if (!step.possible) return {.weight = forbidden, .load = 0, .passing = false};
  return {.weight = fingerway::weight(step_cost(played_.hand.numbers(), step, context, 0.0)),
          .load = load_units(step.load(context.available)),
          .passing = heard_ && step.movers > 1};
}

std::optional<Load> StepPrices::limiting_load(std::size_t column) const {
  if (free_) return Load{0};
  if (!left(column).possible || !right(column).possible) return std::nullopt;
  return load_units(fingerway::limiting_load(played_.hand, left(column), right(column), bounds_->context()));
}

Steps StepPrices::written_out() {
  std::vector<std::uint32_t> order(columns());
  std::iota(order.begin(), order.end(), 0U);
  arrange(order);
  Steps steps{.from = rows(), .to = columns(), .weight = {}, .load = {}};
  if (free_) {
    steps.weight.assign(steps.from * steps.to, 0);
    steps.load.assign(steps.from * steps.to, 0);
    return steps;
  }
  // Few pairs of changes differ, so that a table of them serves every step.
  const std::array<LocalKinds, 2> kinds = {LocalKinds(kind_of_[0]), LocalKinds(kind_of_[1])};
  std::vector<Price> prices(kinds[0].count * kinds[1].count);
  steps.weight.reserve(steps.from * steps.to);
  steps.load.reserve(steps.from * steps.to);
  for (std::size_t i = 0; i < steps.from; ++i) {
    start_row(i);
    for (std::size_t j = 0; j < steps.to; ++j) {
      const HandNumber l = left_row_[columns_[j].left];
      const HandNumber r = right_row_[columns_[j].right];
      Price& known = prices[kinds[0].number[l] * kinds[1].count + kinds[1].number[r]];
      if (known.weight == unknown) known = price(changes_[0].step(l), changes_[1].step(r));
      steps.weight.push_back(known.weight + (known.passing ? passing_weight(j) : 0));
      steps.load.push_back(known.load);
    }
  }
  return steps;
}

std::size_t StepPrices::bytes() const {
  return sizeof(*this) + sizeof(HandNumber) * (kind_of_[0].size() + kind_of_[1].size()) +
         sizeof(Weight) * passing_weights_.size() + sizeof(Column) * to_->size();
}

Weight StepPrices::passing_weight(std::size_t column) {
  const std::uint32_t to = columns_[column].candidate;
  Weight& known = passing_weights_[row_candidate_ * to_->note.candidates.size() + to];
  if (known == unknown) known = passing_(row_candidate_, to);
  return known;
}

}  // namespace fingerway
