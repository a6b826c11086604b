#include "compare_view.hpp"

#include <algorithm>
#include <map>

#include "moments.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string fit_words(const PlanSummary& summary) {
  if (!summary.complete) return "no: a note has no fingering";
  return summary.fits ? "yes" : "no";
}

std::size_t late_changes(const Plan& plan) {
  return static_cast<std::size_t>(
      std::ranges::count_if(plan.notes, [](const PlannedNote& n) { return n.arrive && !fits(*n.arrive); }));
}

std::string count_words(std::size_t count) { return std::to_string(count); }

std::vector<TotalView> totals_of(const PlanSummary& a, const PlanSummary& b, const Comparison& c) {
  return {
      {"Fits the tempo", fit_words(a), fit_words(b)},
      {"Speed ceiling", ceiling_words(a), ceiling_words(b)},
      {"Changes that do not fit", count_words(late_changes(c.stock)), count_words(late_changes(c.converted))},
      {"Largest load", percent(a.worst_load), percent(b.worst_load)},
      {"Awkwardness", rounded(a.awkwardness.value(), 0) + " points", rounded(b.awkwardness.value(), 0) + " points"}};
}

std::string verdict_words(const Comparison& c) {
  const PlanSummary& a = c.stock.summary;
  const PlanSummary& b = c.converted.summary;
  if (c.differing.empty()) return "The passage is played the same way on both.";
  std::string text = counted(c.differing.size(), "note is", "notes are") + " reached or fingered differently";
  if (!a.fits && b.fits) text += "; the passage fits only with the conversion";
  if (a.fits && !b.fits) text += "; the passage fits only without the conversion";
  if (a.ceiling && b.ceiling) {
    const double ratio = b.ceiling->value() / a.ceiling->value();
    const bool up = ratio >= 1.0;
    const double share = up ? ratio - 1.0 : 1.0 - ratio;
    text += share < 0.005 ? "; the ceiling stays the same"
                          : std::string("; the ceiling ") + (up ? "rises" : "falls") + " by " + percent(share);
  }
  return text + ".";
}

}  // namespace

CompareView view(const Played& stock, const Played& converted, const Passage& passage, const Comparison& comparison) {
  CompareView result;
  result.stock = view(stock, passage, comparison.stock);
  result.converted = view(converted, passage, comparison.converted);
  result.stock_name = instrument_words(stock.instrument);
  result.converted_name = instrument_words(converted.instrument);
  for (const Labelled& line : result.stock.read) {
    const bool names_instrument = line.label == "Instrument";
    result.read.push_back({names_instrument ? "Stock" : line.label, line.text});
    if (names_instrument) result.read.push_back({"Converted", result.converted_name});
  }
  result.totals = totals_of(comparison.stock.summary, comparison.converted.summary, comparison);
  result.verdict = verdict_words(comparison);
  for (const DifferingNote& d : comparison.differing) {
    DifferenceView row;
    row.note = d.note;
    row.where = place_words(passage, d.note) + ", " + result.stock.notes[d.note].note;
    row.stock = result.stock.notes[d.note];
    row.converted = result.converted.notes[d.note];
    row.fingering_differs = d.fingering_differs;
    result.differing.push_back(row);
  }
  result.gained = changed_notes(converted.instrument, comparison.here.gained);
  result.lost = changed_notes(stock.instrument, comparison.here.lost);
  return result;
}

std::vector<ChangedNote> changed_notes(const Instrument& instrument, const std::vector<SoundedFingering>& list) {
  std::map<WrittenPitch, std::vector<const Candidate*>> by_note;
  for (const SoundedFingering& f : list) by_note[f.pitch].push_back(&f.candidate);
  std::vector<ChangedNote> result;
  for (auto& [pitch, candidates] : by_note) {
    std::ranges::stable_sort(candidates, {}, [](const Candidate* c) { return c->fingering.pressed.size(); });
    ChangedNote note{.note = pitch_words(pitch), .fingerings = {}};
    for (const Candidate* c : candidates) {
      const TableFingering& line = instrument.table[c->line];
      std::string text = compact(instrument, c->fingering);
      std::vector<std::string> facts;
      if (c->origin == Origin::table) {
        facts.emplace_back(words(line.standing));
        if (!line.mark.empty()) facts.push_back("“" + line.mark + "”");
      } else if (line.standing != Standing::standard) {
        facts.push_back("sounds as the " + std::string(words(line.standing)) + " one" +
                        (line.mark.empty() ? "" : " “" + line.mark + "”"));
      }
      if (!facts.empty()) text += " (" + joined(facts, ", ") + ")";
      note.fingerings.push_back(text);
    }
    result.push_back(note);
  }
  return result;
}

std::string arrival_words(const NoteView& note) {
  if (!note.arrival) return "first note";
  if (note.arrival->moves.empty()) return "no finger moves";
  std::string text = note.arrival->moves.front().words;
  const std::size_t others = note.arrival->moves.size() - 1;
  if (others > 0) text += ", and " + counted(others, "more finger", "more fingers");
  return text;
}

}  // namespace fingerway
