#include "admit.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace fingerway {
namespace {

/// Touches the player wants down on a note: they need no other reason to be held.
TouchSet asked_for(const Choices& choices, const AdmitNote& entry) {
  TouchSet touches;
  if (!entry.bound) return touches;
  for (const Pin& pin : choices.pins) {
    if (pin.note == entry.note) touches |= pin.fingering.pressed;
  }
  for (const HeldTouch& hold : choices.holds) {
    if (hold.first <= entry.note && entry.note <= hold.last) touches |= hold.touches;
  }
  return touches;
}

class Admission {
 public:
  Admission(const Played& played, const std::vector<AdmitNote>& notes, const Choices& choices)
      : played_(played), notes_(notes), choices_(choices) {
    lean_.resize(notes.size());
    used_.resize(notes.size());
    for (std::size_t i = 0; i < notes.size(); ++i) {
      for (const Candidate& c : played.derivation.of(notes[i].pitch)) {
        // The player's choices take fingerings away from their notes, but what the neighbours may hold stays the same:
        // a choice must never open a way that was shut before it.
        add_use(c, used_[i]);
        if (permitted(i, c)) lean_[i].push_back(c);
      }
    }
    std::vector<std::size_t> odd;
    for (std::size_t i = 0; i < notes.size(); ++i) {
      if (add_odd_pin(i)) odd.push_back(i);
    }
    for (std::size_t i : odd) add_use(lean_[i].back(), used_[i]);
  }

  std::vector<Candidate> at(std::size_t i) {
    std::vector<Candidate> admitted = lean_[i];
    HandMask wanted = wanted_at(i);
    add_held(i, wanted, most_held_fingers, admitted);
    // What the player asks for is looked for among what there is anyway: a choice only takes away. A touch that the
    // passage has no use for is admitted where the note could not be played as asked without it.
    if (!admitted.empty()) return admitted;
    const int asked = want_asked(i, wanted);
    if (asked > 0) add_held(i, wanted, most_held_fingers + asked, admitted);
    return admitted;
  }

 private:
  static void add_use(const Candidate& c, HandMask& used) {
    for (std::size_t f = 0; f < finger_count; ++f) used[f] |= HoldMask{1} << c.hold[f];
  }

  [[nodiscard]] bool permitted(std::size_t i, const Candidate& c) const {
    return (!notes_[i].bound || allowed(choices_, notes_[i].note, c.fingering)) &&
           plays(played_.player, played_.instrument, notes_[i].pitch, c.fingering);
  }

  void add_held(std::size_t i, const HandMask& wanted, int most, std::vector<Candidate>& admitted) {
    for (const Candidate& c : held(notes_[i].pitch, wanted, most)) {
      if (permitted(i, c) && std::ranges::find(admitted, c) == admitted.end()) admitted.push_back(c);
    }
  }

  /// A pinned fingering is admitted however odd, as long as it sounds the note. Where the passage has no use for it by
  /// itself the neighbours may hold what it holds, or it would be judged worse than it is.
  bool add_odd_pin(std::size_t i) {
    if (!notes_[i].bound) return false;
    for (const Pin& pin : choices_.pins) {
      if (pin.note != notes_[i].note || !pin.whole) continue;
      const auto c = as_candidate(played_.instrument, played_.derivation, notes_[i].pitch, pin.fingering);
      if (!c || !permitted(i, *c)) continue;
      const auto same = [&](const Candidate& other) { return other.fingering == c->fingering; };
      const auto& ways = held(notes_[i].pitch, wanted_at(i), most_held_fingers);
      if (std::ranges::any_of(lean_[i], same) || std::ranges::any_of(ways, same)) continue;
      lean_[i].push_back(*c);
      return true;
    }
    return false;
  }

  /// Adds every hold with a touch the player asks for; returns how many fingers that concerns.
  int want_asked(std::size_t i, HandMask& wanted) const {
    const TouchSet asked = asked_for(choices_, notes_[i]);
    int fingers = 0;
    for (Finger finger : all_fingers) {
      const TouchSet own = held_by(played_.instrument, asked, finger);
      if (own.empty()) continue;
      ++fingers;
      const auto& holds = played_.derivation.holds[index(finger)];
      for (std::size_t h = 0; h < holds.size(); ++h) {
        if (holds[h].touches.contains_all(own)) wanted[index(finger)] |= HoldMask{1} << h;
      }
    }
    return fingers;
  }

