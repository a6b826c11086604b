#include <algorithm>

#include "fingerway/report/choice_marks.hpp"
#include "fingerway/report/text.hpp"
#include "moments.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

/// Smaller shares than this do not decide anything, points.
constexpr double telling_points = 0.05;

template <class Term, class Terms>
void add_terms(std::vector<std::string>& parts, const Terms& terms) {
  for (std::size_t i = 0; i < terms.size(); ++i) {
    if (terms[i] > telling_points)
      parts.push_back(std::string(words(static_cast<Term>(i))) + " " + rounded(terms[i], 1));
  }
}

std::string cost_line(std::string_view label, const std::vector<std::string>& parts) {
  return parts.empty() ? std::string() : paragraph("   " + std::string(label), joined(parts, ", "));
}

std::string change_text(const Played& played, std::string_view label, const Shared<Arrival>& arrival) {
  if (!arrival) return {};
  std::string text =
      paragraph("   " + std::string(label), needs_words(*arrival) + (arrival->context.tongued ? "" : ", under a slur") +
                                                (arrival->step.possible ? "" : "; no hand can do this"));
  const std::vector<FingerMove> moves = moves_into(played, *arrival);
  const FingerMove* slowest = deciding_move(moves, *arrival);
  for (const FingerMove& m : moves) {
    const std::string decides = &m == slowest && moves.size() > 1 ? " (takes longest)" : "";
    text += paragraph(
        "     - ", move_words(played.instrument, m) + ", " + ms_words(std::max(m.move.busy, m.move.travel)) + decides);
  }
  std::vector<std::string> parts;
  add_terms<StepTerm>(parts, arrival->cost.terms);
  text += cost_line("  points: ", parts);
  parts.clear();
  add_terms<Term>(parts, arrival->step.terms);
  return text + cost_line("  awkward by: ", parts);
}

std::string elsewhere_text(const Passage& passage, const std::vector<std::size_t>& notes) {
  constexpr std::size_t told = 6;
  std::vector<std::string> places;
  for (std::size_t i = 0; i < notes.size() && i < told; ++i) {
    places.push_back(place_words(passage, notes[i]) + " (" + display_name(passage.notes[notes[i]].spelling) + ")");
  }
  if (notes.size() > told) places.push_back(counted(notes.size() - told, "more note", "more notes"));
  return places.empty() ? std::string() : paragraph("   changes too: ", listed(places));
}

std::string option_text(const Played& played, const Passage& passage, const Option& option, std::size_t number) {
  const auto& candidate = option.here.candidate;
  std::string head = candidate ? compact(played.instrument, candidate->fingering) : "no fingering";
  if (option.here.other) head += " ~ " + compact(played.instrument, option.here.other->fingering);
  if (candidate) {
    const TableFingering& line = played.instrument.table[candidate->line];
    head += " (" + std::string(words(candidate->origin)) + ", " + std::string(words(line.standing)) + ", mark “" +
            pencil_mark(played, option.here) + "”)";
  }
  head += number == 1 ? ": chosen" : ": " + rounded(option.dearer.value(), 1) + " points dearer";
  std::string text = "\n" + paragraph(std::to_string(number) + ". ", head);
  std::vector<std::string> parts;
  add_terms<NoteTerm>(parts, option.here.cost.terms);
  text += cost_line("by itself: ", parts);
  text += change_text(played, "arrive: ", option.here.arrive) + change_text(played, "leave: ", option.leave);
  return text + elsewhere_text(passage, option.elsewhere);
}

}  // namespace

std::string explain_text(const Played& played, const Passage& passage, const Explanation& explanation) {
  const NoteEvent& event = passage.notes[explanation.note];
  std::string text =
      heading("Why this fingering: " + place_words(passage, explanation.note) + ", " + display_name(event.spelling),
              '=') +
      labelled_lines(instrument_lines(played));
  if (explanation.options.size() > 1) {
    text += "\n" + paragraph("", "The next best would cost the passage " +
                                     rounded(explanation.options[1].dearer.value(), 1) + " points more.");
  } else {
    text += "\n" + paragraph("", "There is no other way to play this note here.");
  }
  for (std::size_t i = 0; i < explanation.options.size(); ++i) {
    text += option_text(played, passage, explanation.options[i], i + 1);
  }
  return text + "\n" + compact_key() + foot();
}

}  // namespace fingerway
