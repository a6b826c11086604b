#include "fingerway/decide/lesson.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace fingerway {
namespace {

std::vector<WrittenPitch> pitches_of(const NoteEvent& note) {
  std::vector<WrittenPitch> pitches = {note.pitch};
  if (note.kind != NoteKind::plain && note.other) pitches.push_back(written(*note.other));
  return pitches;
}

/// The same hand, with everything learned. Keeping fingers down is left as it is: that is no fingering to learn.
Player without_lists(Player player) {
  player.learned.reset();
  player.not_learned.clear();
  return player;
}

/// The player after the next lesson: one more fingering learned, exactly so.
void learn(Player& player, WrittenPitch pitch, const Fingering& fingering) {
  const OwnFingering own{.pitch = pitch, .fingering = fingering};
  std::erase_if(player.not_learned, [&](const OwnFingering& other) {
    return other.pitch == pitch && contains(fingering, other.fingering);
  });
  if (player.learned) player.learned->push_back(own);
}

class LessonWork {
 public:
  LessonWork(const Played& pupil, const MotionNumbers& numbers, const Passage& passage)
      : pupil_(pupil),
        numbers_(numbers),
        passage_(passage),
        open_(played(pupil.instrument, numbers, without_lists(pupil.player))),
        anyone_(derive(pupil.instrument)) {}

  Lesson work_out() {
    lesson_.plan = plan_passage(pupil_, passage_, {}).front();
    const bool knows_all = without_lists(pupil_.player) == pupil_.player;
    lesson_.open = knows_all ? lesson_.plan : plan_passage(open_, passage_, {}).front();
    find_missing();
    find_limits();
    find_fresh();
    try_out();
    return std::move(lesson_);
  }

 private:
  [[nodiscard]] Missing why_missing(const NoteEvent& note) const {
    const auto pitches = pitches_of(note);
    const auto lacking = [&](const Derivation& known) {
      return std::ranges::any_of(pitches, [&](WrittenPitch p) { return known.of(p).empty(); });
    };
    if (lacking(anyone_)) return Missing::on_instrument;
    return lacking(open_.derivation) ? Missing::for_hand : Missing::not_learned;
  }

  void find_missing() {
    for (std::size_t i = 0; i < passage_.notes.size(); ++i) {
      if (lesson_.plan.notes[i].candidate) continue;
      lesson_.missing.push_back({.note = i, .why = why_missing(passage_.notes[i])});
    }
  }

  void find_limits() {
    lesson_.fastest = lesson_.open;
    // The least awkward way is not always the fastest.
    if (lesson_.open.summary.worst_load > 1.0) {
      lesson_.fastest = plan_passage(open_, passage_, {.objective = Objective::smoothest, .choices = {}}).front();
    }
    for (std::size_t i = 0; i < passage_.notes.size(); ++i) {
      const auto& rate = lesson_.open.notes[i].rate;
      if (rate && rate->value() < numbers_.laborious_from.value) lesson_.trills_out_of_reach.push_back(i);
      const auto& arrive = lesson_.fastest.notes[i].arrive;
      if (arrive && arrive->load() > 1.0) lesson_.too_fast.push_back(i);
    }
  }

  /// Who keeps fingers down learns the fingering of the table that is in this one; the rest comes by itself.
  [[nodiscard]] Candidate to_learn(WrittenPitch pitch, const Candidate& candidate) const {
    const Fingering& line = pupil_.instrument.table[candidate.line].fingering;
    if (!pupil_.player.holds_through || !contains(candidate.fingering, line)) return candidate;
    return as_candidate(pupil_.instrument, pupil_.derivation, pitch, line).value_or(candidate);
  }

  void find_fresh() {
    std::map<std::pair<WrittenPitch, Fingering>, std::size_t> places;
    const auto offer = [&](std::size_t i, WrittenPitch pitch, const Shared<Candidate>& candidate) {
      if (!candidate || plays(pupil_.player, pupil_.instrument, pitch, candidate->fingering)) return;
      const Candidate told = to_learn(pitch, *candidate);
      const auto [entry, is_new] = places.try_emplace({pitch, told.fingering}, lesson_.fresh.size());
      if (is_new) {
        lesson_.fresh.push_back({.pitch = pitch, .candidate = told, .notes = {}, .saves = {}, .ceiling = {}});
        lesson_.fresh.back().needed = pupil_.derivation.of(pitch).empty();
      }
      lesson_.fresh[entry->second].notes.push_back(i);
    };
    for (std::size_t i = 0; i < passage_.notes.size(); ++i) {
      const PlannedNote& note = lesson_.open.notes[i];
      offer(i, passage_.notes[i].pitch, note.candidate);
      if (note.other) offer(i, written(*passage_.notes[i].other), note.other);
    }
  }

  /// What each helpful fingering would save, beside the pupil who has learned what is needed and no more.
  void try_out() {
    Player base = pupil_.player;
    bool any_needed = false;
    for (const NewFingering& fresh : lesson_.fresh) {
      if (fresh.needed) learn(base, fresh.pitch, fresh.candidate.fingering);
      any_needed = any_needed || fresh.needed;
    }
    std::ranges::stable_sort(lesson_.fresh, std::greater{},
                             [](const NewFingering& f) { return std::pair(f.needed, f.notes.size()); });
    std::optional<Weight> before;
    std::size_t tried = 0;
    for (NewFingering& fresh : lesson_.fresh) {
      if (fresh.needed || tried++ >= most_tried) continue;
      if (!before) before = any_needed ? planned(base).weight : lesson_.plan.summary.weight;
      Player after = base;
      learn(after, fresh.pitch, fresh.candidate.fingering);
      const PlanSummary summary = planned(after);
      fresh.saves = Points(static_cast<double>(*before - summary.weight) / 1e6);
      fresh.ceiling = summary.ceiling;
    }
    std::ranges::stable_sort(lesson_.fresh, std::greater{},
                             [](const NewFingering& f) { return std::pair(f.needed, f.saves.value_or(Points(0))); });
  }

  [[nodiscard]] PlanSummary planned(const Player& player) const {
    return plan_passage(played(pupil_.instrument, numbers_, player), passage_, {}).front().summary;
  }

  const Played& pupil_;
  const MotionNumbers& numbers_;
  const Passage& passage_;
  Played open_;
  Derivation anyone_;
  Lesson lesson_;
};

}  // namespace

bool Lesson::playable() const {
  const bool all_there =
      std::ranges::all_of(missing, [](const MissingNote& m) { return m.why == Missing::not_learned; });
  return all_there && trills_out_of_reach.empty() && too_fast.empty();
}

Lesson lesson(const Played& pupil, const MotionNumbers& numbers, const Passage& passage) {
  return LessonWork(pupil, numbers, passage).work_out();
}

}  // namespace fingerway