  const std::vector<Candidate>& held(WrittenPitch pitch, const HandMask& wanted, int most) {
    const auto [entry, is_new] = held_.try_emplace({pitch, wanted, most});
    if (is_new) entry->second = held_through(played_.instrument, played_.derivation, pitch, wanted, most);
    return entry->second;
  }

  /// Holds that a note itself or its neighbourhood has a use for.
  [[nodiscard]] HandMask wanted_at(std::size_t i) const {
    HandMask before{};
    HandMask after{};
    HandMask wanted = used_[i];
    std::size_t first = i;
    while (first > 0 && distance(i, first - 1) <= hold_reach) --first;
    for (std::size_t j = first; j < notes_.size() && (j <= i || distance(i, j) <= hold_reach); ++j) {
      HandMask& side = distance(i, j) <= 1 ? wanted : j < i ? before : after;
      for (std::size_t f = 0; f < finger_count; ++f) side[f] |= used_[j][f];
      if (distance(i, j) != 1) continue;
      for (std::size_t f = 0; f < finger_count; ++f) (j < i ? before : after)[f] |= used_[j][f];
    }
    // Before the first note and after the last the hand is free to be ready, or to stay.
    const bool starts = distance(i, 0) < hold_reach;
    const bool ends = distance(i, notes_.size() - 1) < hold_reach;
    for (std::size_t f = 0; f < finger_count; ++f) {
      if (starts) wanted[f] |= after[f];
      if (ends) wanted[f] |= before[f];
      wanted[f] |= before[f] & after[f];
      wanted[f] |= joined_holds(f, used_[i][f], wanted[f]);
    }
    return wanted;
  }

  /// Grips that join what a finger holds on this note with what it holds on one nearby: it rolls from the one to the
  /// other instead of letting go.
  [[nodiscard]] HoldMask joined_holds(std::size_t f, HoldMask here, HoldMask nearby) const {
    const auto& holds = played_.derivation.holds[f];
    HoldMask joined = 0;
    for (std::size_t h = 0; h < holds.size(); ++h) {
      if (holds[h].touches.size() < 2 || !holds[h].half.empty()) continue;
      for (std::size_t a = 1; a < holds.size(); ++a) {
        if ((here >> a & 1U) == 0 || !holds[h].touches.contains_all(holds[a].touches)) continue;
        const TouchSet missing = holds[h].touches - holds[a].touches;
        for (std::size_t b = 1; b < holds.size() && !missing.empty(); ++b) {
          const bool joins = (nearby >> b & 1U) != 0 && holds[b].touches.contains_all(missing) &&
                             holds[h].touches.contains_all(holds[b].touches);
          if (joins) joined |= HoldMask{1} << h;
        }
      }
    }
    return joined;
  }

  /// In notes; the two pitches of a trill are none apart.
  [[nodiscard]] std::size_t distance(std::size_t i, std::size_t j) const {
    const std::size_t a = notes_[i].note;
    const std::size_t b = notes_[j].note;
    return a > b ? a - b : b - a;
  }

  const Played& played_;
  const std::vector<AdmitNote>& notes_;
  const Choices& choices_;
  std::vector<std::vector<Candidate>> lean_;
  std::vector<HandMask> used_;  ///< holds that lean fingerings of each entry use
  std::map<std::tuple<WrittenPitch, HandMask, int>, std::vector<Candidate>> held_;
};

}  // namespace

std::vector<std::vector<Candidate>> admit(const Played& played, const std::vector<AdmitNote>& notes,
                                          const Choices& choices) {
  Admission admission(played, notes, choices);
  std::vector<std::vector<Candidate>> admitted(notes.size());
  for (std::size_t i = 0; i < notes.size(); ++i) admitted[i] = admission.at(i);
  return admitted;
}

}  // namespace fingerway
