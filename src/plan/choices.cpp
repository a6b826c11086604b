#include "fingerway/plan/choices.hpp"

#include <algorithm>

namespace fingerway {

bool allowed(const Choices& choices, std::size_t note, const Fingering& fingering) {
  const auto within = [&](const auto& span) { return span.first <= note && note <= span.last; };
  const bool pinned = std::ranges::all_of(choices.pins, [&](const Pin& pin) {
    if (pin.note != note) return true;
    if (pin.whole) return pin.fingering == fingering;
    return (fingering.pressed | fingering.flicked).contains_all(pin.fingering.pressed) &&
           fingering.half.contains_all(pin.fingering.half) && fingering.flicked.contains_all(pin.fingering.flicked);
  });
  const bool banned = std::ranges::any_of(choices.bans, [&](const Ban& ban) {
    return within(ban) && (fingering.pressed | fingering.flicked).contains_all(ban.touches);
  });
  const bool held = std::ranges::all_of(choices.holds, [&](const HeldTouch& hold) {
    return !within(hold) || fingering.pressed.contains_all(hold.touches);
  });
  return pinned && !banned && held;
}

}  // namespace fingerway
