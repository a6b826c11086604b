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
  }
  std::vector<std::pair<std::size_t, Candidate>> odd;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    wants[i].holds = wanted_at(notes, used, i);
    const auto pin = odd_pin(wants[i]);
    if (pin) odd.emplace_back(i, *pin);
    wants[i].odd_pin = pin.has_value();
  }
  if (odd.empty()) return wants;
  // Where the passage has no use for a pinned fingering by itself the neighbours may hold what it holds, or it would be
  // judged worse than it is.
  for (const auto& [i, pin] : odd) add_use(pin, used[i]);
  for (std::size_t i = 0; i < notes.size(); ++i) wants[i].holds = wanted_at(notes, used, i);
  return wants;
}

std::vector<Candidate> Admission::meeting(const Want& want) {
  std::vector<Candidate> admitted;
  const auto offer = [&](const Candidate& c) {
    if (permitted(want, c.fingering) && std::ranges::find(admitted, c) == admitted.end()) admitted.push_back(c);
  };
  const auto offer_held = [&](const HandMask& holds, int most) {
    for (const Candidate& c : held_through(played_.instrument, played_.derivation, want.pitch, holds, most)) offer(c);
  };
  for (const Candidate& c : played_.derivation.of(want.pitch)) offer(c);
  for (const Pin& pin : want.choices.pins) {
    if (!want.odd_pin || !pin.whole) continue;
    if (const auto c = as_candidate(played_.instrument, played_.derivation, want.pitch, pin.fingering)) offer(*c);
  }
  offer_held(want.holds, most_held_fingers);
  if (!admitted.empty() || want.choices.empty()) return admitted;
  // What the player asks for is looked for among what there is anyway: a choice only takes away. A touch that the
  // passage has no use for is admitted where the note could not be played as asked without it.
  HandMask holds = want.holds;
  if (const int asked = add_asked(want.choices, holds); asked > 0) offer_held(holds, most_held_fingers + asked);
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
std::optional<Candidate> Admission::odd_pin(const Want& want) const {
  for (const Pin& pin : want.choices.pins) {
    if (!pin.whole) continue;
    auto candidate = as_candidate(played_.instrument, played_.derivation, want.pitch, pin.fingering);
    if (!candidate || !permitted(want, candidate->fingering)) continue;
    const auto same = [&](const Candidate& other) { return other.fingering == candidate->fingering; };
    const bool usual =
        std::ranges::any_of(played_.derivation.of(want.pitch), same) ||
        std::ranges::any_of(
            held_through(played_.instrument, played_.derivation, want.pitch, want.holds, most_held_fingers), same);
    if (!usual) return candidate;
  }
  return std::nullopt;
}

/// Adds every hold with a touch the player wants down; returns how many fingers that concerns.
int Admission::add_asked(const Choices& choices, HandMask& holds) const {
  TouchSet asked;
  for (const Pin& pin : choices.pins) asked |= pin.fingering.pressed;
  for (const HeldTouch& hold : choices.holds) asked |= hold.touches;
  int fingers = 0;
  for (Finger finger : all_fingers) {
    const TouchSet own = held_by(played_.instrument, asked, finger);
    if (own.empty()) continue;
    ++fingers;
    const auto& all = played_.derivation.holds[index(finger)];
    for (std::size_t h = 0; h < all.size(); ++h) {
      if (all[h].touches.contains_all(own)) holds[index(finger)] |= HoldMask{1} << h;
    }
  }
  return fingers;
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
