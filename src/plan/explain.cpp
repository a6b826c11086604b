#include "fingerway/plan/explain.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include "fingerway/plan/planner.hpp"
#include "passage_search.hpp"

namespace fingerway {
namespace {

/// Notes before and after the one asked for that are kept to be drawn.
constexpr std::size_t nearby = 2;

/// Ways of one note that play the same fingering, and the best path through one of them.
struct Group {
  std::pair<std::uint32_t, std::uint32_t> fingering;
  Found best;
};

std::vector<Group> groups_by_fingering(const PassageWays& passage, std::size_t note) {
  const auto here = passage.shape(note);
  if (!here->playable()) return {{.fingering = {0, 0}, .best = search(passage, {}, Sought::path)}};
  const auto fingering_of = [&](std::uint32_t way) {
    return std::pair(here->band_of(way), here->pairs.empty() ? 0 : here->pairs[way].second);
  };
  std::set<std::pair<std::uint32_t, std::uint32_t>> fingerings;
  for (std::uint32_t way = 0; way < here->ways; ++way) fingerings.insert(fingering_of(way));
  std::vector<Group> groups;
  for (const auto& fingering : fingerings) {
    const auto same = [&](std::uint32_t way) { return fingering_of(way) == fingering; };
    Found best = search(passage, OnlyAt{.note = note, .allowed = same}, Sought::path);
    if (!best.at.empty()) groups.push_back({.fingering = fingering, .best = std::move(best)});
  }
  std::ranges::stable_sort(groups, {}, [](const Group& group) { return group.best.weight; });
  return groups;
}

bool same_fingering(const PlannedNote& a, const PlannedNote& b) {
  const auto fingering = [](const Shared<Candidate>& c) {
    return c ? std::optional<Fingering>(c->fingering) : std::nullopt;
  };
  return fingering(a.candidate) == fingering(b.candidate) && fingering(a.other) == fingering(b.other);
}

}  // namespace

Explanation Planner::explain(const Passage& passage, const Choices& choices, std::size_t note, std::size_t most) {
  const PassageWays ways(*workshop_, passage, choices);
  Explanation explanation{.note = note, .options = {}};
  std::optional<Plan> best;
  Weight least = 0;
  for (const Group& group : groups_by_fingering(ways, note)) {
    if (explanation.options.size() >= most) break;
    Plan plan = plan_along(passage, ways, group.best.at, {});
    Option option{.here = plan.notes[note], .leave = {}, .dearer = {}, .elsewhere = {}, .around = {}};
    if (note + 1 < plan.notes.size()) option.leave = plan.notes[note + 1].arrive;
    option.around_first = note - std::min(note, nearby);
    const auto from = plan.notes.begin() + static_cast<std::ptrdiff_t>(option.around_first);
    const std::size_t end = std::min(note + nearby + 1, plan.notes.size());
    option.around.assign(from, plan.notes.begin() + static_cast<std::ptrdiff_t>(end));
    if (!best) {
      least = group.best.weight;
    } else {
      for (std::size_t i = 0; i < plan.notes.size(); ++i) {
        if (i != note && !same_fingering(plan.notes[i], best->notes[i])) option.elsewhere.push_back(i);
      }
    }
    option.dearer = Points(static_cast<double>(group.best.weight - least) / 1e6);
    if (!best) best = std::move(plan);
    explanation.options.push_back(std::move(option));
  }
  return explanation;
}

Explanation explain_note(const Played& played, const Passage& passage, const Choices& choices, std::size_t note,
                         std::size_t most) {
  return Planner(played).explain(passage, choices, note, most);
}

}  // namespace fingerway
