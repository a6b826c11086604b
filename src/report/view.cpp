#include "fingerway/report/view.hpp"

#include <algorithm>
#include <cmath>

#include "fingerway/plan/trills.hpp"
#include "fingerway/report/choice_marks.hpp"
#include "moments.hpp"
#include "player_words.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

constexpr std::size_t hardest_told = 5;
/// A passing note heard in fewer of the arrival orders than this is not worth a word.
constexpr double telling_chance = 0.1;

std::string tempo_words(const TempoChange& change) {
  const std::string number = rounded(change.tempo.value(), 0) + " quarter notes a minute";
  switch (change.source) {
    case TempoSource::metronome_mark:
      return number + " (metronome mark in the score)";
    case TempoSource::sound_element:
      return number + " (playback tempo in the score)";
    case TempoSource::request:
      return number + " (asked for)";
    case TempoSource::assumed:
      break;
  }
  return number + " (assumed: the score states none)";
}

std::string tempo_line(const Passage& passage) {
  const auto& changes = passage.tempo.changes();
  if (changes.empty()) return tempo_words({});
  std::string text = tempo_words(changes.front());
  if (changes.size() > 1) text += ", then " + counted(changes.size() - 1, "change", "changes");
  return text;
}

std::string bars_line(const Passage& passage) {
  if (passage.measures.empty()) return "no bars";
  const std::string first = passage.measures.front().name;
  const std::string last = passage.measures.back().name;
  return (first == last ? "bar " + first : "bars " + first + " to " + last) + ", " +
         counted(passage.notes.size(), "note", "notes");
}

std::vector<Labelled> what_was_read(const Played& played, const Passage& passage) {
  std::vector<Labelled> lines;
  std::string part = passage.part_name.empty() ? passage.part_id : passage.part_name;
  if (!passage.part_name.empty() && !passage.part_id.empty()) part += " (" + passage.part_id + ")";
  if (!passage.voice.empty()) part += ", voice " + passage.voice;
  if (!passage.file.empty()) lines.push_back({"Score", passage.file});
  if (!part.empty()) lines.push_back({"Part", part});
  lines.push_back({"Passage", bars_line(passage)});
  lines.push_back({"Instrument", instrument_words(played.instrument)});
  lines.push_back({"Player", player_line(played)});
  for (const std::string& term : player_terms(played)) lines.push_back({"", term});
  lines.push_back({"Tempo", tempo_line(passage)});
  return lines;
}

std::vector<Labelled> numbers_of(const PlanSummary& summary) {
  std::vector<Labelled> lines;
  std::string fit = summary.fits ? "yes" : "no";
  if (!summary.complete) fit += "; some notes have no fingering";
  lines.push_back({"Fits the tempo", fit});
  lines.push_back({"Speed ceiling", ceiling_words(summary)});
  lines.push_back({"Largest load", percent(summary.worst_load) + " of the time there is"});
  lines.push_back({"Awkwardness", rounded(summary.awkwardness.value(), 0) + " points"});
  return lines;
}

std::string passing_words(const Arrival& arrive) {
  std::vector<std::string> names;
  for (const PassingNote& note : arrive.passing) {
    if (note.chance >= telling_chance && note.semitones > 0 && names.size() < 3)
      names.push_back(pitch_words(note.pitch));
  }
  return names.empty() ? "" : "may blip through " + listed(names);
}

ArrivalView arrival_view(const Played& played, const Arrival& arrive) {
  ArrivalView result;
  std::vector<FingerMove> moves = moves_into(played, arrive);
  std::ranges::stable_sort(moves, std::greater{},
                           [](const FingerMove& m) { return std::max(m.move.busy, m.move.travel); });
  for (const FingerMove& m : moves) {
    const Ms time = std::max(m.move.busy, m.move.travel);
    result.moves.push_back({.finger = m.finger,
                            .words = move_words(played.instrument, m) + ", " + ms_words(time),
                            .ms = rounded(time.count(), 0)});
  }
  result.needs = ms_words(arrive.step.time);
  result.there_is = ms_words(arrive.context.available);
  result.load = percent(arrive.load());
  if (arrive.step.gap >= Ms(1)) result.gap = ms_words(arrive.step.gap);
  result.passing = passing_words(arrive);
  result.effort = rounded(arrive.step.awkwardness().value(), 0);
  result.slurred = !arrive.context.tongued;
  result.fits = fits(arrive);
  return result;
}

