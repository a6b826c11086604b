#include "moments.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "words.hpp"

namespace fingerway {
namespace {

Ms own_time(const FingerMove& m, bool back_and_forth) {
  return std::max(back_and_forth ? m.move.busy_again : m.move.busy, m.move.travel);
}

bool out_of_reach(const Played& played, const PlannedNote& note) {
  return note.rate && verdict(played.hand.numbers(), *note.rate) == Verdict::out_of_reach;
}

std::string trill_fault(const PlannedNote& note, const NoteEvent& event) {
  const std::string what = event.kind == NoteKind::tremolo ? "tremolo" : "trill";
  if (note.rate->value() <= 0.0) return what + " out of reach of any hand";
  return what + " out of reach: " + rounded(note.rate->value(), 1) + " notes a second";
}

bool doubtful_line(const Instrument& instrument, const Shared<Candidate>& candidate) {
  if (!candidate) return false;
  const TableFingering& line = instrument.table[candidate->line];
  return doubtful(line.evidence.confidence) || !line.confirmed_whole;
}

/// Names of assumed numbers that decide how long a move of this kind takes.
std::vector<const Number*> numbers_behind(const MotionNumbers& n, const FingerMove& m) {
  if (m.move.kind == MoveKind::slide) return {&n.slide_friction};
  if (m.move.kind == MoveKind::roll || m.move.kind == MoveKind::shift) return {&n.roll_share, &n.roll_per_touch};
  return {};
}

std::string plain_number(const Number& number) {
  const int decimals = std::abs(number.value - std::round(number.value)) < 1e-9 ? 0 : 2;
  std::string text = rounded(number.value, decimals);
  if (number.unit == "ratio") return percent(number.value);
  if (!number.unit.empty()) text += " " + number.unit;
  return text;
}

void assumed_numbers(const Played& played, const Plan& plan, std::vector<std::string>& all) {
  const MotionNumbers& n = played.hand.numbers();
  std::vector<const Number*> used;
  for (const PlannedNote& note : plan.notes) {
    if (!note.arrive) continue;
    for (const FingerMove& m : moves_into(played, *note.arrive)) {
      for (const Number* number : numbers_behind(n, m)) {
        if (number->basis == Basis::assumed && std::ranges::find(used, number) == used.end()) used.push_back(number);
      }
    }
  }
  MotionNumbers copy = n;
  std::size_t total = 0;
  std::size_t guessed = 0;
  for (const NamedNumber& named : named_numbers(copy)) {
    ++total;
    if (named.number->basis == Basis::assumed) ++guessed;
  }
  if (guessed == 0) return;
  std::string text = rounded(static_cast<double>(guessed), 0) + " of " + counted(total, "number", "numbers") +
                     " of the motion model are assumed, not measured";
  std::vector<std::string> named;
  for (const Number* number : used) {
    if (number == &n.slide_friction) named.push_back("a slide without roller takes " + plain_number(*number) + " more");
    if (number == &n.roll_share) named.push_back("a roll takes " + plain_number(*number) + " of a press");
    if (number == &n.roll_per_touch) named.push_back("each touch rolled takes " + plain_number(*number) + " more");
  }
  all.push_back(named.empty() ? text : text + "; here these decide times: " + listed(named));
}

/// Equal for changes that are practised as one: the same keys in the same time, however the notes are spelled.
std::string same_change(const Played& played, const Passage& passage, const Plan& plan, std::size_t note) {
  const Arrival& arrive = *plan.notes[note].arrive;
  std::string text = std::to_string(passage.notes[note - 1].pitch.key) + " " +
                     std::to_string(passage.notes[note].pitch.key) + " " + needs_words(arrive);
  for (const FingerMove& m : moves_into(played, arrive)) text += " " + move_words(played.instrument, m);
  return text;
}

TouchSet touches_used(const Plan& plan) {
  TouchSet used;
  for (const PlannedNote& note : plan.notes) {
    if (note.candidate) used |= note.candidate->fingering.pressed | note.candidate->fingering.flicked;
    if (note.other) used |= note.other->fingering.pressed | note.other->fingering.flicked;
  }
  return used;
}

}  // namespace

const FingerMove* deciding_move(const std::vector<FingerMove>& moves, const Arrival& arrival) {
  if (moves.empty()) return nullptr;
  return &*std::ranges::max_element(moves, {},
                                    [&](const FingerMove& m) { return own_time(m, arrival.context.back_and_forth); });
}

std::string needs_words(const Arrival& arrival) {
  const Ms needs = arrival.step.time;
  const Ms has = arrival.context.available;
  // Where whole milliseconds would hide which of the two is longer, a decimal tells.
  const int decimals = !fits(arrival) && rounded(needs.count(), 0) == rounded(has.count(), 0) ? 1 : 0;
  return "needs " + rounded(needs.count(), decimals) + " ms, " + rounded(has.count(), decimals) + " ms are there";
}

bool fits(const Arrival& arrival) { return arrival.step.possible && arrival.load() <= 1.0; }

std::string place_words(const Passage& passage, std::size_t note) {
  const NoteEvent& event = passage.notes[note];
  return "bar " + passage.measures[event.place.measure].name + ", beat " + beat_name(passage, event);
}

std::string change_words(const Played& played, const Passage& passage, const Plan& plan, std::size_t note) {
  const Arrival& arrive = *plan.notes[note].arrive;
  std::string text =
      display_name(passage.notes[note - 1].spelling) + " → " + display_name(passage.notes[note].spelling) + ": ";
  const std::vector<FingerMove> moves = moves_into(played, arrive);
  const FingerMove* slowest = deciding_move(moves, arrive);
  text += slowest == nullptr ? "no finger moves" : move_words(played.instrument, *slowest);
  const auto others = static_cast<std::size_t>(std::ranges::count_if(
      moves, [&](const FingerMove& m) { return &m != slowest && m.move.direction != Direction::none; }));
  if (others > 0) text += ", " + counted(others, "more finger moves", "more fingers move");
  if (!arrive.context.tongued) text += ", under a slur";
  if (!arrive.step.possible) return text + "; no hand can do this";
  if (slowest == nullptr) return text;
  return text + "; " + needs_words(arrive);
}

std::vector<Moment> hardest_moments(const Played& played, const Passage& passage, const Plan& plan, std::size_t most) {
  std::vector<Moment> moments;
  for (std::size_t i = 0; i < plan.notes.size() && moments.size() < most; ++i) {
    if (!out_of_reach(played, plan.notes[i])) continue;
    const std::string what =
        display_name(passage.notes[i].spelling) + ": " + trill_fault(plan.notes[i], passage.notes[i]);
    moments.push_back({.note = i, .where = place_words(passage, i), .what = what, .fits = false});
  }
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < plan.notes.size(); ++i) {
    const auto& arrive = plan.notes[i].arrive;
    if (arrive && (!arrive->step.possible || arrive->load() > 0.0)) order.push_back(i);
  }
  std::ranges::stable_sort(order, std::greater{}, [&](std::size_t i) {
    const Arrival& arrive = *plan.notes[i].arrive;
    return arrive.step.possible ? arrive.load() : INFINITY;
  });
  // The same change comes back often; once is enough to practise it, so its later places are only counted.
  std::vector<std::string> told;
  for (std::size_t i : order) {
    if (moments.size() >= most) break;
    const std::string what = change_words(played, passage, plan, i);
    if (std::ranges::find(told, same_change(played, passage, plan, i)) != told.end()) continue;
    told.push_back(same_change(played, passage, plan, i));
    moments.push_back({.note = i, .where = place_words(passage, i), .what = what, .fits = fits(*plan.notes[i].arrive)});
    std::vector<std::string> again;
    for (std::size_t j : order) {
      if (j != i && same_change(played, passage, plan, j) == told.back()) again.push_back(place_words(passage, j));
    }
    if (again.size() == 1) moments.back().what += " (again at " + again.front() + ")";
    if (again.size() > 1) moments.back().what += " (and " + counted(again.size(), "more time", "more times") + ")";
  }
  return moments;
}

