#include <algorithm>

#include "fingerway/report/text.hpp"
#include "fingerway/report/view.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string flags(const NoteView& note) {
  const bool wrong = !note.warnings.empty() && !(note.warnings.size() == 1 && note.doubtful_source);
  std::string text = wrong ? "!" : " ";
  text += note.doubtful_source ? "?" : note.matters ? "*" : "";
  return text;
}

std::vector<std::string> cells_of(const NoteView& note) {
  const std::string name = note.other.empty() ? note.note : note.note + "~" + note.other;
  const std::string fingering = note.compact.empty() ? "no fingering" : note.compact;
  std::string needs;
  std::string there;
  std::string load;
  if (note.arrival) {
    needs = note.arrival->needs;
    there = note.arrival->there_is;
    load = note.arrival->load;
  }
  return {flags(note), note.beat, name, fingering, note.compact.empty() ? "" : note.mark, needs, there, load};
}

std::string note_table(const PlanView& plan) {
  Table table({{.head = ""},
               {.head = "beat"},
               {.head = "note"},
               {.head = "fingering", .widest = 42},
               {.head = "mark", .widest = 16},
               {.head = "needs", .align = Align::right},
               {.head = "there is", .align = Align::right},
               {.head = "load", .align = Align::right}});
  std::string bar;
  for (const NoteView& note : plan.notes) {
    if (note.bar != bar) table.group("Bar " + note.bar);
    bar = note.bar;
    table.row(cells_of(note));
    if (!note.other_compact.empty()) table.remark("with " + note.other + ": " + note.other_compact);
    if (!note.rate.empty()) table.remark(note.rate);
    if (note.arrival && !note.arrival->fits && !note.arrival->moves.empty()) {
      table.remark(note.arrival->moves.front().words + (note.arrival->slurred ? ", under a slur" : ""));
    }
    for (const std::string& warning : note.warnings) table.remark("! " + warning);
  }
  return table.text();
}

std::string moments_text(const std::vector<Moment>& moments) {
  std::vector<std::string> items;
  items.reserve(moments.size());
  for (const Moment& moment : moments) {
    items.push_back(moment.where + ", " + moment.what + (moment.fits ? "" : " [does not fit]"));
  }
  return bullets("Hardest moments", items);
}

std::string other_plans(const Played& played, const Passage& passage, const std::vector<Plan>& plans) {
  std::vector<std::string> items;
  const Plan& best = plans.front();
  for (std::size_t p = 1; p < plans.size(); ++p) {
    std::vector<std::string> changes;
    for (std::size_t i = 0; i < best.notes.size(); ++i) {
      const NoteView a = note_view(played, passage, best, i);
      const NoteView b = note_view(played, passage, plans[p], i);
      if (a.compact == b.compact && a.other_compact == b.other_compact) continue;
      changes.push_back(where_words(b) + ": " + b.compact + (b.other_compact.empty() ? "" : " ~ " + b.other_compact));
    }
    const double dearer = static_cast<double>(plans[p].summary.weight - best.summary.weight) / 1e6;
    items.push_back("Costs " + rounded(dearer, 1) + " points more; speed ceiling " + ceiling_words(plans[p].summary) +
                    ". " + joined(changes, "; "));
  }
  return bullets("Other ways", items);
}

}  // namespace

std::string plan_text(const Played& played, const Passage& passage, const std::vector<Plan>& plans) {
  const PlanView plan = view(played, passage, plans.front());
  std::string text = heading(plan.title, '=') + labelled_lines(plan.read) + "\n" + labelled_lines(plan.key_numbers);
  if (!plan.decides.empty()) text += "\n" + paragraph("The ceiling is decided at ", plan.decides + ".");
  text += "\n" + note_table(plan) + "\n";
  text += paragraph("", "* a choice matters here   ! something does not work   ? doubtful source");
  text += compact_key();
  text += bullets("Cannot be played as written", plan.not_playable);
  text += moments_text(plan.hardest);
  text += other_plans(played, passage, plans);
  text += bullets("Assumed", plan.assumed);
  text += bullets("Left out or changed when the score was read", plan.remarks);
  return text + foot();
}

}  // namespace fingerway
