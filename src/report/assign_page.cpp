#include <algorithm>

#include "html.hpp"
#include "lesson_view.hpp"
#include "page_parts.hpp"
#include "plan_sections.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string before_the_lesson(const LessonView& seen) {
  return page_section("Cannot be played on this instrument as written", page_list(seen.not_possible)) +
         page_section("Not learned yet", page_list(seen.not_learned)) +
         page_section("New, and needed", page_list(seen.needed)) +
         page_section("New, and a help", page_list(seen.helpful));
}

/// The same within the summary, a heading lower.
std::string part_of_summary(const LessonView& seen) {
  const auto part = [](const std::string& title, const std::vector<std::string>& items) {
    return items.empty() ? std::string() : element("h3", "", title) + "\n" + page_list(items);
  };
  return part("Cannot be played on this instrument as written", seen.not_possible) +
         part("Not learned yet", seen.not_learned) + part("New, and needed", seen.needed) +
         part("New, and a help", seen.helpful);
}

std::string link(const std::string& path, const std::string& words) {
  return "<a href=\"" + escaped(path) + "\">" + escaped(words) + "</a>";
}

/// "page, text, score": the files of a sheet by their endings.
std::string sheet_links(const AssignedPassage& assigned) {
  std::string text;
  for (const std::string& file : assigned.files) {
    const char* words = file.ends_with(".html") ? "page" : file.ends_with(".txt") ? "text" : "marked score";
    text += (text.empty() ? "" : ", ") + link(file, words);
  }
  return text;
}

std::string summary_table(const Assignment& assignment) {
  // Shown on the page there are no files to lead to.
  const bool files = std::ranges::any_of(assignment.pupils, [](const AssignedPupil& pupil) {
    return std::ranges::any_of(pupil.passages, [](const AssignedPassage& assigned) { return !assigned.files.empty(); });
  });
  std::string text =
      "<div class=\"scroll\"><table>\n<thead><tr><th>Pupil</th><th>Passage</th><th>Fits</th>"
      "<th class=\"number\">Ceiling</th><th>What is to be said</th>" +
      std::string(files ? "<th>Sheet</th>" : "") + "</tr></thead>\n<tbody>\n";
  for (const AssignedPupil& pupil : assignment.pupils) {
    for (const AssignedPassage& assigned : pupil.passages) {
      const PlanSummary& summary = assigned.lesson.plan.summary;
      const std::string ceiling = summary.ceiling ? std::to_string(static_cast<int>(summary.ceiling->value())) : "–";
      text += "<tr>" + element("th", "", pupil.name) + element("td", "", title_words(assigned)) +
              element("td", "", summary.fits && summary.complete ? "yes" : "no") + element("td", "number", ceiling) +
              element("td", "", lesson_view(pupil, assigned).verdict) +
              (files ? "<td>" + sheet_links(assigned) + "</td>" : std::string()) + "</tr>\n";
    }
  }
  return text + "</tbody></table></div>\n" +
         element("p", "quiet", "Ceilings in quarter notes a minute, with what is known.") + "\n";
}

}  // namespace

std::string sheet_page(const AssignedPupil& pupil, const AssignedPassage& assigned) {
  const LessonView seen = lesson_view(pupil, assigned);
  const Plan& plan = assigned.lesson.plan;
  const PlanView planned = view(pupil.played, assigned.passage, plan);
  std::string text = "<header>\n" + element("h1", "", title_words(assigned)) + "\n" +
                     element("p", "subtitle", "For " + pupil_words(pupil)) + "\n" +
                     element("p", "verdict", seen.verdict) + "\n" + plan_facts(planned) + "</header>\n";
  text += before_the_lesson(seen) + plan_sections(pupil.played, assigned.passage, plan, planned);
  return page_document(title_words(assigned) + " – " + pupil.name, text + page_cautions());
}

std::string assign_page(const Assignment& assignment) {
  std::string text = "<header>\n" + element("h1", "", assignment.title) + "\n</header>\n";
  text += page_section("At a glance", summary_table(assignment));
  for (const AssignedPupil& pupil : assignment.pupils) {
    for (const AssignedPassage& assigned : pupil.passages) {
      const std::string more = part_of_summary(lesson_view(pupil, assigned));
      if (more.empty()) continue;
      text += "<article>\n" + element("h2", "", pupil_words(pupil) + ": " + title_words(assigned)) + "\n" + more +
              "</article>\n";
    }
  }
  return page_document(assignment.title, text + page_cautions());
}

}  // namespace fingerway
