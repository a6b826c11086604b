// What this part answers: outcomes and sets made by hand, so that every figure of a payoff can be worked out in the
// head.
#pragma once

#include <utility>

#include "fingerway/decide/payoff.hpp"
#include "report/toy_report.hpp"
#include "support/passages.hpp"

namespace fingerway {

/// An outcome that costs so many points, with these verdicts; every note fingered with key one, slow and within its
/// time.
[[nodiscard]] inline PassageOutcome made_outcome(int points, const std::vector<Verdict>& verdicts) {
  PassageOutcome outcome;
  outcome.micro_points = points * std::int64_t{1'000'000};
  outcome.verdicts = verdicts;
  for (std::size_t i = 0; i < verdicts.size(); ++i) {
    OutcomeNote note;
    note.fingering = Fingering{.pressed = {toy_one}, .half = {}, .flicked = {}};
    note.arrive = OutcomeChange{.time_ms = 50.0, .available_ms = 500.0, .possible = true};
    outcome.notes.push_back(note);
  }
  return outcome;
}

[[nodiscard]] inline Piece made_piece(const std::vector<std::string>& notes, double weight, double times) {
  Piece piece;
  piece.passage = passage_of(notes);
  piece.name = "piece";
  piece.weight = weight;
  piece.times = times;
  return piece;
}

/// Outcomes by variant, then piece.
using OutcomeGrid = std::vector<std::vector<PassageOutcome>>;

/// A payoff asks for them in world 0; the others are sampled. They must outlive it.
[[nodiscard]] inline OutcomesOf outcomes_of(const OutcomeGrid& asked_for, const std::vector<OutcomeGrid>& sampled) {
  return [&](std::size_t world, std::size_t variant) {
    return world == 0 ? asked_for[variant] : sampled[world - 1][variant];
  };
}

/// The toy under a conversion that only has a price.
[[nodiscard]] inline Variant priced_variant(std::vector<std::size_t> members, std::optional<double> cost) {
  Instrument toy = toy_instrument();
  for (std::size_t member : members) {
    ConversionSheet sheet;
    sheet.id = "c" + std::to_string(member);
    sheet.name = "conversion " + std::to_string(member);
    sheet.cost_low = cost ? std::optional(*cost / 2 / static_cast<double>(members.size())) : std::nullopt;
    sheet.cost_high = cost ? std::optional(*cost / static_cast<double>(members.size())) : std::nullopt;
    sheet.currency = "EUR";
    toy.conversions.push_back(sheet);
  }
  Variant variant{.members = std::move(members), .played = toy_played(toy), .cost = {}};
  variant.cost = cost_of(variant.played.instrument);
  return variant;
}

}  // namespace fingerway
