#include <algorithm>

#include "carried_words.hpp"
#include "fingerway/report/borrowed.hpp"
#include "json_parts.hpp"
#include "moments.hpp"
#include "text_layout.hpp"
#include "text_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

std::string answer_words(const Played& own, const FailingHabit& habit) {
  const std::string text = carried_words(habit.result, habit.sounds);
  if (habit.missing.empty()) return text;
  return text + ": " + touches_with_fingers(own.instrument, habit.missing);
}

std::string places_words(const Passage& passage, const std::vector<std::size_t>& notes) {
  std::vector<std::string> places;
  places.reserve(notes.size());
  for (std::size_t note : notes) places.push_back(place_words(passage, note));
  constexpr std::size_t most_named = 6;
  if (places.size() <= most_named) return joined(places, "; ");
  const std::size_t more = places.size() - most_named;
  places.resize(most_named);
  return joined(places, "; ") + "; and " + counted(more, "more place", "more places");
}

std::string instead_words(const Played& borrowed, const FailingHabit& habit) {
  if (habit.instead.empty()) return "there is no fingering for it here";
  std::vector<std::string> ways;
  for (const Candidate& candidate : habit.instead) ways.push_back(compact(borrowed.instrument, candidate.fingering));
  return joined(ways, "; or ");
}

Json failing_json(const Played& own, const Played& borrowed, const Passage& passage, const FailingHabit& habit) {
  std::vector<std::string> sounds;
  for (WrittenPitch pitch : habit.sounds) sounds.push_back(name(chart_spelling(pitch)));
  Json places = Json::list();
  for (std::size_t note : habit.notes) {
    Json place = Json::object();
    place.with("index", note)
        .with("measure", passage.measures[passage.notes[note].place.measure].name)
        .with("beat", beat_name(passage, passage.notes[note]));
    places.add(place);
  }
  Candidate used;
  used.fingering = habit.habit;
  Json fingering = Json::object();
  add_fingering(fingering, own.instrument, &used);
  Json instead = Json::list();
  for (const Candidate& candidate : habit.instead) {
    Json way = candidate_json(borrowed.instrument, candidate);
    way.with("written", name(chart_spelling(habit.pitch)));
    instead.add(way);
  }
  Json json = Json::object();
  json.with("written", name(chart_spelling(habit.pitch)))
      .with("habit", fingering)
      .with("result", carried_id(habit.result))
      .with("sounds", sounds)
      .with("missing", full_names_json(own.instrument, habit.missing))
      .with("notes", places)
      .with("instead", instead);
  return json;
}

}  // namespace

std::string borrowed_text(const Played& own, const Played& borrowed, const Passage& passage, const Borrowed& result) {
  const PlanView seen = view(borrowed, passage, result.plan);
  std::vector<Labelled> read = seen.read;
  const auto instrument = std::ranges::find(read, "Instrument", &Labelled::label);
  read.insert(instrument, {"Used to", instrument_words(own.instrument)});
  std::string text = heading(seen.title + ", on a borrowed instrument", '=') + labelled_lines(read) + "\n";
  Table table({{.head = ""}, {.head = "your own", .widest = 36}, {.head = "borrowed", .widest = 36}});
  const auto yes = [](bool b) { return std::string(b ? "yes" : "no"); };
  table.row({"Fits the tempo", yes(result.own.summary.fits), yes(result.plan.summary.fits)});
  table.row({"Speed ceiling", ceiling_words(result.own.summary), ceiling_words(result.plan.summary)});
  table.row({"Awkwardness", rounded(result.own.summary.awkwardness.value(), 0) + " points",
             rounded(result.plan.summary.awkwardness.value(), 0) + " points"});
  text += table.text() + "\n";
  text += paragraph("", result.failing.empty()
                            ? "Every habit works here as well."
                            : "Your habit fails at " + std::to_string(result.failing_notes) + " of " +
                                  counted(result.habits, "note", "notes") + "; all others can stay as they are.");
  if (!result.failing.empty()) text += "\n" + heading("What fails, and what to use instead");
  for (const FailingHabit& habit : result.failing) {
    text += pitch_words(habit.pitch) + "\n";
    text += paragraph("  habit  ", compact(own.instrument, habit.habit) + " " + answer_words(own, habit));
    text += paragraph("  use    ", instead_words(borrowed, habit));
    text += paragraph("  where  ", places_words(passage, habit.notes));
  }
  std::vector<std::string> hardest;
  for (const Moment& moment : seen.hardest) {
    hardest.push_back(moment.where + ": " + moment.what + (moment.fits ? "" : " [does not fit]"));
  }
  text += bullets("Hardest moments on the borrowed instrument", hardest);
  text += "\n" + compact_key();
  text += bullets("Cannot be played as written", seen.not_playable);
  text += bullets("Assumed", seen.assumed);
  text += bullets("Left out or changed when the score was read", seen.remarks);
  return text + foot();
}

std::string borrowed_json(const Played& own, const Played& borrowed, const Passage& passage, const Borrowed& result) {
  Json failing = Json::list();
  for (const FailingHabit& habit : result.failing) failing.add(failing_json(own, borrowed, passage, habit));
  Json json = document("habits");
  json.with("passage", passage_json(passage))
      .with("own", planned_side_json(own, passage, result.own))
      .with("borrowed", planned_side_json(borrowed, passage, result.plan))
      .with("habits", result.habits)
      .with("failing_notes", result.failing_notes)
      .with("failing", failing)
      .with("cautions", cautions());
  return text_of(json);
}

}  // namespace fingerway
