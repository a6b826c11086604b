#include "step_prices.hpp"

#include <algorithm>
#include <new>
#include <utility>

namespace fingerway {

void StepPrices::take(std::shared_ptr<const NoteShape> from, std::shared_ptr<const NoteShape> to,
                      const ContextPrices& prices, PassingWeight passing) {
  from_ = std::move(from);
  to_ = std::move(to);
  prices_ = &prices;
  passing_weight_ = std::move(passing);
  free_ = !from_->playable() || !to_->playable();
  for (Hand side : both_hands) {
    const auto s = static_cast<std::size_t>(side);
    HandTable& table = hands_[s];
    const auto count = [](const HandPostures& postures) { return postures.each.size() + postures.any.size(); };
    table.columns = std::max<std::size_t>(count(to_->enter[s]), 1);
    table.rows.assign(std::max<std::size_t>(count(from_->leaving(side)), 1), {});
  }
  bounds_.clear();
  shares_.clear();
}

StepPrices::From StepPrices::start(const BandPlace& from, Look look) {
  from_band_ = from.is_band();
  candidate_.reset();
  HandNumbers leave{};
  if (from_->playable()) {
    const Band& band = from_->bands[from.band];
    leave = from_band_ ? band.leave : from_->leave_of(from.band, from.node);
    if (look == Look::close && from_->kind != NoteKind::tremolo) candidate_ = from.band;
    if (look == Look::close && from_->kind == NoteKind::tremolo && !from_band_) {
      candidate_ = from_->pairs[from.node].second;
    }
  }
  for (std::size_t s = 0; s < both_hands.size(); ++s) {
    HandTable& table = hands_[s];
    Changes& row = table.rows[leave[s]];
    if (row.bounds == nullptr) {
      row = {.bounds = bounds_.take(table.columns), .shares = shares_.take(table.columns)};
      std::fill_n(row.bounds, table.columns, free_ ? Bound{.effort = 0, .rest = 0} : Bound::not_known());
    }
    HandRow& now = row_[s];
    now.changes = row;
    now.leave = leave[s];
    now.steps.reset();
  }
  return From(*this);
}

void StepPrices::look_up_from(Hand side) {
  HandRow& row = row_[static_cast<std::size_t>(side)];
  const HandPostures& leaving = from_->leaving(side);
  const std::size_t each = leaving.each.size();
  row.any = row.leave < each ? nullptr : &leaving.any[row.leave - each];
  row.posture = row.any != nullptr ? &row.any->first : &leaving.each[row.leave];
  row.steps.emplace(*hand_, side, *row.posture);
  for (std::size_t d = 0; d < 5; ++d) {
    if (row.any != nullptr && row.any->several[d] != nullptr) row.steps->from(d, row.any->several[d]->from.data());
  }
}

HandStep StepPrices::step_to_any(const HandRow& row, const AnyPosture& to) {
  static const FingerPart stays;
  HandStep step;
  for (std::size_t d = 0; d < 5; ++d) {
    const Several* several = to.several[d];
    const bool from_several = row.any != nullptr && row.any->several[d] != nullptr;
    // An idle finger that may be in many places may stay where it is.
    step.add(several == nullptr ? row.steps->part(d, to.first.at[d])
             : from_several     ? stays
                                : several->to[row.posture->at[d]]);
  }
  return step;
}

inline HandStep StepPrices::hand_step_to(Hand side, std::uint32_t enter) {
  const auto s = static_cast<std::size_t>(side);
  HandRow& row = row_[s];
  if (!row.steps) look_up_from(side);
  if (row.any != nullptr && !row.any->alike) return {};
  const HandPostures& to = to_->enter[s];
  if (enter < to.each.size()) return row.steps->to(to.each[enter]);
  const AnyPosture& any = to.any[enter - to.each.size()];
  return any.alike ? step_to_any(row, any) : HandStep{};
}

void StepPrices::work_out(Hand side, std::uint32_t enter) {
  const HandRow& row = row_[static_cast<std::size_t>(side)];
  // Made where it stays: its small fields, copied, would be read back too soon after they are written.
  const HandShare& share = *::new (&row.changes.shares[enter]) HandShare(prices_->share(hand_step_to(side, enter)));
  row.changes.bounds[enter] = prices_->bound(share);
}

Weight StepPrices::cost(const BandPlace& to, Weight enough) const {
  if (free_) return 0;
  const HandShare& left = row_[0].changes.shares[to.mark[0]];
  const HandShare& right = row_[1].changes.shares[to.mark[1]];
  if (left.impossible || right.impossible) return forbidden;
  const bool exact = !from_band_ && !to.is_band();
  if (!exact && !prices_->bounded()) return 0;
  const WholeStep whole = prices_->whole(left, right);
  const Weight weight = prices_->weight(whole);
  if (!prices_->heard(whole) || weight > enough || !candidate_) return weight;
  return weight + passing_weight_(*candidate_, to.band);
}

Load StepPrices::load(const BandPlace& to) {
  if (free_) return 0;
  const HandNumbers& enter = to.mark;
  const HandShare& left = share(Hand::left, enter[0]);
  const HandShare& right = share(Hand::right, enter[1]);
  if (left.impossible || right.impossible) return forbidden;
  const double load = prices_->load_of(prices_->whole(left, right));
  const bool silent = prices_->context().silence > Ms(0);
  if (from_band_ || to.is_band()) return prices_->bounded() ? load_units(silent ? std::min(load, 1.0) : load) : 0;
  if (!silent || !(left.crosses || right.crosses)) return load_units(load);
  return load_units(limiting_load(*hand_, hand_step_to(Hand::left, enter[0]), hand_step_to(Hand::right, enter[1]),
                                  prices_->context()));
}

Steps StepPrices::written_out() {
  Steps steps{.from = from_->ways, .to = to_->ways, .weight = {}, .load = {}};
  if (free_) {
    steps.weight.assign(steps.from * steps.to, 0);
    steps.load.assign(steps.from * steps.to, 0);
    return steps;
  }
  steps.weight.reserve(steps.from * steps.to);
  steps.load.reserve(steps.from * steps.to);
  const auto each_way = [](const NoteShape& shape, const auto& visit) {
    for (std::uint32_t b = 0; b < shape.bands.size(); ++b) {
      for (std::uint32_t way = shape.bands[b].first; way < shape.end_of(b); ++way) {
        visit(BandPlace{.band = b, .node = way, .mark = shape.enter_of(b, way)});
      }
    }
  };
  each_way(*from_, [&](const BandPlace& from) {
    (void)start(from, Look::close);
    each_way(*to_, [&](const BandPlace& to) {
      const HandShare& left = share(Hand::left, to.mark[0]);
      const HandShare& right = share(Hand::right, to.mark[1]);
      const bool possible = !left.impossible && !right.impossible;
      steps.weight.push_back(possible ? cost(to, forbidden) : forbidden);
      steps.load.push_back(possible ? load_units(prices_->load_of(prices_->whole(left, right))) : 0);
    });
  });
  return steps;
}

}  // namespace fingerway
