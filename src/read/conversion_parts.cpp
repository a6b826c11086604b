#include "conversion_parts.hpp"

#include <utility>

#include "instrument_parts.hpp"

namespace fingerway {

namespace {

constexpr Bounds money_bounds{0.0, 1e6};
constexpr Bounds gram_bounds{-2000.0, 2000.0};
constexpr Bounds hour_bounds{0.0, 2000.0};

void read_cost(const YamlNode& cost, ConversionSheet& sheet, FaultList& faults) {
  YamlMap figures(cost, "'cost'", faults);
  sheet.cost_low = figures.number_if("from", money_bounds);
  sheet.cost_high = figures.number_if("to", money_bounds);
  sheet.currency = figures.text_or("currency", {});
  sheet.grams = figures.number_if("grams", gram_bounds);
  sheet.hours = figures.number_if("hours", hour_bounds);
  sheet.figures_basis =
      figures.word<const char*>("basis", {{"invented", "invented"}, {"common practice", "common practice"}});
  if (sheet.cost_low && sheet.cost_high && *sheet.cost_low > *sheet.cost_high) {
    faults.add(cost, "'from' is more than 'to'", "the lower figure first");
  }
  if (sheet.cost_low.has_value() != sheet.cost_high.has_value()) {
    faults.add(cost, "a price needs both 'from' and 'to'", "the same figure twice where it is fixed");
  }
  if (sheet.cost_low && sheet.currency.empty()) faults.add(cost, "a price needs the key 'currency'", "currency: EUR");
  figures.finish();
}

}  // namespace

ConversionSheet read_sheet(YamlMap& map, const Instrument& base, FaultList& faults) {
  ConversionSheet sheet;
  sheet.id = map.text("id");
  if (!sheet.id.empty()) require_id(*map.find("id"), sheet.id, faults);
  const std::string named = map.text("base");
  if (!named.empty() && named != base.id && named != base.family) {
    faults.add(*map.find("base"), "this conversion is for " + in_quotes(named) + ", not for " + in_quotes(base.id));
  }
  sheet.name = map.text("name");
  sheet.what = map.text("what");
  sheet.work = map.texts("work");
  sheet.upkeep = map.texts("upkeep");
  if (const YamlNode* cost = map.find("cost")) read_cost(*cost, sheet, faults);
  return sheet;
}

void ConversionClaims::state(const std::string& conversion, const std::string& subject, const std::string& value,
                             const YamlNode& at, FaultList& faults) {
  const auto [claim, is_new] = claims_.try_emplace(subject, Claim{conversion, value});
  if (is_new || claim->second.value == value) return;
  if (claim->second.conversion == conversion) {
    faults.add(at, in_quotes(conversion) + " contradicts itself about " + subject + ": " + claim->second.value +
                       " against " + value);
    return;
  }
  faults.add(at,
             in_quotes(claim->second.conversion) + " and " + in_quotes(conversion) + " contradict each other about " +
                 subject + ": " + claim->second.value + " against " + value,
             "they cannot be fitted together");
}

}  // namespace fingerway
