#include "fingerway/report/page.hpp"

#include <algorithm>

#include "compare_view.hpp"
#include "fingerway/report/engraving.hpp"
#include "fingerway/report/lanes.hpp"
#include "html.hpp"
#include "lanes_svg.hpp"
#include "page_parts.hpp"
#include "plan_sections.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string to_note(std::size_t note, const std::string& words) {
  return "<a href=\"#note-" + std::to_string(note) + "\">" + escaped(words) + "</a>";
}

std::string moments(const std::vector<Moment>& hardest) {
  if (hardest.empty()) return "<p>No finger has to move.</p>\n";
  std::string text = "<ol>\n";
  for (const Moment& moment : hardest) {
    text += "<li>" + to_note(moment.note, moment.where) + ": " + escaped(moment.what);
    if (!moment.fits) text += " " + element("span", "warning", "does not fit");
    text += "</li>\n";
  }
  return text + "</ol>\n";
}

std::vector<std::size_t> places(const std::vector<Moment>& hardest) {
  std::vector<std::size_t> notes;
  notes.reserve(hardest.size());
  for (const Moment& moment : hardest) notes.push_back(moment.note);
  return notes;
}

/// The lanes alone, or each engraved line with its lanes under it.
std::string systems_html(const Passage& passage, const std::vector<LanePlan>& plans,
                         const std::vector<std::size_t>& differing, const std::vector<std::string>& titles,
                         const std::vector<PageSystem>& engraved) {
  std::string text;
  if (engraved.empty()) {
    const Lanes lanes = lay_out(passage, plans, differing, lanes_axis_width, lanes_note_width);
    for (std::size_t i = 0; i < lanes.systems.size(); ++i) text += system_svg(lanes, i, titles);
    return text;
  }
  for (std::size_t i = 0; i < engraved.size(); ++i) {
    Lanes lanes = lay_out(passage, plans, differing, engraved[i].span);
    lanes.named = true;
    text += "<div class=\"line\"><div class=\"engraved\">" +
            safe_svg(engraved[i].svg, "line-" + std::to_string(i + 1) + "-") + "</div>\n" +
            system_svg(lanes, 0, titles) + "</div>\n";
  }
  return text;
}

std::string lanes_figure(const std::string& systems, const std::vector<std::string>& titles) {
  std::string text =
      "<figure>\n<figcaption>Time runs to the right. A bar is as long as a touch is held; the line before a note is as "
      "long as the move into it takes. Fingers that do not move in a line are named below it. Numbers in circles are "
      "the hardest moments listed below." +
      std::string(titles.size() > 1 ? " A note underlined is fingered or reached differently on the two." : "") +
      "</figcaption>\n" + svg_patterns();
  return text + systems + legend_html() + "</figure>\n";
}

std::string note_row(const NoteView& note) {
  const std::string name = note.other.empty() ? note.note : note.note + "~" + note.other;
  const std::string& arrives = note.arrival ? note.arrival->needs : "";
  std::string text = "<tr id=\"row-" + std::to_string(note.index) + "\">" + element("td", "", note.beat) +
                     element("td", "", name) + element("td", "quiet", note.length);
  text += "<td class=\"key\">" + escaped(note.compact.empty() ? "no fingering" : note.compact);
  if (!note.other_compact.empty()) text += "<br>" + escaped("with " + note.other + ": " + note.other_compact);
  if (!note.rate.empty()) text += "<br>" + element("span", "quiet", note.rate);
  for (const std::string& warning : note.warnings) text += "<br>" + element("span", "warning", warning);
  text += "</td>" + element("td", "", note.matters && !note.compact.empty() ? note.mark : "");
  text += element("td", "number", arrives) + element("td", "number", note.arrival ? note.arrival->there_is : "") +
          element("td", "number", note.arrival ? note.arrival->load : "");
  return text + "</tr>\n";
}

std::string note_table(const std::vector<NoteView>& notes) {
  std::string text =
      "<div class=\"scroll\"><table>\n<thead><tr><th>Beat</th><th>Note</th><th>Length</th><th>Fingering</th>"
      "<th>Mark</th><th class=\"number\">Needs</th><th class=\"number\">There is</th><th class=\"number\">Load</th>"
      "</tr></thead>\n<tbody>\n";
  std::string bar;
  for (const NoteView& note : notes) {
    if (note.bar != bar) {
      text += "<tr><th scope=\"rowgroup\" colspan=\"8\">Bar " + escaped(note.bar) + "</th></tr>\n";
      bar = note.bar;
    }
    text += note_row(note);
  }
  return text + "</tbody></table></div>\n" +
         element("p", "quiet",
                 "Left hand | right hand; T thumb, 1 index finger to 4 little finger; after the dot the touch, where a "
                 "finger has several; ½ half hole. A mark stands where a choice matters.") +
         "\n";
}

std::string ceiling_line(const std::string& decides) {
  return decides.empty() ? std::string() : element("p", "", "The ceiling is decided at " + decides + ".") + "\n";
}

std::string totals_table(const CompareView& seen) {
  std::string text = "<div class=\"scroll\"><table>\n<thead><tr><th></th>" + element("th", "", seen.stock_name) +
                     element("th", "", seen.converted_name) + "</tr></thead>\n<tbody>\n";
  for (const TotalView& total : seen.totals) {
    text += "<tr>" + element("th", "", total.label) + element("td", "", total.stock) +
            element("td", "", total.converted) + "</tr>\n";
  }
  return text + "</tbody></table></div>\n";
}

