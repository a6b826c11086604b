// What this part answers: the player's own say in a plan: pins, bans and holds, tied to notes of a passage.
// It does not read files; places are already note numbers here.
#pragma once

#include <compare>
#include <cstddef>
#include <string>
#include <vector>

#include "fingerway/mechanism/candidates.hpp"

namespace fingerway {

/// This note is fingered so. `whole`: exactly these touches (half and flicked ones too); else at least these pressed.
struct Pin {
  std::size_t note = 0;
  Fingering fingering;
  bool whole = true;

  friend auto operator<=>(const Pin&, const Pin&) = default;
};

/// These touches are not pressed together (nor flicked) on the notes from `first` to `last`.
struct Ban {
  std::size_t first = 0;
  std::size_t last = 0;
  TouchSet touches;

  friend auto operator<=>(const Ban&, const Ban&) = default;
};

/// These touches stay down on every note from `first` to `last`.
struct HeldTouch {
  std::size_t first = 0;
  std::size_t last = 0;
  TouchSet touches;

  friend auto operator<=>(const HeldTouch&, const HeldTouch&) = default;
};

struct Choices {
  std::vector<Pin> pins;
  std::vector<Ban> bans;
  std::vector<HeldTouch> holds;

  [[nodiscard]] bool empty() const { return pins.empty() && bans.empty() && holds.empty(); }
  friend auto operator<=>(const Choices&, const Choices&) = default;
};

/// True when the player's choices allow this fingering on that note.
[[nodiscard]] bool allowed(const Choices& choices, std::size_t note, const Fingering& fingering);

}  // namespace fingerway
