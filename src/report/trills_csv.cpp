#include "csv_row.hpp"
#include "fingerway/report/csv.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::vector<std::string> notes_of(const Trill& trill) {
  const Semitones width = trill.to - trill.from;
  return {name(chart_spelling(trill.from)), name(chart_spelling(trill.to)), width.count <= 2 ? "trill" : "tremolo"};
}

void add_result(std::vector<std::string>& cells, const Played& played, const Trill& trill) {
  cells.push_back(trill.best ? csv_number(trill.best->rate.value()) : "");
  cells.emplace_back(words(trill.verdict));
  for (const Candidate* c : {trill.best ? &trill.best->from : nullptr, trill.best ? &trill.best->to : nullptr}) {
    cells.push_back(c == nullptr ? "" : compact(played.instrument, c->fingering));
    cells.emplace_back(c == nullptr ? "" : words(c->origin));
  }
}

}  // namespace

std::string trills_csv(const Played& played, const std::vector<Trill>& trills) {
  std::string text = csv_row({"from", "to", "kind", "notes_per_second", "verdict", "from_fingering", "from_origin",
                              "to_fingering", "to_origin"});
  for (const Trill& trill : trills) {
    std::vector<std::string> cells = notes_of(trill);
    add_result(cells, played, trill);
    text += csv_row(cells);
  }
  return text;
}

std::string trill_changes_csv(const Played& stock, const Played& converted, const std::vector<TrillChange>& changes) {
  std::vector<std::string> heads = {"from", "to", "kind"};
  for (const char* side : {"stock", "converted"}) {
    for (const char* column :
         {"notes_per_second", "verdict", "from_fingering", "from_origin", "to_fingering", "to_origin"}) {
      heads.push_back(std::string(side) + "_" + column);
    }
  }
  std::string text = csv_row(heads);
  for (const TrillChange& change : changes) {
    std::vector<std::string> cells = notes_of(change.stock);
    add_result(cells, stock, change.stock);
    add_result(cells, converted, change.converted);
    text += csv_row(cells);
  }
  return text;
}

}  // namespace fingerway
