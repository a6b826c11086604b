#include "admit.hpp"

#include <algorithm>

namespace fingerway {
namespace {

/// The choices that speak of one note, as of a note 0.
Choices choices_for(const Choices& choices, std::size_t note) {
  Choices own;
  for (Pin pin : choices.pins) {
    if (pin.note != note) continue;
    pin.note = 0;
    own.pins.push_back(pin);
  }
  const auto within = [&](const auto& stretch) { return stretch.first <= note && note <= stretch.last; };
  for (const Ban& ban : choices.bans) {
    if (within(ban)) own.bans.push_back({.first = 0, .last = 0, .touches = ban.touches});
  }
  for (const HeldTouch& hold : choices.holds) {
    if (within(hold)) own.holds.push_back({.first = 0, .last = 0, .touches = hold.touches});
  }
  return own;
}

void add_use(const Candidate& c, HandMask& used) {
  for (std::size_t f = 0; f < finger_count; ++f) used[f] |= HoldMask{1} << c.hold[f];
}

/// In notes; the two pitches of a trill are none apart.
std::size_t distance(const std::vector<AdmitNote>& notes, std::size_t i, std::size_t j) {
  const std::size_t a = notes[i].note;
  const std::size_t b = notes[j].note;
  return a > b ? a - b : b - a;
}

}  // namespace

std::vector<Want> Admission::wants(const std::vector<AdmitNote>& notes, const Choices& choices) {
  std::vector<Want> wants(notes.size());
  std::vector<HandMask> used(notes.size());
  for (std::size_t i = 0; i < notes.size(); ++i) {
    wants[i].pitch = notes[i].pitch;
    if (notes[i].bound && !choices.empty()) wants[i].choices = choices_for(choices, notes[i].note);
    // The player's choices take fingerings away from their notes, but what the neighbours may hold stays the same: a
    // choice must never open a way that was shut before it.
    used[i] = lean_use(notes[i].pitch);
    for (const Pin& pin : wants[i].choices.pins) {
      if (const auto candidate = pinned(wants[i], pin)) add_use(*candidate, used[i]);
    }
  }
  for (std::size_t i = 0; i < notes.size(); ++i) {
    wants[i].holds = wanted_at(notes, used, i);
    if (!wants[i].choices.empty()) want_asked(wants[i]);
  }
  return wants;
}

std::vector<Candidate> Admission::meeting(const Want& want) {
  std::vector<Candidate> admitted;
  const auto offer = [&](const Candidate& c) {
    if (permitted(want, c.fingering) && std::ranges::find(admitted, c) == admitted.end()) admitted.push_back(c);
  };
  for (const Candidate& c : played_.derivation.of(want.pitch)) offer(c);
  for (const Pin& pin : want.choices.pins) {
    if (const auto candidate = pinned(want, pin)) offer(*candidate);
  }
  for (const Candidate& c :
       held_through(played_.instrument, played_.derivation, want.pitch, want.holds, want.most_held)) {
    offer(c);
  }
  return admitted;
}

HandMask Admission::lean_use(WrittenPitch pitch) {
  const auto [entry, is_new] = lean_use_.try_emplace(pitch);
  if (is_new) {
    for (const Candidate& c : played_.derivation.of(pitch)) add_use(c, entry->second);
  }
  return entry->second;
}

bool Admission::permitted(const Want& want, const Fingering& fingering) const {
  return allowed(want.choices, 0, fingering) && plays(played_.player, played_.instrument, want.pitch, fingering);
}

/// A pinned fingering is admitted however odd, as long as it sounds the note.
std::optional<Candidate> Admission::pinned(const Want& want, const Pin& pin) const {
  if (!pin.whole) return std::nullopt;
  auto candidate = as_candidate(played_.instrument, played_.derivation, want.pitch, pin.fingering);
  if (candidate && !permitted(want, candidate->fingering)) candidate.reset();
  return candidate;
}

/// Adds every hold with a touch the player wants down: it needs no other reason to be held.
void Admission::want_asked(Want& want) const {
  TouchSet asked;
  for (const Pin& pin : want.choices.pins) asked |= pin.fingering.pressed;
  for (const HeldTouch& hold : want.choices.holds) asked |= hold.touches;
  for (Finger finger : all_fingers) {
    const TouchSet own = held_by(played_.instrument, asked, finger);
    if (own.empty()) continue;
    ++want.most_held;
    const auto& holds = played_.derivation.holds[index(finger)];
    for (std::size_t h = 0; h < holds.size(); ++h) {
      if (holds[h].touches.contains_all(own)) want.holds[index(finger)] |= HoldMask{1} << h;
    }
  }
}

/// Holds that a note itself or its neighbourhood has a use for.
HandMask Admission::wanted_at(const std::vector<AdmitNote>& notes, const std::vector<HandMask>& used, std::size_t i) {
  HandMask before{};
  HandMask after{};
  HandMask wanted = used[i];
  std::size_t first = i;
  while (first > 0 && distance(notes, i, first - 1) <= hold_reach) --first;
  for (std::size_t j = first; j < notes.size() && (j <= i || distance(notes, i, j) <= hold_reach); ++j) {
    const std::size_t away = distance(notes, i, j);
    for (std::size_t f = 0; f < finger_count; ++f) {
      if (away <= 1) wanted[f] |= used[j][f];
      if (away >= 1) (j < i ? before : after)[f] |= used[j][f];
    }
  }
  // Before the first note and after the last the hand is free to be ready, or to stay.
  const bool starts = distance(notes, i, 0) < hold_reach;
  const bool ends = distance(notes, i, notes.size() - 1) < hold_reach;
  for (std::size_t f = 0; f < finger_count; ++f) {
    if (starts) wanted[f] |= after[f];
    if (ends) wanted[f] |= before[f];
    wanted[f] |= before[f] & after[f];
    wanted[f] |= joined_holds(f, used[i][f], wanted[f]);
  }
  return wanted;
}

/// Grips that join what a finger holds on this note with what it holds on one nearby: it rolls from the one to the
/// other instead of letting go.
HoldMask Admission::joined_holds(std::size_t f, HoldMask here, HoldMask nearby) {
  const auto [entry, is_new] = joined_[f].try_emplace({here, nearby});
  if (!is_new) return entry->second;
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
  return entry->second = joined;
}

std::vector<std::vector<Candidate>> admit(const Played& played, const std::vector<AdmitNote>& notes,
                                          const Choices& choices) {
  Admission admission(played);
  std::vector<std::vector<Candidate>> admitted;
  for (const Want& want : admission.wants(notes, choices)) admitted.push_back(admission.meeting(want));
  return admitted;
}

}  // namespace fingerway
