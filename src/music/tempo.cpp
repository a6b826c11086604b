#include "fingerway/music/tempo.hpp"

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <utility>

namespace fingerway {

namespace {

Ms lasting(double quarters, Qpm tempo) {
  constexpr double ms_per_minute = 60000.0;
  return Ms(quarters * ms_per_minute / tempo.value());
}

/// The change in force at a moment; before the first it is the first.
std::size_t in_force(const std::vector<TempoChange>& changes, ScoreTime time) {
  const auto after = std::ranges::upper_bound(changes, time, {}, &TempoChange::at);
  return after == changes.begin() ? 0 : static_cast<std::size_t>(after - changes.begin()) - 1;
}

}  // namespace

TempoMap::TempoMap() : TempoMap(std::vector<TempoChange>{}) {}

TempoMap::TempoMap(std::vector<TempoChange> changes) {
  if (changes.empty()) changes.push_back(TempoChange{});
  std::ranges::stable_sort(changes, {}, &TempoChange::at);
  changes_.reserve(changes.size());
  for (TempoChange& change : changes) {
    assert(change.tempo > Qpm(0.0));
    if (!changes_.empty() && changes_.back().at == change.at) {
      changes_.back() = change;
    } else {
      changes_.push_back(change);
    }
  }
  clock_.reserve(changes_.size());
  clock_.push_back(Ms(0.0));
  for (std::size_t i = 1; i < changes_.size(); ++i) {
    const double quarters = (changes_[i].at - changes_[i - 1].at).quarters();
    clock_.push_back(clock_.back() + lasting(quarters, changes_[i - 1].tempo));
  }
  // The clock starts with the score, which need not be where the first change stands.
  const Ms start = at(ScoreTime(0));
  for (Ms& moment : clock_) moment -= start;
}

Ms TempoMap::at(ScoreTime time) const {
  const std::size_t i = in_force(changes_, time);
  return clock_[i] + lasting((time - changes_[i].at).quarters(), changes_[i].tempo);
}

Ms TempoMap::between(ScoreTime from, ScoreTime to) const {
  const std::size_t i = in_force(changes_, from);
  if (i == in_force(changes_, to)) return lasting((to - from).quarters(), changes_[i].tempo);
  return at(to) - at(from);
}

Qpm TempoMap::tempo_at(ScoreTime time) const { return changes_[in_force(changes_, time)].tempo; }

TempoMap TempoMap::starting_at(Qpm first) const {
  const double factor = first / changes_.front().tempo;
  std::vector<TempoChange> changes = changes_;
  for (TempoChange& change : changes) {
    change.tempo = change.tempo * factor;
    change.source = TempoSource::request;
  }
  // Said outright, so that rounding in the factor cannot change the tempo that was asked for.
  changes.front().tempo = first;
  return TempoMap(std::move(changes));
}

}  // namespace fingerway
