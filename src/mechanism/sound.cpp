#include "sound.hpp"

#include <algorithm>

namespace fingerway {

bool Sounding::meets(const Target& target, const Fingering& f) const {
  if (!target.demand.met_by(press(works_, f.pressed, f.half))) return false;
  if (!target.at_attack) return f.flicked.empty();
  return !f.flicked.empty() && target.at_attack->met_by(press(works_, f.pressed | f.flicked, f.half));
}

TouchSet Sounding::spare(const Target& target, const Fingering& fingering) const {
  // Tried from the highest index down, so that the answer does not depend on luck.
  Fingering rest = fingering;
  std::vector<TouchId> order(fingering.pressed.begin(), fingering.pressed.end());
  std::ranges::reverse(order);
  for (TouchId touch : order) {
    Fingering fewer = rest;
    fewer.pressed.erase(touch);
    fewer.half.erase(touch);
    if (meets(target, fewer)) rest = fewer;
  }
  return fingering.pressed - rest.pressed;
}

std::optional<Candidate> Sounding::candidate(WrittenPitch pitch, const Fingering& fingering,
                                             const std::array<std::uint8_t, finger_count>& holds) const {
  // Of several lines that it meets: its own, else the one it adds least to, else the earlier.
  std::optional<std::size_t> line;
  int least = 0;
  for (std::size_t t = 0; t < derivation_.targets.size(); ++t) {
    if (instrument_.table[t].pitch != pitch || !meets(derivation_.targets[t], fingering)) continue;
    const Fingering& own = instrument_.table[t].fingering;
    const int strange = ((fingering.pressed - own.pressed) | (own.pressed - fingering.pressed)).size() * 2 +
                        ((fingering.flicked - own.flicked) | (own.flicked - fingering.flicked)).size();
    // A line that a conversion brings for the same touches says how they sound now.
    const bool newer =
        line && strange == least && instrument_.table[*line].from.empty() && !instrument_.table[t].from.empty();
    if (!line || strange < least || newer) {
      line = t;
      least = strange;
    }
  }
  if (!line) return std::nullopt;
  Candidate candidate;
  candidate.fingering = fingering;
  candidate.line = static_cast<std::uint16_t>(*line);
  candidate.origin = instrument_.table[*line].fingering == fingering ? Origin::table : Origin::derived;
  candidate.spare = spare(derivation_.targets[*line], fingering);
  candidate.hold = holds;
  return candidate;
}

Fingering Sounding::fingering_of(const std::array<std::uint8_t, finger_count>& holds) const {
  Fingering fingering;
  for (std::size_t f = 0; f < finger_count; ++f) {
    fingering.pressed |= derivation_.holds[f][holds[f]].touches;
    fingering.half |= derivation_.holds[f][holds[f]].half;
  }
  return fingering;
}

std::vector<Fingering> Sounding::with_flicks(const Target& target, const Fingering& fingering) const {
  if (!target.at_attack) return {fingering};
  std::vector<Fingering> all;
  for (Finger finger : all_fingers) {
    // Only a finger that has nothing else to do can flick.
    if (!held_by(instrument_, fingering.pressed, finger).empty()) continue;
    for (TouchId touch : touches_of(instrument_, finger)) {
      Fingering with = fingering;
      with.flicked = {touch};
      if (meets(target, with)) all.push_back(with);
    }
  }
  return all;
}

}  // namespace fingerway
