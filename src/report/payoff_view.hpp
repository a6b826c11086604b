// What this part answers: a payoff in words and rounded numbers, in the order people read it; text and page share it.
// Private to report.
#pragma once

#include <string>
#include <vector>

#include "fingerway/report/payoff.hpp"
#include "fingerway/report/view.hpp"

namespace fingerway {

/// One set in the table of sets.
struct SetRow {
  std::string letters;  ///< "A+C"; "stock" for none
  std::string name;
  std::string cost;      ///< "900 to 1600 EUR", "not known"
  std::string gain;      ///< "1350"
  std::string share;     ///< "28 %"
  std::string relieved;  ///< "9"
  std::string spoiled;
  std::string changed;  ///< share of notes fingered otherwise
  std::string finding;  ///< "pays", "easier", ...
  std::string stands;   ///< "in 4 of 4"; empty without samples
  std::string signs;    ///< "best", "front", "over budget"
};

/// One passage with one set.
struct PieceRow {
  std::string name;
  std::string ceiling_before, ceiling_after;  ///< quarter notes a minute; "no limit"
  std::string awkwardness_before, awkwardness_after;
  std::string fits_before, fits_after;
  std::string gain;
  std::string relieved;
  std::string finding;
};

/// One set in full.
struct SetView {
  std::string title;
  std::string what;
  std::string finding;          ///< one sentence
  std::vector<Labelled> facts;  ///< cost, weight, hours, upkeep
  std::vector<PieceRow> pieces;
  std::vector<std::string> relieved, spoiled;  ///< the first ones, each a sentence
  std::vector<std::string> relearning;
  std::vector<std::string> habits;
  std::vector<std::string> lost;
};

/// What the repairer is handed.
struct RepairerView {
  std::string title;
  std::vector<std::string> work;   ///< in order
  std::vector<std::string> check;  ///< press this, see that
};

struct PayoffView {
  std::string title;
  std::vector<Labelled> read;
  std::vector<std::string> advice;
  std::vector<SetRow> sets;
  std::vector<SetView> details;  ///< each conversion, then the best set where it is none of them
  RepairerView repairer;         ///< empty title: nothing to do
  std::vector<std::string> refused;
  std::vector<std::string> rests_on;
  std::vector<std::string> skipped;
};

[[nodiscard]] PayoffView view(const PayoffReport& report);
/// What to do, a sentence or two a line.
[[nodiscard]] std::vector<std::string> advice(const PayoffReport& report);
/// What is assumed, a sentence a line.
[[nodiscard]] std::vector<std::string> rests_on(const PayoffReport& report);

/// "A+C", "stock".
[[nodiscard]] std::string set_letters(const Variant& variant);
/// "interlinked low keys and little-finger rollers".
[[nodiscard]] std::string set_name(const PayoffReport& report, std::size_t variant);
[[nodiscard]] std::string cost_words(const SetCost& cost);
[[nodiscard]] std::string_view words(PayoffFinding finding);
[[nodiscard]] SetView set_view(const PayoffReport& report, std::size_t variant);
/// "Lowland round, bar 10, beat 1.5, D♯2".
[[nodiscard]] std::string site_words(const Repertoire& repertoire, const NoteSite& site);
/// "needs 196 → 80 ms, 163 ms are there (out of reach → fluent)".
[[nodiscard]] std::string turn_words(const Turn& turn);

}  // namespace fingerway
