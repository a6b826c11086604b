#include "fingerway/instrument/instrument.hpp"

#include <algorithm>

namespace fingerway {

namespace {

/// Position of the first member that `matches`, as an id of the list's kind.
template <class IdT, class List, class Matches>
std::optional<IdT> find_id(const List& list, Matches matches) {
  const auto found = std::find_if(list.begin(), list.end(), matches);
  if (found == list.end()) return std::nullopt;
  return IdT(static_cast<std::size_t>(found - list.begin()));
}

}  // namespace

std::string full_name(const Touch& touch) { return std::string(code(touch.finger)) + "." + touch.name; }

std::optional<TouchId> find_touch(const Instrument& instrument, std::string_view full_name) {
  const std::size_t dot = full_name.find('.');
  if (dot == std::string_view::npos) return std::nullopt;
  const std::optional<Finger> finger = parse_finger(full_name.substr(0, dot));
  if (!finger) return std::nullopt;
  const std::string_view name = full_name.substr(dot + 1);
  return find_id<TouchId>(instrument.touches,
                          [&](const Touch& touch) { return touch.finger == *finger && touch.name == name; });
}

std::optional<PadId> find_pad(const Instrument& instrument, std::string_view id) {
  return find_id<PadId>(instrument.pads, [&](const Pad& pad) { return pad.id == id; });
}

std::optional<LatchId> find_latch(const Instrument& instrument, std::string_view id) {
  return find_id<LatchId>(instrument.latches, [&](const Latch& latch) { return latch.id == id; });
}

std::string stacked_id(const Instrument& instrument) {
  std::string text = instrument.id;
  for (const ConversionSheet& conversion : instrument.conversions) text += "+" + conversion.id;
  return text;
}

TouchSet touches_of(const Instrument& instrument, Finger finger) {
  TouchSet touches;
  for (std::size_t i = 0; i < instrument.touches.size(); ++i) {
    const Touch& touch = instrument.touches[i];
    if (touch.finger == finger && !touch.removed) touches.insert(TouchId(i));
  }
  return touches;
}

TouchSet held_by(const Instrument& instrument, TouchSet touches, Finger finger) {
  TouchSet held;
  for (TouchId id : touches) {
    if (instrument.touches[id.index].finger == finger) held.insert(id);
  }
  return held;
}

}  // namespace fingerway
