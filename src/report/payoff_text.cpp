#include "payoff_view.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"

namespace fingerway {
namespace {

std::string sets_text(const PayoffView& payoff) {
  Table table({{.head = "set"},
               {.head = "cost"},
               {.head = "gain", .align = Align::right},
               {.head = "saved", .align = Align::right},
               {.head = "relieved", .align = Align::right},
               {.head = "spoiled", .align = Align::right},
               {.head = "changed", .align = Align::right},
               {.head = "finding"},
               {.head = "stands"},
               {.head = "", .widest = 20}});
  for (const SetRow& row : payoff.sets) {
    table.row({row.letters, row.cost, row.gain, row.share, row.relieved, row.spoiled, row.changed, row.finding,
               row.stands, row.signs});
  }
  return table.text();
}

std::string pieces_text(const SetView& set) {
  Table table({{.head = "passage", .widest = 40},
               {.head = "ceiling"},
               {.head = "awkwardness"},
               {.head = "fits"},
               {.head = "gain", .align = Align::right},
               {.head = "finding"}});
  for (const PieceRow& row : set.pieces) {
    table.row({row.name, row.ceiling_before + " → " + row.ceiling_after,
               row.awkwardness_before + " → " + row.awkwardness_after, row.fits_before + " → " + row.fits_after,
               row.gain, row.finding});
  }
  return table.text();
}

std::string lines_text(const std::string& title, const std::vector<std::string>& items) {
  if (items.empty()) return {};
  std::string text = "\n" + title + "\n";
  for (const std::string& item : items) text += paragraph("- ", item);
  return text;
}

std::string set_text(const SetView& set) {
  std::string text = "\n" + heading(set.title);
  if (!set.what.empty()) text += paragraph("", set.what) + "\n";
  text += labelled_lines(set.facts) + "\n" + paragraph("", set.finding) + "\n" + pieces_text(set);
  text += lines_text("Relieved", set.relieved);
  text += lines_text("Spoiled", set.spoiled);
  text += lines_text("To be relearned", set.relearning);
  text += lines_text("Back on a stock instrument, by habit", set.habits);
  text += lines_text("Fingerings of this repertoire that are lost", set.lost);
  return text;
}

std::string repairer_text(const RepairerView& repairer) {
  if (repairer.title.empty()) return {};
  std::string text = "\n" + heading(repairer.title);
  for (std::size_t i = 0; i < repairer.work.size(); ++i) {
    text += paragraph(std::to_string(i + 1) + ". ", repairer.work[i]);
  }
  return text + lines_text("Regulation check list", repairer.check);
}

}  // namespace

std::string payoff_text(const PayoffReport& report) {
  const PayoffView seen = view(report);
  std::string text = heading(seen.title, '=') + labelled_lines(seen.read) + "\n" + heading("Advice");
  for (const std::string& line : seen.advice) text += paragraph("- ", line);
  text += "\n" + heading("Sets of conversions");
  for (std::size_t c = 0; c < report.conversions.size(); ++c) {
    text += paragraph(std::string(1, static_cast<char>('A' + c)) + "  ", report.conversions[c].name);
  }
  text += "\n" + sets_text(seen) + "\n" +
          paragraph("",
                    "Gain: points of the plans saved in one round of the repertoire, the points --explain shows. "
                    "Relieved: notes that leave laborious or out of reach for workable or fluent. Changed: notes "
                    "fingered otherwise. Front: no other set gains more for less.");
  text += bullets("Sets that contradict themselves", seen.refused);
  for (const SetView& set : seen.details) text += set_text(set);
  text += repairer_text(seen.repairer);
  text += "\n" + compact_key();
  text += bullets("What this rests on", seen.rests_on);
  text += bullets("Skipped, left out or changed", seen.skipped);
  return text + foot();
}

}  // namespace fingerway
