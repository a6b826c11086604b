#include <algorithm>
#include <cmath>

#include "carried_words.hpp"
#include "moments.hpp"
#include "payoff_view.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

constexpr std::size_t most_turns = 12;
constexpr std::size_t most_pairs = 6;
constexpr std::size_t most_habits = 6;

std::string ceiling(const std::optional<double>& qpm, bool complete) {
  if (!complete) return "not playable";
  // Rounded down: a ceiling must not promise more than there is.
  return qpm ? rounded(std::floor(*qpm + 1e-9), 0) : "no limit";
}

std::string figure_words(const Turn& turn, const std::optional<double>& figure) {
  if (!figure) return turn.hardship == Hardship::trill ? "0" : "no way";
  return rounded(*figure, turn.hardship == Hardship::trill ? 1 : 0);
}

std::string with_more(std::size_t told, std::size_t all, std::string_view one, std::string_view many) {
  return "and " + counted(all - told, one, many);
}

std::vector<std::string> turn_list(const PayoffReport& report, const std::vector<Turn>& turns) {
  std::vector<std::string> lines;
  for (const Turn& turn : turns) {
    if (lines.size() == most_turns) {
      lines.push_back(with_more(lines.size(), turns.size(), "more place", "more places"));
      break;
    }
    lines.push_back(site_words(report.repertoire, turn.site) + ": " + turn_words(turn));
  }
  return lines;
}

PieceRow piece_row(const PayoffReport& report, const SetInFull& set, std::size_t p) {
  const PassageOutcome& before = report.payoff.stock[p];
  const PassageOutcome& after = set.outcomes[p];
  const Balance& balance = set.pieces[p].balance;
  PieceRow row;
  row.name = report.repertoire.pieces[p].name;
  row.ceiling_before = ceiling(before.ceiling, before.complete);
  row.ceiling_after = ceiling(after.ceiling, after.complete);
  row.awkwardness_before = rounded(before.awkwardness, 0);
  row.awkwardness_after = rounded(after.awkwardness, 0);
  row.fits_before = before.fits ? "yes" : "no";
  row.fits_after = after.fits ? "yes" : "no";
  row.gain = rounded(balance.gain, 0);
  const double share = report.repertoire.pieces[p].share();
  row.relieved = rounded((balance.relieved - balance.spoiled) / share, 0);
  row.finding = words(finding(balance));
  return row;
}

std::vector<std::string> relearning_words(const PayoffReport& report, double changed_share, const SetInFull& set) {
  const Relearning& r = set.relearning;
  if (r.changed <= 0.0) return {"Nothing: every note is fingered as before."};
  std::vector<std::string> lines = {percent(changed_share) + " of the notes and " + percent(r.changed / r.played) +
                                    " of the changes from note to note are fingered otherwise; of the " +
                                    counted(r.frequent, "kind of change", "kinds of changes") +
                                    " that make up half of the repertoire, " + std::to_string(r.frequent_changed) +
                                    "."};
  for (std::size_t i = 0; i < r.pairs.size() && i < most_pairs; ++i) {
    const RelearnedPair& pair = r.pairs[i];
    lines.push_back(pitch_words(pair.from) + " → " + pitch_words(pair.to) + ", " + percent(pair.changed / r.played) +
                    " of all changes, as in " + site_words(report.repertoire, pair.example));
  }
  if (r.pairs.size() > most_pairs) {
    lines.push_back(with_more(most_pairs, r.pairs.size(), "more kind of change", "more kinds of changes"));
  }
  return lines;
}

std::vector<std::string> habit_words(const PayoffReport& report, const Instrument& own, const SetInFull& set) {
  std::vector<std::string> lines;
  for (const CarriedFingering& habit : set.habits) {
    if (lines.size() == most_habits) {
      lines.push_back(with_more(lines.size(), set.habits.size(), "more fingering", "more fingerings"));
      break;
    }
    lines.push_back(pitch_words(habit.note) + " as " + compact(own, habit.fingering) + " " +
                    carried_words(habit.result, habit.sounds) + " (" + site_words(report.repertoire, habit.example) +
                    ")");
  }
  if (set.harmless_habits > 0) {
    lines.push_back(
        counted(set.harmless_habits, "other new fingering gives its note", "other new fingerings give their notes") +
        " on a stock instrument too.");
  }
  return lines;
}

