// What this part answers: what sets of conversions do for a repertoire: gains, what they relieve and spoil, the best
// set for the money, and how surely that stands. It plans nothing (outcome) and words nothing (report).
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "fingerway/decide/conversion_sets.hpp"
#include "fingerway/decide/relearning.hpp"

namespace fingerway {

/// The outcomes of every piece, in the order of the repertoire, in one world with one variant. World 0 is the one asked
/// for, with notes; the others are sampled, with figures only. There are more in all than memory should hold, so they
/// are asked for a variant at a time.
using OutcomesOf = std::function<std::vector<PassageOutcome>(std::size_t world, std::size_t variant)>;

/// A smaller share of the stock points is no difference: plans are exact to about this much (DEVELOPERS.md, decisions).
inline constexpr double noticeable_share = 0.02;

/// Stock beside converted, over one piece or all. A sum over pieces: a piece never changes another's part.
struct Balance {
  double stock_points = 0.0;  ///< of the stock plans, times the share of their pieces
  double gain = 0.0;          ///< points saved, times the share of their pieces
  double relieved = 0.0;      ///< notes that leave laborious or out of reach for workable or fluent, by share
  double spoiled = 0.0;       ///< the other way round

  [[nodiscard]] double share() const { return stock_points > 0.0 ? gain / stock_points : 0.0; }
  Balance& operator+=(const Balance& other);
  friend bool operator==(const Balance&, const Balance&) = default;
};
[[nodiscard]] Balance balance(const PassageOutcome& stock, const PassageOutcome& converted, double share);

/// What a balance comes to. It pays when it saves a noticeable share and relieves more than it spoils; it is easier
/// when it only saves; harder when it loses a noticeable share, or spoils more than it relieves and saves nothing.
enum class PayoffFinding : std::uint8_t { pays, easier, no_difference, harder };
[[nodiscard]] PayoffFinding finding(const Balance& balance);

/// What makes a note hard: the change to it, its trill or tremolo, or that it has no fingering.
enum class Hardship : std::uint8_t { change, trill, no_fingering };

/// A note whose verdict crosses from hard to good, or back.
struct Turn {
  NoteSite site;
  Hardship hardship = Hardship::change;  ///< on the side where it is hard
  Verdict before = Verdict::fluent;
  Verdict after = Verdict::fluent;
  std::optional<double> before_figure;  ///< ms of a change, notes a second of a trill; nothing: no hand can do it
  std::optional<double> after_figure;
  double available_ms = 0.0;  ///< for a change

  friend bool operator==(const Turn&, const Turn&) = default;
};

struct PiecePayoff {
  Balance balance;
  std::size_t notes_changed = 0;  ///< fingered otherwise

  friend bool operator==(const PiecePayoff&, const PiecePayoff&) = default;
};

/// One set over the whole repertoire.
struct SetPayoff {
  Balance balance;
  double changed_share = 0.0;  ///< of all notes, by the share of their pieces: fingered otherwise
  std::size_t relieved = 0;    ///< notes
  std::size_t spoiled = 0;
  std::size_t helped = 0;  ///< pieces in which it relieves more than it spoils

  friend bool operator==(const SetPayoff&, const SetPayoff&) = default;
};

/// One set in full.
struct SetInFull {
  std::vector<PassageOutcome> outcomes;  ///< by piece, as all of these
  std::vector<PiecePayoff> pieces;
  std::vector<Turn> relieved, spoiled;  ///< in the order of the repertoire
  Relearning relearning;
  std::vector<CarriedFingering>
      habits;  ///< that do not give their note on a stock instrument, the most often played first
  std::size_t harmless_habits = 0;
  std::vector<LostFingering> lost;
};

/// How often a conclusion stands over the sampled worlds.
struct SetStanding {
  std::size_t pays = 0;          ///< worlds in which it pays
  std::size_t same_finding = 0;  ///< worlds in which it comes to what it came to first
  std::size_t best = 0;          ///< worlds in which it is the best set within the budget
  double least_share = 0.0;      ///< of the stock points, saved in the worst world
  double greatest_share = 0.0;
  std::vector<std::size_t> pieces;  ///< by piece: worlds in which the piece's finding stands
};

struct Payoff {
  std::vector<PassageOutcome> stock;  ///< the outcomes of the stock instrument, by piece
  std::vector<SetPayoff> sets;        ///< by variant; the first is the stock instrument beside itself
  std::vector<std::size_t> front;     ///< sets of known cost that no other beats in cost and gain, by rising cost
  std::size_t best = 0;  ///< the greatest gain within the budget; of equal ones the cheaper, then the smaller
  std::optional<double> budget;
  std::size_t worlds = 0;             ///< sampled
  std::vector<SetStanding> standing;  ///< by variant
};

/// Everything a payoff rests on; it must outlive the call.
struct PayoffInput {
  const Repertoire& repertoire;
  const std::vector<Variant>& variants;
  OutcomesOf outcomes;
  std::size_t worlds = 0;  ///< sampled
  std::optional<double> budget;
};
[[nodiscard]] Payoff payoff(const PayoffInput& input);
/// What a payoff says of one set, in full; `stock` are the outcomes of the stock instrument.
[[nodiscard]] SetInFull set_in_full(const PayoffInput& input, const std::vector<PassageOutcome>& stock,
                                    std::size_t variant);

/// The set with the greatest gain that the budget allows.
[[nodiscard]] std::size_t best_set(const std::vector<Variant>& variants, const std::vector<Balance>& balances,
                                   std::optional<double> budget);

}  // namespace fingerway