std::vector<std::string> not_playable(const PlanView& plan) {
  std::vector<std::string> all;
  for (const NoteView& note : plan.notes) {
    for (const std::string& warning : note.warnings) {
      if (warning.starts_with("doubtful") || warning.starts_with("does not fit")) continue;
      all.push_back("bar " + note.bar + ", beat " + note.beat + ": " + warning);
    }
  }
  return all;
}

}  // namespace

NoteView note_view(const Played& played, const Passage& passage, const Plan& plan, std::size_t index) {
  const NoteEvent& event = passage.notes[index];
  const PlannedNote& planned = plan.notes[index];
  NoteView note;
  note.index = index;
  note.bar = passage.measures[event.place.measure].name;
  note.beat = beat_name(passage, event);
  note.note = display_name(event.spelling);
  if (event.other) note.other = display_name(*event.other);
  note.length = event.grace ? "grace" : length_words(event.length);
  note.mark = pencil_mark(played, planned);
  note.matters = choice_matters(played, event, planned);
  note.warnings = warnings_of(played, passage, plan, index);
  note.doubtful_source =
      std::ranges::any_of(note.warnings, [](const std::string& w) { return w.starts_with("doubtful"); });
  if (planned.candidate) {
    note.fingering = fingering_words(played.instrument, planned.candidate->fingering);
    note.compact = compact(played.instrument, planned.candidate->fingering);
    note.origin = words(planned.candidate->origin);
    note.standing = words(played.instrument.table[planned.candidate->line].standing);
  }
  if (planned.other) {
    note.other_fingering = fingering_words(played.instrument, planned.other->fingering);
    note.other_compact = compact(played.instrument, planned.other->fingering);
  }
  if (planned.rate) {
    note.rate = rounded(planned.rate->value(), 1) + " notes a second, " +
                std::string(words(verdict(played.hand.numbers(), *planned.rate)));
  }
  if (planned.arrive) note.arrival = arrival_view(played, *planned.arrive);
  return note;
}

PlanView view(const Played& played, const Passage& passage, const Plan& plan) {
  PlanView result;
  result.title = passage.title.empty() ? "Untitled passage" : passage.title;
  result.read = what_was_read(played, passage);
  result.key_numbers = numbers_of(plan.summary);
  for (std::size_t i = 0; i < plan.notes.size(); ++i) result.notes.push_back(note_view(played, passage, plan, i));
  if (plan.summary.worst_note) {
    result.decides = place_words(passage, *plan.summary.worst_note) + ", " +
                     change_words(played, passage, plan, *plan.summary.worst_note);
  }
  result.hardest = hardest_moments(played, passage, plan, hardest_told);
  result.not_playable = not_playable(result);
  result.assumed = assumptions(played, passage, plan);
  for (const Remark& remark : passage.remarks) {
    result.remarks.push_back(remark.within.empty() ? remark.what : remark.within + ": " + remark.what);
  }
  return result;
}

std::string ceiling_words(const PlanSummary& summary) {
  if (!summary.ceiling) return summary.complete ? "nothing here limits the tempo" : "not known";
  // Rounded down: a ceiling must not promise more than there is.
  const auto down = [](Qpm tempo) { return rounded(std::floor(tempo.value() + 1e-9), 0); };
  std::string text = "up to " + down(*summary.ceiling) + " quarter notes a minute";
  if (summary.best_ceiling && summary.best_ceiling->value() > summary.ceiling->value() * 1.005) {
    text += " (up to " + down(*summary.best_ceiling) + " with the fastest fingerings)";
  }
  return text;
}

const std::vector<std::string>& cautions() {
  static const std::vector<std::string> sentences = {
      "Repeated fast practice can injure: rest often, and stop on pain or numbness. This is no medical advice.",
      "Times are predictions for a typical hand of the level named; your own trial overrides them.",
      "Changing keywork can ruin an instrument. Drilling, soldering, bending and re-springing are for a qualified "
      "repairer, who has the last word on what the body and the posts can take."};
  return sentences;
}

}  // namespace fingerway
