// Conversions laid over in either order: what stacks in one order stacks in the other, and means the same.
#include <algorithm>
#include <map>
#include <set>

#include "fingerway/base/errors.hpp"
#include "fingerway/read/instrument_files.hpp"
#include "properties/random_world.hpp"

using namespace fingerway;

namespace {

/// Note and touches by name: touches of two conversions are numbered by the order they come in.
using NamedFingerings = std::set<std::string>;

NamedFingerings fingerings_by_name(const Played& played) {
  NamedFingerings all;
  const auto sorted_names = [&](TouchSet touches) {
    std::vector<std::string> names;
    for (TouchId touch : touches) names.push_back(full_name(played.instrument.touches[touch.index]));
    std::ranges::sort(names);
    std::string text;
    for (const std::string& each : names) text += each + " ";
    return text;
  };
  for (const auto& [pitch, candidates] : played.derivation.by_pitch) {
    for (const Candidate& candidate : candidates) {
      all.insert(name(chart_spelling(pitch)) + ": " + sorted_names(candidate.fingering.pressed) + "half " +
                 sorted_names(candidate.fingering.half) + "flick " + sorted_names(candidate.fingering.flicked));
    }
  }
  return all;
}

/// Nothing where the stack contradicts itself.
std::optional<Instrument> read(const std::string& stacked) {
  try {
    return read_instrument(stacked, own_instruments());
  } catch (const InputError&) {
    return std::nullopt;
  }
}

/// Parts a conversion names in the instrument: two conversions without a common one touch different parts.
std::set<std::string> parts_changed(const Instrument& stock, const Instrument& converted) {
  std::set<std::string> parts;
  for (std::size_t t = 0; t < converted.touches.size(); ++t) {
    const Touch& touch = converted.touches[t];
    if (t >= stock.touches.size() || !(touch == stock.touches[t])) parts.insert(full_name(touch));
  }
  for (const Pad& pad : converted.pads) {
    const auto same = std::ranges::find(stock.pads, pad.id, &Pad::id);
    if (same == stock.pads.end() || !(*same == pad)) parts.insert("pad " + pad.id);
  }
  const auto add_rules = [&](const Instrument& from, const Instrument& without) {
    for (const Rule& rule : from.rules) {
      if (std::ranges::find(without.rules, rule) != without.rules.end()) continue;
      for (PadId pad : rule.opens | rule.closes) parts.insert("pad " + from.pads[pad.index].id);
    }
  };
  add_rules(converted, stock);
  add_rules(stock, converted);
  return parts;
}

}  // namespace

TEST_CASE("property: conversions that touch different parts mean the same in either order") {
  std::size_t commuting = 0;
  for (const std::string base : {"bassoon", "clarinet", "flute", "oboe", "saxophone"}) {
    const Instrument stock = *read(base);
    const auto ids = conversion_ids(base, own_instruments());
    std::map<std::string, std::set<std::string>> parts;
    for (const std::string& id : ids) parts[id] = parts_changed(stock, *read(base + "+" + id));
    for (std::size_t a = 0; a < ids.size(); ++a) {
      for (std::size_t b = a + 1; b < ids.size(); ++b) {
        INFO(base << "+" << ids[a] << "+" << ids[b]);
        const auto one = read(base + "+" + ids[a] + "+" + ids[b]);
        const auto other = read(base + "+" + ids[b] + "+" + ids[a]);
        std::vector<std::string> common;
        std::ranges::set_intersection(parts[ids[a]], parts[ids[b]], std::back_inserter(common));
        if (!common.empty()) continue;
        CHECK(one.has_value() == other.has_value());
        if (!one || !other) continue;
        const Played played_one = played(*one, own_numbers(), Level::amateur);
        const Played played_other = played(*other, own_numbers(), Level::amateur);
        CHECK(fingerings_by_name(played_one) == fingerings_by_name(played_other));
        ++commuting;
      }
    }
  }
  CHECK(commuting > 100);
}

TEST_CASE("property: a passage weighs the same whichever of two such conversions is named first") {
  const std::vector<std::pair<std::string, std::string>> pairs = {
      {"bassoon+interlinked-low-keys+thumb-key-rollers", "bassoon+thumb-key-rollers+interlinked-low-keys"},
      {"flute+split-e+c-sharp-d-sharp-mechanism", "flute+c-sharp-d-sharp-mechanism+split-e"},
      {"flute+d-sharp-roller+split-e", "flute+split-e+d-sharp-roller"}};
  for (const auto& [first, second] : pairs) {
    const auto one = read(first);
    const auto other = read(second);
    if (!one || !other) {
      INFO(first);
      CHECK(one.has_value() == other.has_value());
      continue;
    }
    const Played played_one = played(*one, own_numbers(), Level::amateur);
    const Played played_other = played(*other, own_numbers(), Level::amateur);
    std::vector<WrittenPitch> pitches;
    for (const auto& [pitch, candidates] : played_one.derivation.by_pitch) pitches.push_back(pitch);
    holds_for_all(first.c_str(), 15, [&] {
      const Passage passage = drawn_passage(pitches, 1, 6);
      const Plan a = best_plan(played_one, passage);
      const Plan b = best_plan(played_other, passage);
      RC_LOG() << shown(*one, passage, a) << '\n' << shown(*other, passage, b) << '\n';
      RC_ASSERT(a.summary.weight == b.summary.weight);
      RC_ASSERT(a.summary.complete == b.summary.complete);
    });
  }
}
