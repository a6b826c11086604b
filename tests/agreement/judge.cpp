#include "agreement/judge.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace fingerway {
namespace {

using NodeSet = std::vector<std::uint32_t>;

/// The sets of a wish as touches. A set with a touch this instrument lacks can't be pressed and drops out.
std::vector<TouchSet> touch_sets(const Instrument& instrument, const std::vector<std::vector<std::string>>& named) {
  std::vector<TouchSet> sets;
  for (const auto& names : named) {
    TouchSet set;
    bool whole = true;
    for (const std::string& name : names) {
      if (const auto touch = find_touch(instrument, name)) {
        set.insert(*touch);
      } else {
        whole = false;
      }
    }
    if (whole) sets.push_back(set);
  }
  return sets;
}

struct WishedTouches {
  std::vector<TouchSet> press;
  std::vector<TouchSet> without;
  bool press_asked = false;
};

bool keeps(const WishedTouches& wish, const Fingering& fingering) {
  const TouchSet used = fingering.pressed | fingering.flicked;
  const auto is_used = [&](TouchSet set) { return used.contains_all(set); };
  return (!wish.press_asked || std::ranges::any_of(wish.press, is_used)) && std::ranges::none_of(wish.without, is_used);
}

std::optional<Path> best_with(const LayeredGraph& graph, const std::vector<NodeSet>& allowed) {
  if (std::ranges::any_of(allowed, [](const NodeSet& nodes) { return nodes.empty(); })) return std::nullopt;
  std::optional<Path> path = best_path(restricted(graph, allowed));
  if (!path) return std::nullopt;
  for (std::size_t l = 0; l < path->at.size(); ++l) path->at[l] = allowed[l][path->at[l]];
  return path;
}

std::vector<NodeSet> all_nodes(const PassageGraph& graph) {
  std::vector<NodeSet> all;
  for (const NoteLayer& layer : graph.layers) {
    NodeSet nodes(layer.nodes.size());
    for (std::size_t i = 0; i < nodes.size(); ++i) nodes[i] = static_cast<std::uint32_t>(i);
    all.push_back(std::move(nodes));
  }
  return all;
}

/// Nodes of one layer that keep a wish, and those that break it.
struct Split {
  NodeSet keep;
  NodeSet broken;
};

Split split(const NoteLayer& layer, const WishedTouches& wish) {
  Split parts;
  for (std::size_t i = 0; i < layer.nodes.size(); ++i) {
    const Candidate* candidate = candidate_of(layer, layer.nodes[i]);
    const bool kept = candidate != nullptr && keeps(wish, candidate->fingering);
    (kept ? parts.keep : parts.broken).push_back(static_cast<std::uint32_t>(i));
  }
  return parts;
}

WishedTouches wished(const Instrument& instrument, const Wish& wish) {
  return {.press = touch_sets(instrument, wish.press),
          .without = touch_sets(instrument, wish.without),
          .press_asked = !wish.press.empty()};
}

using Totals = std::array<double, note_term_count + step_term_count>;

Totals totals(const Plan& plan) {
  Totals sum{};
  for (const PlannedNote& note : plan.notes) {
    for (std::size_t t = 0; t < note_term_count; ++t) sum[t] += note.cost.terms[t];
    if (!note.arrive) continue;
    for (std::size_t t = 0; t < step_term_count; ++t) sum[note_term_count + t] += note.arrive->cost.terms[t];
  }
  return sum;
}

std::string_view term_words(std::size_t t) {
  return t < note_term_count ? words(static_cast<NoteTerm>(t)) : words(static_cast<StepTerm>(t - note_term_count));
}

std::string fingering_words(const Instrument& instrument, const PlannedNote& note) {
  if (!note.candidate) return "no fingering";
  const Fingering& fingering = note.candidate->fingering;
  std::string text = names_of(instrument, fingering.pressed - fingering.half);
  if (!fingering.half.empty()) text += " half " + names_of(instrument, fingering.half);
  if (!fingering.flicked.empty()) text += " flick " + names_of(instrument, fingering.flicked);
  return text;
}

/// The quickest slurred change between two notes, whatever its fingerings; sounded once, so each side is free.
NotesPerSecond slur_rate(const Played& played, const TrillStatement& statement) {
  NoteRow row;
  row.each = ScoreTime(1);
  const Passage passage = passage_of({name(chart_spelling(statement.from)), name(chart_spelling(statement.to))}, row);
  const Plan plan = plan_passage(played, passage, {}).front();
  if (!plan.notes[1].arrive || !plan.notes[1].arrive->step.possible) return NotesPerSecond(0);
  constexpr double slurred_eighth = 250.0;
  const double ms = std::max(plan.notes[1].arrive->step.time.count(), 1.0);
  return NotesPerSecond(played.hand.numbers().workable_from.value * slurred_eighth / ms);
}

}  // namespace

