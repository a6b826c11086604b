#include "fingerway/decide/payoff.hpp"

#include <algorithm>

namespace fingerway {
namespace {

bool hard(Verdict verdict) { return verdict >= Verdict::laborious; }

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

void add_turns(SetInFull& set, std::size_t piece, const PayoffInput& input, const PassageOutcome& stock) {
  const PassageOutcome& converted = set.outcomes[piece];
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

/// A set with its pieces and turns; what must be relearned is worked out where somebody asks for it.
SetInFull with_pieces(const PayoffInput& input, const std::vector<PassageOutcome>& stock, std::size_t variant) {
  SetInFull set;
  set.outcomes = input.outcomes(0, variant);
  for (std::size_t p = 0; p < stock.size(); ++p) {
    PiecePayoff piece{.balance = balance(stock[p], set.outcomes[p], input.repertoire.pieces[p].share())};
    for (std::size_t i = 0; i < stock[p].notes.size(); ++i) {
      if (!same_fingering(stock[p].notes[i], set.outcomes[p].notes[i])) ++piece.notes_changed;
    }
    set.pieces.push_back(piece);
    add_turns(set, p, input, stock[p]);
  }
  return set;
}

SetPayoff summed(const Repertoire& repertoire, const SetInFull& set) {
  SetPayoff sum;
  double notes = 0.0;
  double changed = 0.0;
  for (std::size_t p = 0; p < set.pieces.size(); ++p) {
    const PiecePayoff& piece = set.pieces[p];
    const double share = repertoire.pieces[p].share();
    sum.balance += piece.balance;
    notes += share * static_cast<double>(set.outcomes[p].notes.size());
    changed += share * static_cast<double>(piece.notes_changed);
    if (piece.balance.relieved > piece.balance.spoiled) ++sum.helped;
  }
  if (notes > 0.0) sum.changed_share = changed / notes;
  sum.relieved = set.relieved.size();
  sum.spoiled = set.spoiled.size();
  return sum;
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

/// By variant, then piece.
using Findings = std::vector<std::vector<PayoffFinding>>;

/// Counts in how far one more sampled world finds what was found first.
void add_world(Payoff& result, const Findings& first, const PayoffInput& input) {
  ++result.worlds;
  const std::vector<PassageOutcome> stock = input.outcomes(result.worlds, 0);
  std::vector<Balance> balances;
  for (std::size_t v = 0; v < input.variants.size(); ++v) {
    const std::vector<PassageOutcome> converted = input.outcomes(result.worlds, v);
    SetStanding& standing = result.standing[v];
    Balance sum;
    for (std::size_t p = 0; p < stock.size(); ++p) {
      const Balance piece = balance(stock[p], converted[p], input.repertoire.pieces[p].share());
      if (finding(piece) == first[v][p]) ++standing.pieces[p];
      sum += piece;
    }
    const PayoffFinding here = finding(sum);
    if (here == PayoffFinding::pays) ++standing.pays;
    if (here == finding(result.sets[v].balance)) ++standing.same_finding;
    const double share = sum.share();
    standing.least_share = result.worlds == 1 ? share : std::min(standing.least_share, share);
    standing.greatest_share = result.worlds == 1 ? share : std::max(standing.greatest_share, share);
    balances.push_back(sum);
  }
  ++result.standing[best_set(input.variants, balances, input.budget)].best;
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

PayoffFinding finding(const Balance& balance) {
  const bool saves = balance.share() >= noticeable_share;
  if (saves) return balance.relieved > balance.spoiled ? PayoffFinding::pays : PayoffFinding::easier;
  if (balance.share() <= -noticeable_share || balance.spoiled > balance.relieved) return PayoffFinding::harder;
  return PayoffFinding::no_difference;
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
  result.stock = input.outcomes(0, 0);
  Findings findings;
  std::vector<Balance> balances;
  for (std::size_t v = 0; v < input.variants.size(); ++v) {
    const SetInFull set = with_pieces(input, result.stock, v);
    result.sets.push_back(summed(input.repertoire, set));
    balances.push_back(result.sets.back().balance);
    std::vector<PayoffFinding>& of_pieces = findings.emplace_back();
    for (const PiecePayoff& piece : set.pieces) of_pieces.push_back(finding(piece.balance));
  }
  result.front = pareto_front(input.variants, balances);
  result.best = best_set(input.variants, balances, input.budget);
  result.standing.resize(input.variants.size());
  for (SetStanding& standing : result.standing) standing.pieces.resize(input.repertoire.pieces.size());
  for (std::size_t w = 0; w < input.worlds; ++w) add_world(result, findings, input);
  return result;
}

SetInFull set_in_full(const PayoffInput& input, const std::vector<PassageOutcome>& stock, std::size_t variant) {
  SetInFull set = with_pieces(input, stock, variant);
  const BothOutcomes both{.repertoire = input.repertoire, .stock = stock, .converted = set.outcomes};
  const Played& played = input.variants.front().played;
  set.relearning = relearning(both);
  set.habits = carried_to_stock(both, played);
  set.harmless_habits =
      std::erase_if(set.habits, [](const CarriedFingering& h) { return h.result == CarriedResult::same_note; });
  set.lost = lost_in_use(both, played, input.variants[variant].played);
  return set;
}

}  // namespace fingerway
