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
class Board {
 public:
  void put(const Trill& trill, std::string sign) {
    const int semitones = (trill.to - trill.from).count;
    rows_[trill.from][semitones] = std::move(sign);
    widths_.insert(semitones);
  }

  [[nodiscard]] std::string text(const std::string& legend) const {
    std::vector<Column> columns = {{.head = "from"}};
    for (int semitones : widths_) columns.push_back({.head = std::to_string(semitones), .align = Align::right});
    Table table(columns);
    for (const auto& [from, cells] : rows_) {
      std::vector<std::string> row = {pitch_words(from)};
      for (int semitones : widths_) {
        const auto found = cells.find(semitones);
        row.push_back(found == cells.end() ? "" : found->second);
      }
      table.row(row);
    }
    return "\n" + heading("All at a glance") +
           paragraph("", "Upper note so many semitones above; + fluent, o workable, - laborious, X out of reach" +
                             legend + ".") +
           "\n" + table.text();
  }

 private:
  std::map<WrittenPitch, std::map<int, std::string>> rows_;
  std::set<int> widths_;
};

std::string one_rate(const Trill& trill) {
  if (!trill.best) return "no fingering";
  return rounded(trill.best->rate.value(), 1) + " " + std::string(words(trill.verdict));
}

/// Below this a difference is neither felt nor outside what the numbers can tell (assumed).
constexpr double felt = 0.5;

std::string changes_list(const std::string& title, const Played& converted, const std::vector<TrillChange>& changes) {
  if (changes.empty()) return {};
  Table table({{.head = "pair"},
               {.head = "stock"},
               {.head = "converted"},
               {.head = "from", .widest = 24},
               {.head = "to", .widest = 24}});
  for (const TrillChange& change : changes) {
    const Trill& now = change.converted;
    table.row({pitch_words(now.from) + "~" + pitch_words(now.to), one_rate(change.stock), one_rate(now),
               now.best ? compact(converted.instrument, now.best->from.fingering) : "",
               now.best ? compact(converted.instrument, now.best->to.fingering) : ""});
    if (now.best) table.remark(moves_of(converted, *now.best));
  }
  return "\n" + heading(title) + table.text();
}

}  // namespace

std::string trills_text(const Played& played, const std::vector<Trill>& trills) {
  std::string text = heading("Trills and tremolos", '=') + labelled_lines(instrument_lines(played)) + "\n";
  text += paragraph("", "Notes a second count both notes of the pair; after half a minute about " +
                            percent(played.hand.numbers().trill_after_half_minute.value) + " of the rate is left.");
  text += compact_key() + "\n" + list_of(played, trills);
  if (trills.size() > 1) {
    Board board;
    for (const Trill& trill : trills) board.put(trill, std::string(1, sign(trill.verdict)));
    text += board.text("");
  }
  return text + foot();
}

std::string trill_changes_text(const Played& stock, const Played& converted, const std::vector<TrillChange>& changes) {
  std::vector<TrillChange> easier;
  std::vector<TrillChange> harder;
  std::vector<TrillChange> faster;
  std::vector<TrillChange> slower;
  Board board;
  for (const TrillChange& change : changes) {
    const Verdict before = change.stock.verdict;
    const Verdict now = change.converted.verdict;
    board.put(change.stock, before == now ? std::string(1, sign(now)) : std::string{sign(before), '>', sign(now)});
    const double gain = change.gain().value();
    if (now != before) {
      (now < before ? easier : harder).push_back(change);
    } else if (gain >= felt || gain <= -felt) {
      (gain > 0 ? faster : slower).push_back(change);
    }
  }
  std::string text =
      heading("Trills and tremolos that change", '=') +
      labelled_lines({{"From", instrument_words(stock.instrument)}, {"To", instrument_words(converted.instrument)}}) +
      "\n" + compact_key();
  if (easier.empty() && harder.empty() && faster.empty() && slower.empty()) {
    text += paragraph("", "No trill or tremolo changes by half a note a second or more.");
  }
  text += changes_list("Easier now", converted, easier) + changes_list("Harder now", converted, harder) +
          changes_list("Faster by half a note a second or more", converted, faster) +
          changes_list("Slower by half a note a second or more", converted, slower);
  if (changes.size() > 1) text += board.text("; before>now where it changes");
  return text + foot();
}

}  // namespace fingerway