std::string side_cell(const NoteView& note, bool fingering_differs) {
  std::string text = "<td>";
  if (fingering_differs) text += element("span", "key", note.compact.empty() ? "no fingering" : note.compact) + "<br>";
  text += element("span", "quiet", arrival_words(note)) + "</td>";
  std::string time;
  if (note.arrival) time = note.arrival->needs + " of " + note.arrival->there_is;
  const bool late = note.arrival && !note.arrival->fits;
  return text + "<td class=\"number\">" + escaped(time) +
         (late ? "<br>" + element("span", "warning", "does not fit") : std::string()) + "</td>";
}

std::string differences_table(const CompareView& seen) {
  if (seen.differing.empty()) return {};
  std::string text =
      "<div class=\"scroll\"><table>\n<thead><tr><th>Where</th><th>Stock</th><th class=\"number\">Needs</th>"
      "<th>Converted</th><th class=\"number\">Needs</th></tr></thead>\n<tbody>\n";
  for (const DifferenceView& row : seen.differing) {
    text += "<tr><td>" + to_note(row.note, row.where) + "</td>" + side_cell(row.stock, row.fingering_differs) +
            side_cell(row.converted, row.fingering_differs) + "</tr>\n";
  }
  return text + "</tbody></table></div>\n";
}

std::string changed(const std::vector<ChangedNote>& notes) {
  if (notes.empty()) return "<p>None.</p>\n";
  std::string text = "<dl class=\"key\">\n";
  for (const ChangedNote& note : notes) {
    text += element("dt", "", note.note) + "<dd>";
    for (std::size_t i = 0; i < note.fingerings.size(); ++i)
      text += (i > 0 ? "<br>" : "") + escaped(note.fingerings[i]);
    text += "</dd>\n";
  }
  return text + "</dl>\n";
}

}  // namespace

std::string plan_facts(const PlanView& seen) {
  return "<div class=\"facts\">\n" + page_definitions(seen.read) + page_definitions(seen.key_numbers) + "</div>\n";
}

std::string plan_sections(const Played& played, const Passage& passage, const Plan& plan, const PlanView& seen,
                          const std::vector<PageSystem>& engraved) {
  const std::vector<std::string> titles = {instrument_words(played.instrument)};
  std::string text = page_section("Cannot be played as written", page_list(seen.not_playable));
  text += page_section(
      "Finger lanes",
      lanes_figure(systems_html(passage, {{played, plan, places(seen.hardest)}}, {}, titles, engraved), titles));
  text += page_section("Hardest moments", moments(seen.hardest));
  text += page_section("Note by note", note_table(seen.notes));
  text += page_section("Assumed", page_list(seen.assumed));
  return text + page_section("Left out or changed when the score was read", page_list(seen.remarks));
}

std::string plan_page(const Played& played, const Passage& passage, const std::vector<Plan>& plans,
                      const std::vector<PageSystem>& engraved) {
  const PlanView plan = view(played, passage, plans.front());
  std::string text = "<header>\n" + element("h1", "", plan.title) + "\n" +
                     element("p", "subtitle", "Fingerings for the " + instrument_words(played.instrument)) + "\n";
  text += element("p", "verdict", plans.front().summary.fits ? "It fits the tempo." : "It does not fit the tempo.") +
          "\n" + ceiling_line(plan.decides) + plan_facts(plan) + "</header>\n";
  text += plan_sections(played, passage, plans.front(), plan, engraved);
  return page_document(plan.title + " – fingerings", text + page_cautions());
}

std::string compare_page(const Played& stock, const Played& converted, const Passage& passage,
                         const Comparison& comparison, const std::vector<PageSystem>& engraved) {
  const CompareView seen = view(stock, converted, passage, comparison);
  std::vector<std::size_t> differing;
  for (const DifferenceView& row : seen.differing) differing.push_back(row.note);
  const std::vector<LanePlan> plans = {{stock, comparison.stock, places(seen.stock.hardest)},
                                       {converted, comparison.converted, places(seen.converted.hardest)}};
  const std::vector<std::string> titles = {seen.stock_name, seen.converted_name};
  std::string text = "<header>\n" + element("h1", "", seen.stock.title) + "\n" +
                     element("p", "subtitle", seen.stock_name + ", beside the same " + seen.converted_name) + "\n";
  text += element("p", "verdict", seen.verdict) + "\n" + totals_table(seen);
  text += "<div class=\"facts\">\n" + page_definitions(seen.read) + "</div>\n</header>\n";
  text += page_section("Finger lanes", lanes_figure(systems_html(passage, plans, differing, titles, engraved), titles));
  text += page_section("Hardest moments, stock", ceiling_line(seen.stock.decides) + moments(seen.stock.hardest));
  text += page_section("Hardest moments, converted",
                       ceiling_line(seen.converted.decides) + moments(seen.converted.hardest));
  text += page_section("What differs, note by note", differences_table(seen));
  text += page_section("Fingerings gained for the notes of this passage", changed(seen.gained));
  text += page_section("Fingerings lost for the notes of this passage", changed(seen.lost));
  text += page_section("Assumed", page_list(seen.converted.assumed));
  text += page_section("Left out or changed when the score was read", page_list(seen.stock.remarks));
  return page_document(seen.stock.title + " – compared", text + page_cautions());
}

}  // namespace fingerway
