#include "fingerway/decide/payoff.hpp"

#include <algorithm>

namespace fingerway {
namespace {

bool hard(Verdict verdict) { return verdict >= Verdict::laborious; }

std::vector<Balance> balances_of(const Repertoire& repertoire, const OutcomeGrid& outcomes) {
  std::vector<Balance> all(outcomes.size());
  for (std::size_t v = 0; v < outcomes.size(); ++v) {
    for (std::size_t p = 0; p < repertoire.pieces.size(); ++p) {
      all[v] += balance(outcomes.front()[p], outcomes[v][p], repertoire.pieces[p].share());
    }
  }
  return all;
}

bool same_fingering(const OutcomeNote& a, const OutcomeNote& b) {
  return a.fingering == b.fingering && a.other == b.other;
}

Hardship hardship_of(const MotionNumbers& numbers, const OutcomeNote& hard_side, bool trilled) {
  if (!hard_side.fingering || (trilled && !hard_side.other)) return Hardship::no_fingering;
  if (hard_side.rate && hard(verdict(numbers, NotesPerSecond(*hard_side.rate)))) return Hardship::trill;
  return Hardship::change;
}

std::optional<double> figure(const OutcomeNote& note, Hardship hardship) {
  if (hardship == Hardship::trill) return note.rate;
  if (hardship == Hardship::change && note.arrive && note.arrive->possible) return note.arrive->time_ms;
  return std::nullopt;
}

void add_turns(SetPayoff& set, std::size_t piece, const PayoffInput& input) {
  const PassageOutcome& stock = input.outcomes.front()[piece];
  const PassageOutcome& converted = input.outcomes[set.variant][piece];
  const auto& events = input.repertoire.pieces[piece].passage.notes;
  const MotionNumbers& numbers = input.variants.front().played.hand.numbers();
  for (std::size_t i = 0; i < stock.verdicts.size(); ++i) {
    Turn turn{.site = {.piece = piece, .note = i},
              .before = stock.verdicts[i],
              .after = converted.verdicts[i],
              .before_figure = {},
              .after_figure = {}};
    if (hard(turn.before) == hard(turn.after)) continue;
    const bool relieved = hard(turn.before);
    const OutcomeNote& hard_side = relieved ? stock.notes[i] : converted.notes[i];
    turn.hardship = hardship_of(numbers, hard_side, events[i].other.has_value());
    turn.before_figure = figure(stock.notes[i], turn.hardship);
    turn.after_figure = figure(converted.notes[i], turn.hardship);
    if (hard_side.arrive) turn.available_ms = hard_side.arrive->available_ms;
    (relieved ? set.relieved : set.spoiled).push_back(turn);
  }
}

SetPayoff set_payoff(const PayoffInput& input, std::size_t variant) {
  SetPayoff set;
  set.variant = variant;
  double notes = 0.0;
  double changed = 0.0;
  for (std::size_t p = 0; p < input.repertoire.pieces.size(); ++p) {
    const PassageOutcome& stock = input.outcomes.front()[p];
    const PassageOutcome& converted = input.outcomes[variant][p];
    const double share = input.repertoire.pieces[p].share();
    PiecePayoff piece{.balance = balance(stock, converted, share)};
    for (std::size_t i = 0; i < stock.notes.size(); ++i) {
      if (!same_fingering(stock.notes[i], converted.notes[i])) ++piece.notes_changed;
    }
    notes += share * static_cast<double>(stock.notes.size());
    changed += share * static_cast<double>(piece.notes_changed);
    set.balance += piece.balance;
    add_turns(set, p, input);
    set.pieces.push_back(piece);
  }
  if (notes > 0.0) set.changed_share = changed / notes;
  const BothOutcomes both{
      .repertoire = input.repertoire, .stock = input.outcomes.front(), .converted = input.outcomes[variant]};
  const Played& stock = input.variants.front().played;
  set.relearning = relearning(both);
  set.habits = carried_to_stock(both, stock);
  set.harmless_habits =
      std::erase_if(set.habits, [](const CarriedFingering& h) { return h.result == CarriedResult::same_note; });
  set.lost = lost_in_use(both, stock, input.variants[variant].played);
  return set;
}

std::vector<std::size_t> pareto_front(const std::vector<Variant>& variants, const std::vector<Balance>& balances) {
  std::vector<std::size_t> order;
  for (std::size_t v = 0; v < variants.size(); ++v) {
    if (variants[v].cost.known) order.push_back(v);
  }
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    if (variants[a].cost.high != variants[b].cost.high) return variants[a].cost.high < variants[b].cost.high;
    return balances[a].gain > balances[b].gain;
  });
  std::vector<std::size_t> front;
  for (std::size_t v : order) {
    if (front.empty() || balances[v].gain > balances[front.back()].gain) front.push_back(v);
  }
  return front;
}

