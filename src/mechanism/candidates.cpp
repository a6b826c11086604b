#include "fingerway/mechanism/candidates.hpp"

#include <algorithm>
#include <set>
#include <tuple>

#include "sound.hpp"
#include "walk.hpp"

namespace fingerway {
namespace {

using HandHolds = std::array<std::uint8_t, finger_count>;

bool holds_more(const Hold& a, const Hold& b) {
  return a.touches != b.touches && a.touches.contains_all(b.touches) && a.half.contains_all(b.half);
}

/// Of the holds of a mask those that hold no more than another one of it.
HoldMask leanest(const std::vector<Hold>& holds, HoldMask mask) {
  HoldMask lean = 0;
  for (std::size_t h = 0; h < holds.size(); ++h) {
    if ((mask >> h & 1U) == 0) continue;
    bool fewer = true;
    for (std::size_t g = 0; g < holds.size(); ++g) {
      if ((mask >> g & 1U) != 0 && holds_more(holds[h], holds[g])) fewer = false;
    }
    if (fewer) lean |= HoldMask{1} << h;
  }
  return lean;
}

/// Calls `visit` for each choice of one hold a finger with at most `most` fingers outside `lean`.
template <class Visit>
void each_hand(const HandMask& mask, const HandMask& lean, int most, HandHolds& hand, std::size_t finger,
               const Visit& visit) {
  if (finger == finger_count) {
    visit(hand);
    return;
  }
  for (HoldMask left = mask[finger]; left != 0; left &= left - 1) {
    const auto h = static_cast<std::uint8_t>(std::countr_zero(left));
    const bool extra = (lean[finger] >> h & 1U) == 0;
    if (extra && most == 0) continue;
    hand[finger] = h;
    each_hand(mask, lean, most - static_cast<int>(extra), hand, finger + 1, visit);
  }
}

HandMask leanest(const Derivation& derivation, const HandMask& mask) {
  HandMask lean{};
  for (std::size_t f = 0; f < finger_count; ++f) lean[f] = leanest(derivation.holds[f], mask[f]);
  return lean;
}

std::optional<HandHolds> holds_for(const Instrument& instrument, const Derivation& derivation, const Fingering& f) {
  // The fingering may come from another instrument of the same base, with touches that are not here.
  for (TouchId touch : f.pressed | f.flicked) {
    if (touch.index >= instrument.touches.size()) return std::nullopt;
  }
  HandHolds hand{};
  for (Finger finger : all_fingers) {
    const Hold hold{.touches = held_by(instrument, f.pressed, finger), .half = held_by(instrument, f.half, finger)};
    const auto& known = derivation.holds[index(finger)];
    const auto found = std::ranges::find(known, hold);
    if (found == known.end()) return std::nullopt;
    if (!hold.touches.empty() && !held_by(instrument, f.flicked, finger).empty()) return std::nullopt;
    hand[index(finger)] = static_cast<std::uint8_t>(found - known.begin());
  }
  return hand;
}

auto rank(const Candidate& c) { return std::tuple(c.origin, c.line, c.fingering.pressed.size(), c.fingering); }

/// Table lines that work here, then hands of each family's leanest holds that hold nothing without need.
std::vector<Candidate> lean_candidates(const Instrument& instrument, const Derivation& derivation,
                                       const Sounding& sounding, WrittenPitch pitch) {
  std::vector<Candidate> found;
  std::set<Fingering> seen;
  for (const TableFingering& line : instrument.table) {
    if (line.pitch != pitch || !seen.insert(line.fingering).second) continue;
    if (const auto c = as_candidate(instrument, derivation, pitch, line.fingering)) found.push_back(*c);
  }
  for (const Family& family : derivation.families.at(pitch)) {
    const HandMask lean = leanest(derivation, family.holds);
    HandHolds hand{};
    each_hand(lean, lean, 0, hand, 0, [&](const HandHolds& holds) {
      const Fingering base = sounding.fingering_of(holds);
      for (const Fingering& f : sounding.with_flicks(derivation.targets[family.target], base)) {
        if (!seen.insert(f).second) continue;
        const auto c = sounding.candidate(pitch, f, holds);
        if (c && c->spare.empty()) found.push_back(*c);
      }
    });
  }
  std::ranges::sort(found, {}, rank);
  return found;
}

/// Which of the fingerings that hold no more than need be told: see Difference.
void keep_news(std::vector<Candidate>& fresh) {
  std::vector<Candidate> news;
  for (const Candidate& c : fresh) {
    const bool adds_only_touches = std::ranges::any_of(fresh, [&](const Candidate& other) {
      const TouchSet less = other.fingering.pressed;
      return other.fingering.flicked == c.fingering.flicked && less != c.fingering.pressed &&
             c.fingering.pressed.contains_all(less) && (c.fingering.half & less) == other.fingering.half;
    });
    if (c.origin == Origin::table || !adds_only_touches) news.push_back(c);
  }
  fresh = std::move(news);
}

struct Side {
  const Instrument& instrument;
  const Derivation& derivation;
  Sounding sounding;
};

std::optional<Candidate> sounded_on(const Side& side, WrittenPitch pitch, const Fingering& fingering) {
  const auto holds = holds_for(side.instrument, side.derivation, fingering);
  return holds ? side.sounding.candidate(pitch, fingering, *holds) : std::nullopt;
}

/// Touches that matter for a note on either side tell fingerings apart; all others may be left out of the hand.
TouchSet telling_touches(const Side& here, const Side& there, WrittenPitch pitch) {
  TouchSet telling;
  for (const Side* side : {&here, &there}) {
    for (const Target& target : side->derivation.targets) {
      if (side->instrument.table[target.line].pitch != pitch) continue;
      telling |= touches_that_matter(side->sounding.works(), target);
    }
  }
  return telling;
}

std::vector<Candidate> fresh_on(const Side& here, const Side& there, WrittenPitch pitch) {
  const TouchSet telling = telling_touches(here, there, pitch);
  std::vector<Candidate> fresh;
  std::set<Fingering> seen;
  // A table line is told even if it holds touches that do not matter.
  for (const TableFingering& line : here.instrument.table) {
    if (line.pitch != pitch || sounded_on(there, pitch, line.fingering)) continue;
    const auto c = sounded_on(here, pitch, line.fingering);
    if (c && seen.insert(line.fingering).second) fresh.push_back(*c);
  }
  for (std::size_t t = 0; t < here.derivation.targets.size(); ++t) {
    if (here.instrument.table[t].pitch != pitch) continue;
    const Target& target = here.derivation.targets[t];
    for (const Family& family :
         walk(here.instrument, here.sounding.works(), here.derivation.holds, target, t, telling)) {
      const HandMask lean = leanest(here.derivation, family.holds);
      HandHolds hand{};
      each_hand(lean, lean, 0, hand, 0, [&](const HandHolds& holds) {
        for (const Fingering& f : here.sounding.with_flicks(target, here.sounding.fingering_of(holds))) {
          if (!seen.insert(f).second || sounded_on(there, pitch, f)) continue;
          if (const auto c = here.sounding.candidate(pitch, f, holds)) fresh.push_back(*c);
        }
      });
    }
  }
  std::ranges::sort(fresh, {}, rank);
  keep_news(fresh);
  return fresh;
}

std::vector<SoundedFingering> only_on(const Side& here, const Side& there) {
  std::vector<SoundedFingering> result;
  for (const auto& [pitch, families] : here.derivation.families) {
    for (const Candidate& c : fresh_on(here, there, pitch)) result.push_back({.pitch = pitch, .candidate = c});
  }
  return result;
}

std::vector<SoundedFingering> altered(const Side& here, const Side& there) {
  std::vector<SoundedFingering> result;
  for (const auto& [pitch, candidates] : here.derivation.by_pitch) {
    for (const Candidate& c : candidates) {
      if (c.origin != Origin::table || here.instrument.table[c.line].from.empty()) continue;
      const auto before = sounded_on(there, pitch, c.fingering);
      if (before && before->origin == Origin::table) result.push_back({.pitch = pitch, .candidate = c});
    }
  }
  return result;
}

}  // namespace

std::span<const Candidate> Derivation::of(WrittenPitch pitch) const {
  const auto found = by_pitch.find(pitch);
  if (found == by_pitch.end()) return {};
  return found->second;
}

Derivation derive(const Instrument& instrument) {
  Derivation derivation;
  for (Finger finger : all_fingers) derivation.holds[index(finger)] = holds_of(instrument, finger);
  derivation.targets = targets(instrument);
  const Sounding sounding(instrument, derivation);
  for (std::size_t t = 0; t < derivation.targets.size(); ++t) {
    const Target& target = derivation.targets[t];
    const TouchSet telling = touches_that_matter(sounding.works(), target);
    auto& families = derivation.families[instrument.table[t].pitch];
    for (const Family& family : walk(instrument, sounding.works(), derivation.holds, target, t, telling)) {
      families.push_back(family);
    }
  }
  for (const auto& [pitch, unused] : derivation.families) {
    auto lean = lean_candidates(instrument, derivation, sounding, pitch);
    if (!lean.empty()) derivation.by_pitch[pitch] = std::move(lean);
  }
  return derivation;
}

std::vector<Candidate> held_through(const Instrument& instrument, const Derivation& derivation, WrittenPitch pitch,
                                    const HandMask& wanted, int most_held) {
  std::vector<Candidate> found;
  const auto families = derivation.families.find(pitch);
  if (families == derivation.families.end()) return found;
  const Sounding sounding(instrument, derivation);
  std::set<Fingering> seen;
  for (const Candidate& c : derivation.of(pitch)) seen.insert(c.fingering);
  for (const Family& family : families->second) {
    HandMask mask{};
    for (std::size_t f = 0; f < finger_count; ++f) mask[f] = family.holds[f] & wanted[f];
    const HandMask lean = leanest(derivation, family.holds);
    HandHolds hand{};
    each_hand(mask, lean, most_held, hand, 0, [&](const HandHolds& holds) {
      for (const Fingering& f : sounding.with_flicks(derivation.targets[family.target], sounding.fingering_of(holds))) {
        if (!seen.insert(f).second) continue;
        const auto c = sounding.candidate(pitch, f, holds);
        if (!c) continue;
        int held = 0;
        for (Finger finger : all_fingers) held += int(!held_by(instrument, c->spare, finger).empty());
        if (held <= most_held) found.push_back(*c);
      }
    });
  }
  std::ranges::sort(found, {}, rank);
  return found;
}

TouchSet may_stay_down(const Instrument& instrument, const Derivation& derivation, WrittenPitch pitch,
                       const Candidate& candidate) {
  const Sounding sounding(instrument, derivation);
  TouchSet touches;
  for (std::size_t f = 0; f < finger_count; ++f) {
    const auto& holds = derivation.holds[f];
    for (std::size_t h = 0; h < holds.size(); ++h) {
      if (!holds_more(holds[h], holds[candidate.hold[f]])) continue;
      HandHolds hand = candidate.hold;
      hand[f] = static_cast<std::uint8_t>(h);
      Fingering fingering = sounding.fingering_of(hand);
      fingering.flicked = candidate.fingering.flicked;
      if (sounding.candidate(pitch, fingering, hand)) {
        touches |= fingering.pressed - candidate.fingering.pressed;
      }
    }
  }
  return touches;
}

std::optional<Candidate> as_candidate(const Instrument& instrument, const Derivation& derivation, WrittenPitch pitch,
                                      const Fingering& fingering) {
  const auto holds = holds_for(instrument, derivation, fingering);
  if (!holds) return std::nullopt;
  return Sounding(instrument, derivation).candidate(pitch, fingering, *holds);
}

Difference difference(const Instrument& without, const Derivation& without_derivation, const Instrument& with,
                      const Derivation& with_derivation) {
  const Side stock{without, without_derivation, Sounding(without, without_derivation)};
  const Side converted{with, with_derivation, Sounding(with, with_derivation)};
  return {.gained = only_on(converted, stock), .lost = only_on(stock, converted), .altered = altered(converted, stock)};
}

std::vector<WrittenPitch> sounded_by(const Instrument& instrument, std::span<const Target> targets, PadStates states) {
  std::vector<WrittenPitch> pitches;
  for (const Target& target : targets) {
    if (!target.demand.met_by(states)) continue;
    const WrittenPitch pitch = instrument.table[target.line].pitch;
    if (std::ranges::find(pitches, pitch) == pitches.end()) pitches.push_back(pitch);
  }
  return pitches;
}

}  // namespace fingerway
