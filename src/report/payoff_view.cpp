#include "payoff_view.hpp"

#include <algorithm>
#include <cmath>

#include "fingerway/report/text.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string budget_words(const PayoffReport& report) {
  const std::string& currency = [&]() -> const std::string& {
    for (const Variant& variant : report.variants) {
      if (!variant.cost.currency.empty()) return variant.cost.currency;
    }
    return report.variants.front().cost.currency;
  }();
  return rounded(*report.payoff.budget, 0) + (currency.empty() ? "" : " " + currency);
}

std::string stands_words(std::size_t stood, std::size_t worlds) {
  return std::to_string(stood) + " of " + std::to_string(worlds);
}

SetRow set_row(const PayoffReport& report, std::size_t v) {
  const SetPayoff& set = report.payoff.sets[v];
  const Variant& variant = report.variants[v];
  SetRow row;
  row.letters = set_letters(variant);
  row.name = set_name(report, v);
  row.cost = cost_words(variant.cost);
  row.gain = rounded(set.balance.gain, 0);
  row.share = percent(set.balance.share());
  row.relieved = std::to_string(set.relieved);
  row.spoiled = std::to_string(set.spoiled);
  row.changed = percent(set.changed_share);
  row.finding = v == 0 ? "" : words(finding(set.balance));
  if (report.payoff.worlds > 0 && v > 0) {
    row.stands = stands_words(report.payoff.standing[v].same_finding, report.payoff.worlds);
  }
  std::vector<std::string> signs;
  if (v == report.payoff.best) signs.emplace_back("best");
  if (std::ranges::find(report.payoff.front, v) != report.payoff.front.end()) signs.emplace_back("front");
  if (!within(variant.cost, report.payoff.budget)) signs.emplace_back("over budget");
  row.signs = joined(signs, ", ");
  return row;
}

/// What the advice rests on, in half a sentence.
std::string grounds(const PayoffReport& report, std::size_t v) {
  const SetPayoff& set = report.payoff.sets[v];
  std::string text = "it saves " + percent(set.balance.share()) + " of the points";
  if (set.relieved == 0) return text + " and relieves no place that is laborious or out of reach";
  text += " and relieves " + counted(set.relieved, "place", "places") + " in " + std::to_string(set.helped) + " of " +
          counted(report.repertoire.pieces.size(), "passage", "passages");
  if (set.spoiled > 0) text += ", and spoils " + std::to_string(set.spoiled);
  return text;
}

std::string advice_on(const PayoffReport& report, std::size_t v) {
  const std::string name = "“" + set_name(report, v) + "”";
  switch (finding(report.payoff.sets[v].balance)) {
    case PayoffFinding::pays:
      return name + " pays off for this repertoire: " + grounds(report, v) + ".";
    case PayoffFinding::easier:
      return name + " makes this repertoire easier, but not more possible: " + grounds(report, v) + ".";
    case PayoffFinding::no_difference:
      return name + ": not for this repertoire; " + grounds(report, v) + ".";
    case PayoffFinding::harder:
      break;
  }
  const SetPayoff& set = report.payoff.sets[v];
  return name + ": not for this repertoire; it makes it harder (" +
         (set.balance.gain < 0.0 ? "costs " + percent(-set.balance.share()) + " more points"
                                 : "saves " + percent(set.balance.share()) + " of the points") +
         ", relieves " + counted(set.relieved, "place", "places") + ", spoils " + std::to_string(set.spoiled) + ").";
}

std::string standing_on(const PayoffReport& report, std::size_t v) {
  if (report.payoff.worlds == 0) return {};
  const SetStanding& standing = report.payoff.standing[v];
  return " That stands in " + stands_words(standing.same_finding, report.payoff.worlds) +
         " sampled hands, levels, tempos, places of keys and constants (points saved: " +
         percent(standing.least_share) + " to " + percent(standing.greatest_share) + ")" +
         (2 * standing.same_finding < report.payoff.worlds ? ", so do not build on it alone." : ".");
}

/// The cheapest set that gives most of what the best gives; the best itself where none does.
std::size_t nearly_best(const PayoffReport& report) {
  constexpr double most_of_it = 0.8;
  for (std::size_t v : report.payoff.front) {
    const bool enough =
        report.payoff.sets[v].balance.gain >= most_of_it * report.payoff.sets[report.payoff.best].balance.gain;
    if (v != 0 && enough && within(report.variants[v].cost, report.payoff.budget)) return v;
  }
  return report.payoff.best;
}

std::vector<Labelled> read_of(const PayoffReport& report) {
  const Played& stock = report.variants.front().played;
  std::size_t notes = 0;
  for (const Piece& piece : report.repertoire.pieces) notes += piece.passage.notes.size();
  std::vector<Labelled> lines = {{"Repertoire", report.repertoire.file},
                                 {"Passages", counted(report.repertoire.pieces.size(), "passage", "passages") + ", " +
                                                  counted(notes, "note", "notes")}};
  for (Labelled& line : instrument_lines(stock)) lines.push_back(std::move(line));
  lines.push_back({"Points", rounded(report.payoff.sets.front().balance.stock_points, 0) +
                                 " on the stock instrument, each passage by its weight and how often it is played"});
  if (report.payoff.budget) lines.push_back({"Budget", budget_words(report)});
  return lines;
}

RepairerView repairer_of(const PayoffReport& report) {
  RepairerView result;
  const std::size_t best = report.payoff.best;
  if (best == 0) return result;
  const Instrument& instrument = report.variants[best].played.instrument;
  result.title = "For the repairer: " + set_name(report, best);
  for (const ConversionSheet& sheet : instrument.conversions) {
    for (const std::string& step : sheet.work) {
      result.work.push_back(instrument.conversions.size() > 1 ? sheet.name + ": " + step : step);
    }
  }
  result.check = regulation_check_list(instrument);
  return result;
}

}  // namespace

