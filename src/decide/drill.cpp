#include "fingerway/decide/drill.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace fingerway {
namespace {

const ScoreTime sixteenth(1, 4);
const ScoreTime eighth(1, 2);
const ScoreTime dotted_eighth(3, 4);
const ScoreTime quarter(1);
const ScoreTime half(2);
const ScoreTime bar(4);

/// Shares of the top tempo, slow to target.
constexpr double steps[] = {0.5, 0.65, 0.8, 1.0};
/// With sixteenths for the quick note the change goes at the top tempo when the beat goes at half of it.
constexpr double rhythm_share = 0.5;
constexpr double added_share = 0.8;
constexpr std::size_t longest_run = 6;
constexpr double slowest_tempo = 10.0;

/// An eighth lasts so long at this many quarters a minute.
Qpm tempo_of_eighth(Ms length) { return Qpm(30'000.0 / length.count()); }

/// Metronomes have whole numbers; a limit must not be rounded up.
Qpm whole(Qpm tempo) { return Qpm(std::max(slowest_tempo, std::floor(tempo.value() + 1e-9))); }

class DrillWriter {
 public:
  DrillWriter(const Played& played, const Passage& passage, const Plan& plan)
      : played_(played), passage_(passage), plan_(plan) {
    drill_.passage.title = passage.title;
    drill_.passage.part_id = "P1";
    drill_.passage.part_name = played.instrument.name;
    drill_.passage.voice = "1";
    drill_.passage.transposition = played.instrument.transposition;
  }

  Drill write(std::size_t hardest) {
    for (std::size_t note : hardest_changes(hardest)) add_exercise(note);
    if (!tempos_.empty()) drill_.passage.tempo = TempoMap(tempos_);
    return std::move(drill_);
  }

 private:
  [[nodiscard]] std::vector<std::size_t> hardest_changes(std::size_t most) const {
    std::vector<std::size_t> order;
    for (std::size_t i = 1; i < plan_.notes.size(); ++i) {
      const auto& arrive = plan_.notes[i].arrive;
      if (arrive && arrive->step.possible && arrive->step.movers > 0 && arrive->context.available > Ms(0)) {
        order.push_back(i);
      }
    }
    std::ranges::stable_sort(order, std::greater{}, [&](std::size_t i) { return plan_.notes[i].arrive->load(); });
    std::set<std::set<Fingering>> seen;
    std::erase_if(order, [&](std::size_t i) { return !seen.insert({leaving(i).fingering, arriving(i)}).second; });
    if (order.size() > most) order.resize(most);
    return order;
  }

  /// What the note before `i` ends on.
  struct Leaving {
    Spelling spelling;
    Fingering fingering;
  };
  [[nodiscard]] Leaving leaving(std::size_t i) const {
    const NoteEvent& before = passage_.notes[i - 1];
    const PlannedNote& planned = plan_.notes[i - 1];
    if (before.kind == NoteKind::tremolo && planned.other) return {*before.other, planned.other->fingering};
    return {before.spelling, planned.candidate->fingering};
  }
  [[nodiscard]] const Fingering& arriving(std::size_t i) const { return plan_.notes[i].candidate->fingering; }

  /// The longer of the ways there and back, without a rest to hide in.
  [[nodiscard]] Ms slower_way(std::size_t i) const {
    const Arrival& arrive = *plan_.notes[i].arrive;
    Ms slowest = arrive.step.time;
    if (passage_.notes[i - 1].kind == NoteKind::tremolo) return slowest;
    StepContext context = arrive.context;
    context.silence = Ms(0);
    const Posture& a = plan_.notes[i - 1].posture;
    const Posture& b = plan_.notes[i].posture;
    for (const Step& step : {step(played_.hand, a, b, context), step(played_.hand, b, a, context)}) {
      if (step.possible) slowest = std::max(slowest, step.time);
    }
    return slowest;
  }

  void add_exercise(std::size_t i) {
    const Arrival& arrive = *plan_.notes[i].arrive;
    Exercise exercise{.note = i,
                      .target = tempo_of_eighth(arrive.context.available),
                      .limit = tempo_of_eighth(slower_way(i)),
                      .top = {}};
    exercise.top = std::min(exercise.target, exercise.limit);
    drill_.exercises.push_back(exercise);
    now_ = i;
    key_ = passage_.measures.empty() ? 0 : passage_.measures[passage_.notes[i].place.measure].key_fifths;
    slurred_ = arrive.context.tongued ? Attack::tongued : Attack::slurred;
    for (double share : steps) {
      stretch(DrillKind::steps, exercise.top * share);
      alternate({eighth, eighth});
    }
    stretch(DrillKind::long_short, exercise.top * rhythm_share);
    alternate({dotted_eighth, sixteenth});
    stretch(DrillKind::short_long, exercise.top * rhythm_share);
    alternate({sixteenth, dotted_eighth});
    add_surroundings(exercise.top * added_share);
  }

  void stretch(DrillKind kind, Qpm tempo) {
    const Qpm rounded = whole(tempo);
    drill_.stretches.push_back({.kind = kind,
                                .exercise = drill_.exercises.size() - 1,
                                .first_bar = drill_.passage.measures.size(),
                                .bars = 0,
                                .tempo = rounded});
    tempos_.push_back({.at = now(), .tempo = rounded, .source = TempoSource::metronome_mark});
  }

  /// A bar of the two notes in turn, then the first one held and a rest as long.
  void alternate(std::pair<ScoreTime, ScoreTime> lengths) {
    const std::size_t i = now_;
    open_bar();
    for (int beat = 0; left_in_bar() > ScoreTime(); ++beat) {
      add(i - 1, lengths.first, beat == 0 ? Attack::tongued : slurred_);
      add(i, lengths.second, slurred_);
    }
    open_bar();
    add(i - 1, half, slurred_);
  }

  /// The change alone, then with a note after it, one before it, and so on, each twice, with a rest after each.
  void add_surroundings(Qpm tempo) {
    const std::size_t i = now_;
    std::vector<std::pair<std::size_t, std::size_t>> runs = {{i - 1, i}};
    const auto playable = [&](std::size_t n) { return plan_.notes[n].candidate.has_value(); };
    bool after = true;
    for (int refused = 0; refused < 2 && runs.back().second - runs.back().first + 1 < longest_run; after = !after) {
      auto [first, last] = runs.back();
      const bool room = after ? last + 1 < plan_.notes.size() && playable(last + 1) : first > 0 && playable(first - 1);
      refused = room ? 0 : refused + 1;
      if (!room) continue;
      (after ? last : first) += after ? std::size_t{1} : static_cast<std::size_t>(-1);
      runs.emplace_back(first, last);
    }
    // Eighths may be quicker than the passage has these notes.
    Qpm slowest = tempo;
    for (std::size_t n = runs.back().first + 1; n <= runs.back().second; ++n) {
      const auto& arrive = plan_.notes[n].arrive;
      if (arrive && arrive->step.time > Ms(0)) slowest = std::min(slowest, tempo_of_eighth(arrive->step.time));
    }
    stretch(DrillKind::added, slowest);
    for (const auto& [first, last] : runs) {
      for (int time = 0; time < 2; ++time) {
        open_bar();
        for (std::size_t n = first; n <= last; ++n) {
          const bool tongued = n == first || passage_.notes[n].attack == Attack::tongued;
          add(n, n == last ? quarter : eighth, tongued ? Attack::tongued : Attack::slurred);
        }
      }
    }
  }

  [[nodiscard]] ScoreTime now() const {
    return bar * ScoreTime(static_cast<std::int64_t>(drill_.passage.measures.size()));
  }
  [[nodiscard]] ScoreTime left_in_bar() const { return drill_.passage.measures.back().start + bar - at_; }

  void open_bar() {
    Measure measure;
    measure.start = now();
    at_ = measure.start;
    measure.length = bar;
    measure.key_fifths = key_;
    measure.name = std::to_string(drill_.passage.measures.size() + 1);
    drill_.passage.measures.push_back(measure);
    ++drill_.stretches.back().bars;
  }

  void add(std::size_t source, ScoreTime length, Attack attack) {
    const PlannedNote& planned = plan_.notes[source];
    const bool ends_on_second = source + 1 == now_ && passage_.notes[source].kind == NoteKind::tremolo && planned.other;
    NoteEvent note;
    note.spelling = ends_on_second ? *passage_.notes[source].other : passage_.notes[source].spelling;
    note.pitch = written(note.spelling);
    note.onset = at_;
    note.length = length;
    note.attack = attack;
    note.place.measure = static_cast<std::uint32_t>(drill_.passage.measures.size() - 1);
    at_ += length;
    PlannedNote fingered;
    fingered.candidate = ends_on_second ? planned.other : planned.candidate;
    fingered.posture = planned.posture;
    fingered.choices = planned.choices;
    drill_.passage.notes.push_back(std::move(note));
    drill_.plan.notes.push_back(std::move(fingered));
    drill_.source.push_back(source);
  }

  const Played& played_;
  const Passage& passage_;
  const Plan& plan_;
  Drill drill_;
  std::vector<TempoChange> tempos_;
  std::size_t now_ = 0;
  int key_ = 0;
  Attack slurred_ = Attack::slurred;
  ScoreTime at_;
};

}  // namespace

Drill drill(const Played& played, const Passage& passage, const Plan& plan, std::size_t hardest) {
  return DrillWriter(played, passage, plan).write(hardest);
}

}  // namespace fingerway