namespace {

/// A rule's passage as a graph, with the best way of keeping the rule and the least weight of breaking it.
struct BothWays {
  Passage passage;
  PassageGraph graph;
  std::optional<Path> kept;
  std::optional<Weight> broken;

  [[nodiscard]] std::optional<Points> margin() const {
    if (!kept || !broken) return std::nullopt;
    return Points(static_cast<double>(*broken - kept->weight) / 1e6);
  }
};

BothWays both_ways(const Played& played, const ChoiceRule& rule) {
  BothWays ways;
  ways.passage = passage_of(rule.notes, rule.row);
  ways.graph = passage_graph(played, ways.passage, {});
  std::vector<NodeSet> keeping = all_nodes(ways.graph);
  const auto through = weights_through(ways.graph.graph);
  for (const Wish& wish : rule.wishes) {
    const Split parts = split(ways.graph.layers[wish.note], wished(played.instrument, wish));
    NodeSet both;
    std::ranges::set_intersection(keeping[wish.note], parts.keep, std::back_inserter(both));
    keeping[wish.note] = both;
    for (std::uint32_t node : parts.broken) {
      const Weight weight = through[wish.note][node];
      if (!is_forbidden(weight) && (!ways.broken || weight < *ways.broken)) ways.broken = weight;
    }
  }
  ways.kept = best_with(ways.graph.graph, keeping);
  return ways;
}

}  // namespace

ChoiceVerdict judge_margin(const Played& played, const ChoiceRule& rule) {
  const BothWays ways = both_ways(played, rule);
  ChoiceVerdict verdict;
  verdict.margin = ways.margin();
  verdict.met = ways.kept && (!ways.broken || ways.kept->weight <= *ways.broken);
  return verdict;
}

ChoiceVerdict judge(const Played& played, const ChoiceRule& rule) {
  const BothWays ways = both_ways(played, rule);
  ChoiceVerdict verdict;
  verdict.margin = ways.margin();
  if (const auto path = best_path(ways.graph.graph)) {
    verdict.ours = plan_along(played, ways.passage, ways.graph, path->at);
  }
  if (ways.kept) verdict.theirs = plan_along(played, ways.passage, ways.graph, ways.kept->at);
  // Met when the plan itself keeps every wish: of equal weights the search takes the earlier one.
  verdict.met = ways.kept && std::ranges::all_of(rule.wishes, [&](const Wish& wish) {
                  const auto& candidate = verdict.ours.notes[wish.note].candidate;
                  return candidate && keeps(wished(played.instrument, wish), candidate->fingering);
                });
  return verdict;
}

NotesPerSecond judge(const Played& played, const TrillStatement& statement) {
  if (statement.kind == Between::slur) return slur_rate(played, statement);
  const Trill trill = best_trill(played, statement.from, statement.to);
  return trill.best ? trill.best->rate : NotesPerSecond(0);
}

std::string reasons(const Played& played, const ChoiceRule& rule, const ChoiceVerdict& verdict) {
  const Instrument& instrument = played.instrument;
  if (!verdict.theirs) return "      the instrument has no such fingering here\n";
  std::string text = fmt::format("      margin {:.1f} points\n", verdict.margin ? verdict.margin->value() : 0.0);
  for (std::size_t i = 0; i < rule.notes.size(); ++i) {
    const std::string mine = fingering_words(instrument, verdict.ours.notes[i]);
    const std::string other = fingering_words(instrument, verdict.theirs->notes[i]);
    if (mine == other) continue;
    text +=
        fmt::format("      {} {}: plan  {}\n      {} {}: rule  {}\n", i, rule.notes[i], mine, i, rule.notes[i], other);
  }
  const Totals mine = totals(verdict.ours);
  const Totals theirs = totals(*verdict.theirs);
  for (std::size_t t = 0; t < mine.size(); ++t) {
    if (std::abs(mine[t] - theirs[t]) < 0.5) continue;
    text += fmt::format("      {}: plan {:.1f}, rule {:.1f}\n", term_words(t), mine[t], theirs[t]);
  }
  return text;
}

}  // namespace fingerway
