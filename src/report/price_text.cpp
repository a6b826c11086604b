#include <algorithm>

#include "fingerway/decide/losses.hpp"
#include "fingerway/report/text.hpp"
#include "moments.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

constexpr std::size_t losses_told = 5;
/// A smaller difference than this is none, points.
constexpr double telling_points = 0.05;

std::string totals(const PlanSummary& own, const PlanSummary& best) {
  Table table({{.head = ""}, {.head = "your way", .widest = 36}, {.head = "best way", .widest = 36}});
  const auto yes = [](bool b) { return std::string(b ? "yes" : "no"); };
  table.row({"Fits the tempo", yes(own.fits), yes(best.fits)});
  table.row({"Speed ceiling", ceiling_words(own), ceiling_words(best)});
  table.row({"Largest load", percent(own.worst_load), percent(best.worst_load)});
  table.row({"Awkwardness", rounded(own.awkwardness.value(), 0) + " points",
             rounded(best.awkwardness.value(), 0) + " points"});
  return table.text();
}

std::string loss_words(const Played& played, const Passage& passage, const Plan& own, const Plan& best,
                       const Loss& loss) {
  const std::size_t note = loss.note;
  const NoteView mine = note_view(played, passage, own, note);
  const NoteView other = note_view(played, passage, best, note);
  std::string text =
      place_words(passage, note) + ", " + mine.note + ": " + rounded(loss.points.value(), 1) + " points more";
  if (mine.compact != other.compact) {
    text += "; " + (mine.compact.empty() ? std::string("no fingering") : mine.compact) + " instead of " +
            (other.compact.empty() ? std::string("none") : other.compact);
  }
  if (own.notes[note].arrive) text += "; " + change_words(played, passage, own, note);
  return text;
}

}  // namespace

std::string price_text(const Played& played, const Passage& passage, const Plan& own, const Plan& best) {
  const PlanView seen = view(played, passage, own);
  const double dearer = static_cast<double>(own.summary.weight - best.summary.weight) / 1e6;
  std::string text = heading(seen.title, '=') + labelled_lines(seen.read) + "\n" + totals(own.summary, best.summary) +
                     "\n" +
                     paragraph("", dearer < telling_points
                                       ? "Your way costs no more than the best one."
                                       : "Your way costs " + rounded(dearer, 1) + " points more than the best one.");
  std::vector<Loss> dearest = losses(own, best);
  if (dearest.size() > losses_told) dearest.resize(losses_told);
  std::vector<std::string> told;
  told.reserve(dearest.size());
  for (const Loss& loss : dearest) told.push_back(loss_words(played, passage, own, best, loss));
  text += bullets("Where it loses most", told);
  text += bullets("Cannot be played as written", seen.not_playable);
  text += bullets("Assumed", seen.assumed);
  return text + foot();
}

}  // namespace fingerway