std::vector<std::string> lost_words(const PayoffReport& report, const SetInFull& set) {
  const Instrument& stock = report.variants.front().played.instrument;
  std::vector<std::string> lines;
  for (const LostFingering& lost : set.lost) {
    if (lines.size() == most_habits) {
      lines.push_back(with_more(lines.size(), set.lost.size(), "more fingering", "more fingerings"));
      break;
    }
    lines.push_back(pitch_words(lost.note) + " as " + compact(stock, lost.fingering) + " (" +
                    site_words(report.repertoire, lost.example) + ")");
  }
  return lines;
}

std::string finding_sentence(const SetPayoff& set) {
  const Balance& b = set.balance;
  const bool saves = b.gain >= 0.0;
  std::string text = std::string(saves ? "Saves " : "Costs ") + rounded(std::abs(b.gain), 0) + " points, " +
                     percent(std::abs(b.share())) + " of what the repertoire costs on the stock instrument; relieves " +
                     counted(set.relieved, "place", "places");
  if (set.spoiled > 0) text += " and spoils " + std::to_string(set.spoiled);
  return text + ".";
}

std::vector<Labelled> facts_of(const Variant& variant) {
  std::vector<Labelled> facts = {{"Cost", cost_words(variant.cost)}};
  if (variant.cost.grams > 0.0) facts.push_back({"Weight", rounded(variant.cost.grams, 0) + " g more"});
  if (variant.cost.hours > 0.0) facts.push_back({"Work", rounded(variant.cost.hours, 0) + " hours"});
  std::vector<std::string> upkeep;
  for (const ConversionSheet& sheet : variant.played.instrument.conversions) {
    upkeep.insert(upkeep.end(), sheet.upkeep.begin(), sheet.upkeep.end());
  }
  if (!upkeep.empty()) facts.push_back({"Upkeep", joined(upkeep, "; ")});
  return facts;
}

}  // namespace

std::string site_words(const Repertoire& repertoire, const NoteSite& site) {
  const Piece& piece = repertoire.pieces[site.piece];
  const auto& notes = piece.passage.notes;
  const NoteEvent& note = notes[site.note];
  std::string text = piece.name + ", " + place_words(piece.passage, site.note) + ", ";
  if (note.other) return text + display_name(note.spelling) + "~" + display_name(*note.other);
  if (site.note > 0) text += display_name(notes[site.note - 1].spelling) + " → ";
  return text + display_name(note.spelling);
}

std::string turn_words(const Turn& turn) {
  const std::string crossing = " (" + std::string(words(turn.before)) + " → " + std::string(words(turn.after)) + ")";
  if (turn.hardship == Hardship::no_fingering) {
    return (turn.before > turn.after ? "gets a fingering" : "has no fingering any more") + crossing;
  }
  const std::string figures = figure_words(turn, turn.before_figure) + " → " + figure_words(turn, turn.after_figure);
  if (turn.hardship == Hardship::trill) return figures + " notes a second" + crossing;
  return "needs " + figures + " ms, " + rounded(turn.available_ms, 0) + " ms are there" + crossing;
}

SetView set_view(const PayoffReport& report, std::size_t variant) {
  const SetPayoff& sum = report.payoff.sets[variant];
  const SetInFull set = report.in_full(variant);
  SetView result;
  result.title = set_letters(report.variants[variant]) + ": " + set_name(report, variant);
  if (report.variants[variant].members.size() == 1) {
    result.what = report.conversions[report.variants[variant].members.front()].what;
  }
  result.finding = finding_sentence(sum);
  result.facts = facts_of(report.variants[variant]);
  for (std::size_t p = 0; p < set.pieces.size(); ++p) result.pieces.push_back(piece_row(report, set, p));
  result.relieved = turn_list(report, set.relieved);
  result.spoiled = turn_list(report, set.spoiled);
  result.relearning = relearning_words(report, sum.changed_share, set);
  result.habits = habit_words(report, report.variants[variant].played.instrument, set);
  result.lost = lost_words(report, set);
  return result;
}

}  // namespace fingerway
