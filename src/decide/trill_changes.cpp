#include "fingerway/decide/trill_changes.hpp"

#include <map>
#include <utility>

namespace fingerway {
namespace {

double rate(const Trill& trill) { return trill.best ? trill.best->rate.value() : 0.0; }

}  // namespace

NotesPerSecond TrillChange::gain() const { return NotesPerSecond(rate(converted) - rate(stock)); }

std::vector<TrillChange> trill_changes(const std::vector<Trill>& stock, const std::vector<Trill>& converted) {
  std::map<std::pair<WrittenPitch, WrittenPitch>, TrillChange> by_notes;
  const auto entry = [&](const Trill& trill) -> TrillChange& {
    const Trill nothing{.from = trill.from, .to = trill.to, .best = {}, .verdict = Verdict::out_of_reach};
    return by_notes.try_emplace({trill.from, trill.to}, TrillChange{.stock = nothing, .converted = nothing})
        .first->second;
  };
  for (const Trill& trill : stock) entry(trill).stock = trill;
  for (const Trill& trill : converted) entry(trill).converted = trill;
  std::vector<TrillChange> changes;
  for (auto& [notes, change] : by_notes) changes.push_back(std::move(change));
  return changes;
}

}  // namespace fingerway
