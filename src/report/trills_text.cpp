#include <algorithm>
#include <map>
#include <set>

#include "fingerway/report/text.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string moves_of(const Played& played, const TrillPair& pair) {
  std::vector<std::string> all;
  for (const FingerMove& m : finger_moves(played.hand, pair.from_posture, pair.to_posture)) {
    all.push_back(move_words(played.instrument, m));
  }
  return all.empty() ? "no finger moves" : joined(all, "; ");
}

char sign(Verdict verdict) {
  switch (verdict) {
    case Verdict::fluent:
      return '+';
    case Verdict::workable:
      return 'o';
    case Verdict::laborious:
      return '-';
    case Verdict::out_of_reach:
      break;
  }
  return 'X';
}

std::string list_of(const Played& played, const std::vector<Trill>& trills) {
  Table table({{.head = "pair"},
               {.head = "a second", .align = Align::right},
               {.head = "verdict"},
               {.head = "from", .widest = 31},
               {.head = "to", .widest = 31}});
  for (const Trill& trill : trills) {
    const std::string pair = pitch_words(trill.from) + "~" + pitch_words(trill.to);
    if (!trill.best) {
      table.row({pair, "", "no fingering", "", ""});
      continue;
    }
    table.row({pair, rounded(trill.best->rate.value(), 1), std::string(words(trill.verdict)),
               compact(played.instrument, trill.best->from.fingering),
               compact(played.instrument, trill.best->to.fingering)});
    table.remark(moves_of(played, *trill.best));
  }
  return table.text();
}

/// One row a lower note, one column a width in semitones.
std::string grid_of(const std::vector<Trill>& trills) {
  std::map<WrittenPitch, std::map<int, char>> rows;
  std::set<int> widths;
  for (const Trill& trill : trills) {
    const int semitones = (trill.to - trill.from).count;
    rows[trill.from][semitones] = sign(trill.verdict);
    widths.insert(semitones);
  }
  std::vector<Column> columns = {{.head = "from"}};
  for (int semitones : widths) columns.push_back({.head = std::to_string(semitones), .align = Align::right});
  Table table(columns);
  for (const auto& [from, cells] : rows) {
    std::vector<std::string> row = {pitch_words(from)};
    for (int semitones : widths) {
      const auto found = cells.find(semitones);
      row.push_back(found == cells.end() ? "" : std::string(1, found->second));
    }
    table.row(row);
  }
  return "\n" + heading("All at a glance") + "Upper note so many semitones above; + fluent, o workable, - laborious, " +
         "X out of reach.\n\n" + table.text();
}

}  // namespace

std::string trills_text(const Played& played, const std::vector<Trill>& trills) {
  std::string text = heading("Trills and tremolos", '=') + labelled_lines(instrument_lines(played)) + "\n";
  text += paragraph("", "Notes a second count both notes of the pair; after half a minute about " +
                            percent(played.hand.numbers().trill_after_half_minute.value) + " of the rate is left.");
  text += compact_key() + "\n" + list_of(played, trills);
  if (trills.size() > 1) text += grid_of(trills);
  return text + foot();
}

}  // namespace fingerway
