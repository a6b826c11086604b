// What this part answers: which sets of conversions there are to choose from, and what each costs and weighs.
// It does not know what a set is good for (payoff) and reads no conversion files.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "fingerway/plan/played.hpp"

namespace fingerway {

/// More conversions than this make more sets than anybody should wait for.
inline constexpr std::size_t most_conversions = 12;

/// What a set asks of its owner. `known` is false where a member names no cost.
struct SetCost {
  double low = 0.0;
  double high = 0.0;
  bool known = true;
  std::string currency;
  double grams = 0.0;
  double hours = 0.0;

  friend bool operator==(const SetCost&, const SetCost&) = default;
};

/// A set of conversions laid over the stock instrument, planned as a set and never added up.
struct Variant {
  std::vector<std::size_t> members;  ///< into the conversions asked for; empty: the stock instrument
  Played played;
  SetCost cost;
};

/// Conversions that cannot stand on one instrument.
struct RefusedSet {
  std::vector<std::size_t> members;
  std::string why;
};

/// Every subset of `count` conversions: the empty one first, then by size, then by members.
[[nodiscard]] std::vector<std::vector<std::size_t>> subsets(std::size_t count);

/// Sums over the conversions laid over an instrument. Two currencies make the cost unknown.
[[nodiscard]] SetCost cost_of(const Instrument& instrument);

/// True when the set surely costs no more: its highest cost counts. The stock instrument costs nothing.
[[nodiscard]] bool within(const SetCost& cost, std::optional<double> budget);

}  // namespace fingerway
