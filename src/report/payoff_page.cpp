#include "html.hpp"
#include "page_parts.hpp"
#include "payoff_plots.hpp"
#include "payoff_view.hpp"

namespace fingerway {
namespace {

std::string cell(const std::string& text) { return element("td", "", text); }
std::string number(const std::string& text) { return element("td", "number", text); }

std::string sets_table(const PayoffReport& report, const PayoffView& seen) {
  std::string text =
      "<div class=\"scroll\"><table>\n<thead><tr><th>Set</th><th></th><th>Cost</th><th class=\"number\">Gain</th>"
      "<th class=\"number\">Saved</th><th class=\"number\">Relieved</th><th class=\"number\">Spoiled</th>"
      "<th class=\"number\">Changed</th><th>Finding</th><th>" +
      std::string(report.payoff.worlds > 0 ? "Stands" : "") + "</th><th></th></tr></thead>\n<tbody>\n";
  for (const SetRow& row : seen.sets) {
    text += "<tr>" + cell(row.letters) + cell(row.name) + cell(row.cost) + number(row.gain) + number(row.share) +
            number(row.relieved) + number(row.spoiled) + number(row.changed) + cell(row.finding) + cell(row.stands) +
            cell(row.signs) + "</tr>\n";
  }
  return text + "</tbody></table></div>\n" +
         element("p", "quiet",
                 "Gain: points of the plans saved in one round of the repertoire. Relieved: notes that leave laborious "
                 "or out of reach for workable or fluent. Changed: notes fingered otherwise. Front: no other set gains "
                 "more for less.") +
         "\n";
}

std::string figure(const std::string& svg, const std::string& caption) {
  return "<figure class=\"plot-figure\">\n" + svg + element("figcaption", "", caption) + "\n</figure>\n";
}

std::string pieces_table(const SetView& set) {
  std::string text =
      "<div class=\"scroll\"><table>\n<thead><tr><th>Passage</th><th>Ceiling</th><th>Awkwardness</th><th>Fits</th>"
      "<th class=\"number\">Gain</th><th>Finding</th></tr></thead>\n<tbody>\n";
  for (const PieceRow& row : set.pieces) {
    text += "<tr>" + cell(row.name) + cell(row.ceiling_before + " → " + row.ceiling_after) +
            cell(row.awkwardness_before + " → " + row.awkwardness_after) +
            cell(row.fits_before + " → " + row.fits_after) + number(row.gain) + cell(row.finding) + "</tr>\n";
  }
  return text + "</tbody></table></div>\n";
}

std::string titled_list(const std::string& title, const std::vector<std::string>& items) {
  return items.empty() ? std::string() : element("h3", "", title) + "\n" + page_list(items);
}

std::string set_section(const SetView& set) {
  std::string text;
  if (!set.what.empty()) text += element("p", "", set.what) + "\n";
  text += element("p", "", set.finding) + "\n<div class=\"facts\">\n" + page_definitions(set.facts) + "</div>\n";
  text += pieces_table(set);
  text += titled_list("Relieved", set.relieved) + titled_list("Spoiled", set.spoiled);
  text += titled_list("To be relearned", set.relearning);
  text += titled_list("Back on a stock instrument, by habit", set.habits);
  text += titled_list("Fingerings of this repertoire that are lost", set.lost);
  return page_section(set.title, text);
}

std::string repairer_section(const RepairerView& repairer) {
  if (repairer.title.empty()) return {};
  std::string steps;
  for (const std::string& step : repairer.work) steps += element("li", "", step) + "\n";
  return page_section(repairer.title,
                      "<ol>\n" + steps + "</ol>\n" + titled_list("Regulation check list", repairer.check));
}

/// The set the plots of passages show: the best, or where none is, the one that gains most.
std::size_t shown_set(const PayoffReport& report) {
  std::size_t shown = report.payoff.best;
  if (shown > 0 || report.variants.size() < 2) return shown;
  shown = 1;
  for (std::size_t v = 2; v < report.variants.size(); ++v) {
    if (report.payoff.sets[v].balance.gain > report.payoff.sets[shown].balance.gain) shown = v;
  }
  return shown;
}

}  // namespace

std::string payoff_page(const PayoffReport& report) {
  const PayoffView seen = view(report);
  std::string text = "<header>\n" + element("h1", "", seen.title) + "\n";
  for (const std::string& line : seen.advice) text += element("p", "verdict", line) + "\n";
  text += "<div class=\"facts\">\n" + page_definitions(seen.read) + "</div>\n</header>\n";
  text += page_section(
      "Gain against cost",
      figure(gain_against_cost_svg(report),
             "Each set at the most it may cost. Filled points and the line: no other set gains more for less; the ring "
             "is the best set. Letters name the conversions as in the table below.") +
          sets_table(report, seen));
  if (const std::size_t shown = shown_set(report); shown > 0) {
    const std::string name = set_name(report, shown);
    const SetInFull set = report.in_full(shown);
    text +=
        page_section("Speed ceilings, before and after",
                     figure(ceilings_svg(report, set),
                            "With " + name +
                                ". Circle: stock; triangle: converted; upright line: the tempo asked for. A ceiling "
                                "far beyond it stands at the edge."));
    text += page_section("Where it helps",
                         figure(places_svg(report, set),
                                "With " + name +
                                    ". Each passage from its first note to its last. Triangle: leaves laborious or out "
                                    "of reach for workable or fluent; cross: the other way round; tick: fingered "
                                    "otherwise."));
  }
  text += page_section("Sets that contradict themselves", page_list(seen.refused));
  for (const SetView& set : seen.details) text += set_section(set);
  text += repairer_section(seen.repairer);
  text += page_section("What this rests on", page_list(seen.rests_on));
  text += page_section("Skipped, left out or changed", page_list(seen.skipped));
  return page_document(seen.title, text + page_cautions());
}

}  // namespace fingerway
