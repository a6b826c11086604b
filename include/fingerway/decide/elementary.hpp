// What this part answers: the smallest changes a repairer could make to a keywork, within plausible limits, each with a
// class of price. It does not know which of them help (conversion_search).
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "fingerway/instrument/instrument.hpp"

namespace fingerway {

enum class ChangeKind : std::uint8_t {
  opens,      ///< a touch also lets a closed pad open
  closes,     ///< a touch also holds a pad shut; one that rests closed is sprung open, and freed by its lever
  duplicate,  ///< another finger gets a touch of its own for what this one does
  roller,     ///< between two touches of one finger
};

/// Roughly what a change asks: small for rollers; middle for an arm or tab on keys that are there; large where a pad is
/// parted from its lever and sprung anew, or a touch, posts and a rod are made.
enum class PriceClass : std::uint8_t { small, middle, large };
/// For adding up prices: small 1, middle 2, large 4.
[[nodiscard]] constexpr int price_steps(PriceClass price) { return 1 << static_cast<int>(price); }

struct ElementaryChange {
  ChangeKind kind = ChangeKind::opens;
  TouchId touch;               ///< that does more, is doubled, or gets a roller
  PadId pad;                   ///< opens, closes
  TouchId beside;              ///< roller: the other touch; duplicate: where the new one stands beside
  Finger finger = Finger::LT;  ///< duplicate: whom the new touch is for
  PriceClass price = PriceClass::middle;

  friend bool operator==(const ElementaryChange&, const ElementaryChange&) = default;
};

/// What limits them, all assumed: linkages and new touches reach this far along the instrument from the touches that
/// move the pad now; a new touch stands so far from the one it is beside.
struct ChangeLimits {
  Mm reach{120.0};
  Mm beside{14.0};
};

/// All changes of one kind after the other, in order of touches and pads. A hole that is covered by a bare finger (its
/// touch is named "hole") takes part in none, for there is no key to hang anything on.
[[nodiscard]] std::vector<ElementaryChange> elementary_changes(const Instrument& instrument,
                                                               const ChangeLimits& limits = {});

/// False where two changes contradict each other: one opens what the other closes by the same touch.
[[nodiscard]] bool agree(const ElementaryChange& a, const ElementaryChange& b);

/// The instrument with the changes made; nothing where it has no room for another touch.
[[nodiscard]] std::optional<Instrument> with_changes(const Instrument& instrument,
                                                     std::span<const ElementaryChange> changes,
                                                     const ChangeLimits& limits = {});

/// The pads a touch moves by itself.
[[nodiscard]] PadSet moved_by(const Instrument& instrument, TouchId touch);

}  // namespace fingerway
