#include <algorithm>

#include "compare_view.hpp"
#include "fingerway/report/text.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string totals_text(const CompareView& comparison) {
  Table table({{.head = ""}, {.head = "stock", .widest = 36}, {.head = "converted", .widest = 36}});
  for (const TotalView& total : comparison.totals) table.row({total.label, total.stock, total.converted});
  return table.text();
}

std::string side_text(std::string_view side, const NoteView& note, bool fingering_differs) {
  std::string text;
  if (fingering_differs) text += note.compact.empty() ? "no fingering; " : note.compact + "; ";
  text += arrival_words(note);
  if (note.arrival) {
    text += "; needs " + note.arrival->needs + ", " + note.arrival->there_is + " are there";
    if (!note.arrival->fits) text += " [does not fit]";
  }
  return paragraph("  " + std::string(side), text);
}

std::string differences_text(const CompareView& comparison) {
  if (comparison.differing.empty()) return {};
  std::string text = "\n" + heading("What differs, note by note");
  for (const DifferenceView& row : comparison.differing) {
    text += row.where + "\n" + side_text("stock      ", row.stock, row.fingering_differs) +
            side_text("converted  ", row.converted, row.fingering_differs);
  }
  return text;
}

}  // namespace

std::string changed_text(const std::string& title, const std::vector<ChangedNote>& notes) {
  if (notes.empty()) return "\n" + heading(title) + "none\n";
  std::string text = "\n" + heading(title);
  std::size_t widest = 0;
  for (const ChangedNote& note : notes) widest = std::max(widest, width(note.note));
  for (const ChangedNote& note : notes) {
    std::string label = note.note + std::string(widest - width(note.note) + 2, ' ');
    for (const std::string& fingering : note.fingerings) {
      text += paragraph(label, fingering);
      label = std::string(widest + 2, ' ');
    }
  }
  return text;
}

std::string compare_text(const Played& stock, const Played& converted, const Passage& passage,
                         const Comparison& comparison) {
  const CompareView seen = view(stock, converted, passage, comparison);
  std::string text = heading(seen.stock.title, '=') + labelled_lines(seen.read) + "\n" + totals_text(seen);
  text += "\n" + paragraph("", seen.verdict);
  if (!seen.stock.decides.empty()) text += paragraph("Stock ceiling: ", seen.stock.decides + ".");
  if (!seen.converted.decides.empty()) text += paragraph("Converted ceiling: ", seen.converted.decides + ".");
  text += differences_text(seen);
  text += changed_text("Fingerings gained for the notes of this passage", seen.gained);
  text += changed_text("Fingerings lost for the notes of this passage", seen.lost);
  text += "\n" + compact_key();
  text += bullets("Assumed", seen.converted.assumed);
  text += bullets("Left out or changed when the score was read", seen.stock.remarks);
  return text + foot();
}

}  // namespace fingerway