std::string set_letters(const Variant& variant) {
  if (variant.members.empty()) return "stock";
  std::string text;
  for (std::size_t member : variant.members) {
    text += (text.empty() ? "" : "+") + std::string(1, static_cast<char>('A' + member));
  }
  return text;
}

std::string set_name(const PayoffReport& report, std::size_t variant) {
  std::vector<std::string> names;
  for (std::size_t member : report.variants[variant].members) {
    const ConversionSheet& sheet = report.conversions[member];
    names.push_back(sheet.name.empty() ? sheet.id : sheet.name);
  }
  return names.empty() ? "stock instrument" : listed(names);
}

std::string cost_words(const SetCost& cost) {
  if (!cost.known) return "not known";
  if (cost.high <= 0.0) return "nothing";
  const std::string high = rounded(cost.high, 0) + (cost.currency.empty() ? "" : " " + cost.currency);
  return cost.low < cost.high ? rounded(cost.low, 0) + " to " + high : high;
}

std::string_view words(PayoffFinding finding) {
  switch (finding) {
    case PayoffFinding::pays:
      return "pays";
    case PayoffFinding::easier:
      return "easier";
    case PayoffFinding::no_difference:
      return "no difference";
    case PayoffFinding::harder:
      break;
  }
  return "harder";
}

std::vector<std::string> advice(const PayoffReport& report) {
  std::vector<std::string> lines;
  const std::size_t best = report.payoff.best;
  const std::string limit = report.payoff.budget ? " within " + budget_words(report) : std::string();
  if (best == 0) {
    lines.push_back("No conversion is worth having for this repertoire" + limit + ".");
  } else {
    std::string text =
        "Best set" + limit + ": " + set_name(report, best) + " (" + cost_words(report.variants[best].cost) + ").";
    if (report.payoff.worlds > 0) {
      text += " It is the best in " + stands_words(report.payoff.standing[best].best, report.payoff.worlds) +
              " sampled worlds.";
    }
    if (const std::size_t less = nearly_best(report); less != best) {
      text += " For " + cost_words(report.variants[less].cost) + ", " + set_name(report, less) + " already gives " +
              percent(report.payoff.sets[less].balance.gain / report.payoff.sets[best].balance.gain) + " of that.";
    }
    lines.push_back(text);
    if (report.variants[best].members.size() > 1) lines.push_back(advice_on(report, best) + standing_on(report, best));
  }
  for (std::size_t v = 1; v < report.variants.size(); ++v) {
    if (report.variants[v].members.size() == 1) lines.push_back(advice_on(report, v) + standing_on(report, v));
  }
  return lines;
}

std::vector<std::string> rests_on(const PayoffReport& report) {
  std::vector<std::string> lines;
  MotionNumbers numbers = report.variants.front().played.hand.numbers();
  const std::vector<NamedNumber> all = named_numbers(numbers);
  const auto guessed =
      std::ranges::count_if(all, [](const NamedNumber& named) { return named.number->basis == Basis::assumed; });
  lines.push_back(std::to_string(guessed) + " of " + counted(all.size(), "number", "numbers") +
                  " of the motion model are assumed, not measured.");
  const Instrument& stock = report.variants.front().played.instrument;
  const auto places = std::ranges::count_if(stock.touches, [](const Touch& t) { return !t.spot_measured; });
  if (places > 0) {
    lines.push_back("The places of " + std::to_string(places) + " of " +
                    counted(stock.touches.size(), "touch", "touches") + " are assumed.");
  }
  for (const ConversionSheet& sheet : report.conversions) {
    if (!sheet.figures_basis.empty()) lines.push_back("Cost of " + sheet.name + ": " + sheet.figures_basis + ".");
  }
  const auto tempos = std::ranges::count_if(report.repertoire.pieces, [](const Piece& piece) {
    return piece.passage.tempo.changes().front().source == TempoSource::assumed;
  });
  if (tempos > 0)
    lines.push_back("The tempo of " + counted(static_cast<std::size_t>(tempos), "passage is", "passages is") +
                    " assumed.");
  lines.push_back("A gain below " + percent(noticeable_share) + " counts as none: plans are exact to about that much.");
  return lines;
}

PayoffView view(const PayoffReport& report) {
  PayoffView result;
  result.title = "Does it pay off? " + report.repertoire.name;
  result.read = read_of(report);
  result.advice = advice(report);
  for (std::size_t v = 0; v < report.variants.size(); ++v) result.sets.push_back(set_row(report, v));
  for (std::size_t v = 1; v < report.variants.size(); ++v) {
    if (report.variants[v].members.size() == 1 || v == report.payoff.best)
      result.details.push_back(set_view(report, v));
  }
  result.repairer = repairer_of(report);
  for (const RefusedSet& set : report.refused) {
    std::vector<std::string> names;
    for (std::size_t member : set.members) names.push_back(report.conversions[member].name);
    result.refused.push_back(listed(names) + ": " + set.why);
  }
  result.rests_on = rests_on(report);
  for (const Remark& skipped : report.repertoire.skipped)
    result.skipped.push_back(skipped.within + ": " + skipped.what);
  for (const Piece& piece : report.repertoire.pieces) {
    if (!piece.passage.remarks.empty()) {
      result.skipped.push_back(piece.name + ": " + counted(piece.passage.remarks.size(), "thing was", "things were") +
                               " left out or changed when it was read; fingerway plan tells");
    }
  }
  return result;
}

}  // namespace fingerway
