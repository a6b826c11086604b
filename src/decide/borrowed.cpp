#include "fingerway/decide/borrowed.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace fingerway {
namespace {

/// A fingering in the touches of another instrument, and what it lacks there.
struct Moved {
  Fingering fingering;
  TouchSet missing;
};

Moved moved(const Instrument& from, const Instrument& to, const Fingering& fingering) {
  Moved result;
  const auto carry = [&](TouchSet touches, TouchSet& into) {
    for (TouchId touch : touches) {
      const auto there = find_touch(to, full_name(from.touches[touch.index]));
      if (there && !to.touches[there->index].removed) {
        into.insert(*there);
      } else {
        result.missing.insert(touch);
      }
    }
  };
  carry(fingering.pressed, result.fingering.pressed);
  carry(fingering.half, result.fingering.half);
  carry(fingering.flicked, result.fingering.flicked);
  return result;
}

class Borrowing {
 public:
  Borrowing(const Played& own, const Played& borrowed, const Passage& passage)
      : own_(own), borrowed_(borrowed), passage_(passage) {}

  Borrowed work_out() {
    result_.own = plan_passage(own_, passage_, {}).front();
    PlanRequest request;
    for (std::size_t i = 0; i < passage_.notes.size(); ++i) {
      if (!result_.own.notes[i].candidate) continue;
      ++result_.habits;
      const Moved habit = moved(own_.instrument, borrowed_.instrument, result_.own.notes[i].candidate->fingering);
      if (works(passage_.notes[i].pitch, habit)) {
        request.choices.pins.push_back({.note = i, .fingering = habit.fingering, .whole = true});
      }
    }
    result_.plan = plan_passage(borrowed_, passage_, request).front();
    for (std::size_t i = 0; i < passage_.notes.size(); ++i) tell(i);
    return std::move(result_);
  }

 private:
  [[nodiscard]] bool works(WrittenPitch pitch, const Moved& habit) const {
    return habit.missing.empty() && plays(borrowed_.player, borrowed_.instrument, pitch, habit.fingering) &&
           as_candidate(borrowed_.instrument, borrowed_.derivation, pitch, habit.fingering).has_value();
  }

  void tell(std::size_t i) {
    const NoteEvent& note = passage_.notes[i];
    const PlannedNote& own = result_.own.notes[i];
    const PlannedNote& here = result_.plan.notes[i];
    bool fails = false;
    if (own.candidate) fails = tell(i, note.pitch, own.candidate->fingering, here.candidate);
    if (own.other) fails = tell(i, written(*note.other), own.other->fingering, here.other) || fails;
    if (fails) ++result_.failing_notes;
  }

  /// True where the habit fails.
  bool tell(std::size_t i, WrittenPitch pitch, const Fingering& habit, const Shared<Candidate>& instead) {
    const Moved there = moved(own_.instrument, borrowed_.instrument, habit);
    if (works(pitch, there)) return false;
    const auto [entry, is_new] = places_.try_emplace({pitch, habit}, result_.failing.size());
    if (is_new) {
      const CarriedFingering answer = carried(borrowed_, pitch, there.fingering);
      FailingHabit failing{.pitch = pitch,
                           .habit = habit,
                           .result = answer.result,
                           .sounds = answer.sounds,
                           .missing = there.missing,
                           .notes = {},
                           .instead = {}};
      if (failing.result == CarriedResult::same_note) failing.result = CarriedResult::ruled_out;
      if (!there.missing.empty()) failing.result = CarriedResult::key_missing;
      result_.failing.push_back(std::move(failing));
    }
    FailingHabit& failing = result_.failing[entry->second];
    failing.notes.push_back(i);
    const auto same = [&](const Candidate& c) { return c.fingering == instead->fingering; };
    if (instead && std::ranges::none_of(failing.instead, same)) failing.instead.push_back(*instead);
    return true;
  }

  const Played& own_;
  const Played& borrowed_;
  const Passage& passage_;
  Borrowed result_;
  std::map<std::pair<WrittenPitch, Fingering>, std::size_t> places_;
};

}  // namespace

Borrowed borrow(const Played& own, const Played& borrowed, const Passage& passage) {
  return Borrowing(own, borrowed, passage).work_out();
}

}  // namespace fingerway