std::vector<std::string> warnings_of(const Played& played, const Passage& passage, const Plan& plan, std::size_t note) {
  std::vector<std::string> all;
  const PlannedNote& planned = plan.notes[note];
  const NoteEvent& event = passage.notes[note];
  if (!planned.candidate) {
    all.push_back("no fingering for " + display_name(event.spelling) + " here");
    return all;
  }
  if (event.kind != NoteKind::plain && !planned.other) all.push_back("no pair of fingerings for the second note");
  if (out_of_reach(played, planned)) all.push_back(trill_fault(planned, event));
  if (planned.arrive && !planned.arrive->step.possible) {
    all.push_back("does not fit: no hand can get here from the note before");
  } else if (planned.arrive && !fits(*planned.arrive)) {
    all.push_back("does not fit: " + needs_words(*planned.arrive));
  }
  if (doubtful_line(played.instrument, planned.candidate) || doubtful_line(played.instrument, planned.other)) {
    all.emplace_back("doubtful source for this fingering");
  }
  return all;
}

std::vector<std::string> assumptions(const Played& played, const Passage& passage, const Plan& plan) {
  std::vector<std::string> all;
  const Instrument& instrument = played.instrument;
  if (passage.tempo.changes().empty() || passage.tempo.changes().front().source == TempoSource::assumed) {
    all.push_back("the score states no tempo: " + rounded(passage.tempo.tempo_at(ScoreTime()).value(), 0) +
                  " quarter notes a minute is assumed");
  }
  if (passage.transposition != instrument.transposition) {
    all.emplace_back("score and instrument transpose differently: notes are fingered as written");
  }
  const TouchSet used = touches_used(plan);
  std::size_t unmeasured = 0;
  for (TouchId touch : used) {
    if (!instrument.touches[touch.index].spot_measured) ++unmeasured;
  }
  if (unmeasured > 0) {
    const auto count = static_cast<std::size_t>(used.size());
    const std::string which = unmeasured == count ? "all " : std::to_string(unmeasured) + " of the ";
    all.push_back("places of " + which + counted(count, "touch", "touches") +
                  " used here are assumed, not measured on an instrument");
  }
  assumed_numbers(played, plan, all);
  std::vector<std::string> doubted;
  for (std::size_t i = 0; i < plan.notes.size(); ++i) {
    if (!doubtful_line(instrument, plan.notes[i].candidate) && !doubtful_line(instrument, plan.notes[i].other))
      continue;
    const std::string name = display_name(passage.notes[i].spelling);
    if (std::ranges::find(doubted, name) == doubted.end()) doubted.push_back(name);
  }
  if (!doubted.empty()) all.push_back("fingerings from a doubtful source: " + listed(doubted));
  return all;
}

}  // namespace fingerway
