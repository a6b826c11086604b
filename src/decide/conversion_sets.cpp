#include "fingerway/decide/conversion_sets.hpp"

#include <algorithm>
#include <cstdint>

namespace fingerway {

std::vector<std::vector<std::size_t>> subsets(std::size_t count) {
  std::vector<std::vector<std::size_t>> all;
  for (std::uint64_t bits = 0; bits < std::uint64_t{1} << count; ++bits) {
    std::vector<std::size_t> members;
    for (std::size_t i = 0; i < count; ++i) {
      if ((bits >> i & 1U) != 0) members.push_back(i);
    }
    all.push_back(std::move(members));
  }
  std::ranges::sort(all,
                    [](const auto& a, const auto& b) { return a.size() != b.size() ? a.size() < b.size() : a < b; });
  return all;
}

SetCost cost_of(const Instrument& instrument) {
  SetCost cost;
  for (const ConversionSheet& sheet : instrument.conversions) {
    cost.grams += sheet.grams.value_or(0.0);
    cost.hours += sheet.hours.value_or(0.0);
    const auto low = sheet.cost_low ? sheet.cost_low : sheet.cost_high;
    const auto high = sheet.cost_high ? sheet.cost_high : sheet.cost_low;
    if (!low || (!cost.currency.empty() && cost.currency != sheet.currency)) {
      cost.known = false;
      continue;
    }
    cost.currency = sheet.currency;
    cost.low += *low;
    cost.high += *high;
  }
  return cost;
}

bool within(const SetCost& cost, std::optional<double> budget) {
  return !budget || (cost.known && cost.high <= *budget);
}

}  // namespace fingerway