void add_world(Payoff& result, const PayoffInput& input, const OutcomeGrid& outcomes) {
  const std::vector<Balance> balances = balances_of(input.repertoire, outcomes);
  ++result.standing[best_set(input.variants, balances, input.budget)].best;
  for (std::size_t v = 0; v < balances.size(); ++v) {
    SetStanding& standing = result.standing[v];
    const Finding here = finding(balances[v]);
    if (here == Finding::pays) ++standing.pays;
    if (here == finding(result.sets[v].balance)) ++standing.same_finding;
    const double share = balances[v].share();
    standing.least_share = result.worlds == 0 ? share : std::min(standing.least_share, share);
    standing.greatest_share = result.worlds == 0 ? share : std::max(standing.greatest_share, share);
    for (std::size_t p = 0; p < input.repertoire.pieces.size(); ++p) {
      const Balance piece = balance(outcomes.front()[p], outcomes[v][p], input.repertoire.pieces[p].share());
      if (finding(piece) == finding(result.sets[v].pieces[p].balance)) ++standing.pieces[p];
    }
  }
  ++result.worlds;
}

}  // namespace

Balance& Balance::operator+=(const Balance& other) {
  stock_points += other.stock_points;
  gain += other.gain;
  relieved += other.relieved;
  spoiled += other.spoiled;
  return *this;
}

Balance balance(const PassageOutcome& stock, const PassageOutcome& converted, double share) {
  Balance result;
  result.stock_points = share * stock.points();
  result.gain = share * (static_cast<double>(stock.micro_points - converted.micro_points) / 1e6);
  for (std::size_t i = 0; i < stock.verdicts.size(); ++i) {
    const bool before = hard(stock.verdicts[i]);
    const bool after = hard(converted.verdicts[i]);
    if (before && !after) result.relieved += share;
    if (!before && after) result.spoiled += share;
  }
  return result;
}

Finding finding(const Balance& balance) {
  const bool saves = balance.share() >= noticeable_share;
  if (saves) return balance.relieved > balance.spoiled ? Finding::pays : Finding::easier;
  if (balance.share() <= -noticeable_share || balance.spoiled > balance.relieved) return Finding::harder;
  return Finding::no_difference;
}

std::size_t best_set(const std::vector<Variant>& variants, const std::vector<Balance>& balances,
                     std::optional<double> budget) {
  std::size_t best = 0;
  for (std::size_t v = 1; v < variants.size(); ++v) {
    if (!within(variants[v].cost, budget)) continue;
    const double more = balances[v].gain - balances[best].gain;
    // A set whose cost is unknown is no cheaper than any other.
    const bool cheaper =
        variants[v].cost.known && (!variants[best].cost.known || variants[v].cost.high < variants[best].cost.high);
    if (more > 0.0 || (more == 0.0 && cheaper)) best = v;
  }
  return best;
}

Payoff payoff(const PayoffInput& input) {
  Payoff result;
  result.budget = input.budget;
  std::vector<Balance> balances;
  for (std::size_t v = 0; v < input.variants.size(); ++v) {
    result.sets.push_back(set_payoff(input, v));
    balances.push_back(result.sets.back().balance);
  }
  result.front = pareto_front(input.variants, balances);
  result.best = best_set(input.variants, balances, input.budget);
  result.standing.resize(input.variants.size());
  for (SetStanding& standing : result.standing) standing.pieces.resize(input.repertoire.pieces.size());
  for (const OutcomeGrid& outcomes : input.worlds) add_world(result, input, outcomes);
  return result;
}

}  // namespace fingerway
