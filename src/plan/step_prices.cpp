#include "step_prices.hpp"

#include <algorithm>
#include <utility>

namespace fingerway {

void StepPrices::take(const NoteShape& from, const NoteShape& to, const ContextPrices& prices, PassingWeight passing) {
  from_ = &from;
  to_ = &to;
  prices_ = &prices;
  passing_weight_ = std::move(passing);
  free_ = from.ways.empty() || to.ways.empty();
  if (free_) return;
  passing_.assign(from.last().candidates.size() * to.first->candidates.size(), forbidden);
  for (Hand side : both_hands) take_hand(side);
}

void StepPrices::take_hand(Hand side) {
  const auto s = static_cast<std::size_t>(side);
  const std::vector<HandPosture>& leaving = from_->leaving(side);
  const std::vector<HandPosture>& entering = to_->enter[s];
  constexpr Bound most{.effort = Bound::shut, .rest = Bound::shut};
  HandTable& table = hands_[s];
  table.entering = entering.size();
  const std::size_t count = leaving.size() * entering.size();
  if (table.shares.size() < count) {
    table.shares.resize(count);
    table.bounds.resize(count);
  }
  table.least.assign(leaving.size(), most);
  std::size_t place = 0;
  for (std::size_t a = 0; a < leaving.size(); ++a) {
    const HandSteps steps(hand_, side, leaving[a]);
    for (const HandPosture& to : entering) {
      table.shares[place] = prices_->share(steps.to(to));
      table.bounds[place] = prices_->bound(table.shares[place]);
      table.least[a].lower_to(table.bounds[place]);
      ++place;
    }
  }
  if (side == Hand::left) return;
  table.sets = to_->right_sets.size();
  table.by_set.assign(leaving.size() * table.sets, most);
  for (std::size_t a = 0; a < leaving.size(); ++a) {
    for (std::size_t set = 0; set < table.sets; ++set) {
      Bound& least = table.by_set[a * table.sets + set];
      for (const std::uint32_t b : to_->right_sets[set]) least.lower_to(table.bounds[a * table.entering + b]);
    }
  }
}

StepPrices::HandRow StepPrices::row_of(const HandTable& table, std::size_t leaving) {
  return {.shares = table.shares.data() + leaving * table.entering,
          .bounds = table.bounds.data() + leaving * table.entering,
          .least = table.least.data() + leaving,
          .by_set = table.by_set.data() + leaving * table.sets};
}

void StepPrices::start_row(std::size_t row) {
  if (free_) return;
  row_ = row;
  const BothHands<std::uint32_t>& leave = from_->leave_of(row);
  left_ = row_of(hands_[0], leave[0]);
  right_ = row_of(hands_[1], leave[1]);
  passing_row_ = passing_.data() + from_->last_candidate(row) * to_->first->candidates.size();
}

Weight StepPrices::passing(const PackedWay& way) {
  Weight& known = passing_row_[way.candidate];
  if (known == forbidden) known = passing_weight_(from_->last_candidate(row_), way.candidate);
  return known;
}

Weight StepPrices::worked_out(const PackedWay& way, Weight enough) {
  const WholeStep whole = prices_->whole(left_.shares[way.enter[0]], right_.shares[way.enter[1]]);
  const Weight weight = prices_->weight(whole);
  return prices_->heard(whole) && weight <= enough ? weight + passing(way) : weight;
}

HandStep StepPrices::hand_step_to(Hand side, const PackedWay& way) const {
  const auto s = static_cast<std::size_t>(side);
  return hand_step(hand_, side, from_->leaving(side)[from_->leave_of(row_)[s]], to_->enter[s][way.enter[s]]);
}

std::optional<Load> StepPrices::limiting_load(std::size_t /*run*/, std::size_t column) const {
  if (free_) return Load{0};
  const PackedWay& way = to_->ways[column];
  const HandShare& left = left_.shares[way.enter[0]];
  const HandShare& right = right_.shares[way.enter[1]];
  if (!left.possible || !right.possible) return std::nullopt;
  const bool hidden = prices_->context().silence > Ms(0) && (left.crosses || right.crosses);
  if (!hidden) return load_units(prices_->load_of(prices_->whole(left, right)));
  return load_units(fingerway::limiting_load(hand_, hand_step_to(Hand::left, way), hand_step_to(Hand::right, way),
                                             prices_->context()));
}

Steps StepPrices::written_out() {
  Steps steps{.from = rows(), .to = to_->size(), .weight = {}, .load = {}};
  if (free_) {
    steps.weight.assign(steps.from * steps.to, 0);
    steps.load.assign(steps.from * steps.to, 0);
    return steps;
  }
  steps.weight.reserve(steps.from * steps.to);
  steps.load.reserve(steps.from * steps.to);
  for (std::size_t i = 0; i < steps.from; ++i) {
    start_row(i);
    for (const PackedWay& way : to_->ways) {
      const HandShare& left = left_.shares[way.enter[0]];
      const HandShare& right = right_.shares[way.enter[1]];
      const bool possible = left.possible && right.possible;
      steps.weight.push_back(possible ? worked_out(way, forbidden) : forbidden);
      steps.load.push_back(possible ? load_units(prices_->load_of(prices_->whole(left, right))) : 0);
    }
  }
  return steps;
}

}  // namespace fingerway
