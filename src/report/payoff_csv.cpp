#include "csv_row.hpp"
#include "payoff_view.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string number_or_empty(const std::optional<double>& value) { return value ? csv_number(*value) : std::string(); }

std::string row_of(const PayoffReport& report, std::size_t v, const SetInFull& set, std::size_t p) {
  const SetCost& cost = report.variants[v].cost;
  const Piece& piece = report.repertoire.pieces[p];
  const PiecePayoff& payoff = set.pieces[p];
  const PassageOutcome& before = report.payoff.stock[p];
  const PassageOutcome& after = set.outcomes[p];
  std::vector<std::string> ids;
  for (std::size_t member : report.variants[v].members) ids.push_back(report.conversions[member].id);
  return csv_row({joined(ids, "+"),
                  cost.known ? csv_number(cost.low) : "",
                  cost.known ? csv_number(cost.high) : "",
                  cost.currency,
                  piece.name,
                  piece.passage.file,
                  piece.bars,
                  csv_number(piece.weight),
                  csv_number(piece.times),
                  csv_number(payoff.balance.gain),
                  csv_number(payoff.balance.share()),
                  csv_number(before.points()),
                  csv_number(after.points()),
                  csv_number(before.awkwardness),
                  csv_number(after.awkwardness),
                  number_or_empty(before.ceiling),
                  number_or_empty(after.ceiling),
                  before.fits ? "yes" : "no",
                  after.fits ? "yes" : "no",
                  csv_number(payoff.balance.relieved),
                  csv_number(payoff.balance.spoiled),
                  std::to_string(payoff.notes_changed),
                  std::string(words(finding(payoff.balance)))});
}

}  // namespace

void payoff_csv(const PayoffReport& report, const TextSink& sink) {
  sink(csv_row({"set",
                "cost_from",
                "cost_to",
                "currency",
                "passage",
                "file",
                "bars",
                "weight",
                "times",
                "gain",
                "share",
                "points_before",
                "points_after",
                "awkwardness_before",
                "awkwardness_after",
                "ceiling_before_qpm",
                "ceiling_after_qpm",
                "fits_before",
                "fits_after",
                "relieved",
                "spoiled",
                "notes_changed",
                "finding"}));
  for (std::size_t v = 1; v < report.variants.size(); ++v) {
    const SetInFull set = report.in_full(v);
    std::string rows;
    for (std::size_t p = 0; p < report.repertoire.pieces.size(); ++p) rows += row_of(report, v, set, p);
    sink(rows);
  }
}

}  // namespace fingerway
