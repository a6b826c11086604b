// What this part answers: what is known of one player: measured hand, what must not be used, what is learned and liked.
// It reads no files and plans nothing; touches are those of one instrument already.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "fingerway/base/quantities.hpp"
#include "fingerway/instrument/instrument.hpp"
#include "fingerway/motion/numbers.hpp"

namespace fingerway {

/// What was measured on a hand; what was not follows the level.
struct MeasuredHand {
  /// Of a one-finger trill, by finger, both notes counted: half a cycle of the finger takes 1000 ms over it.
  std::array<std::optional<NotesPerSecond>, finger_count> rates{};
  std::optional<Mm> span;  ///< thumb tip to little finger tip, the hand spread

  [[nodiscard]] bool any_rate() const;
  friend bool operator==(const MeasuredHand&, const MeasuredHand&) = default;
};

/// Half a cycle of each finger: as measured. A finger that was not measured goes by its level's ratio to the index
/// finger, whose rate is then the mean of what the measured fingers make it, or the level's where none is measured.
[[nodiscard]] std::array<Ms, finger_count> half_cycles(const MotionNumbers& numbers, Level level,
                                                       const MeasuredHand& measured);
/// The numbers with comfortable reach scaled by the span against a typical one.
[[nodiscard]] MotionNumbers scaled_to_span(MotionNumbers numbers, const MeasuredHand& measured);

/// A fingering a player means for a note; with a neighbour, only where that note comes right before or right after.
struct OwnFingering {
  WrittenPitch pitch;
  Fingering fingering;
  std::optional<WrittenPitch> after = {};
  std::optional<WrittenPitch> before = {};

  friend bool operator==(const OwnFingering&, const OwnFingering&) = default;
};

/// One player with one instrument. The default is a typical hand that knows and may use everything.
struct Player {
  std::string name = {};
  std::string file = {};
  Level level = Level::amateur;
  MeasuredHand hand = {};
  TouchSet unusable = {};  ///< never pressed, nor flicked
  TouchSet resting = {};   ///< cost more, so that another way is taken where there is one
  std::optional<std::vector<OwnFingering>> learned = {};  ///< nothing: all; else only these are used
  bool holds_through = true;                              ///< may keep fingers down that the note does not need
  std::vector<OwnFingering> not_learned = {};             ///< never used
  std::vector<OwnFingering> preferred = {};               ///< habits: others of the note cost more
  std::vector<std::string> left_out = {};                 ///< what the file says of touches this instrument has not got

  [[nodiscard]] bool limits_fingerings() const;
  friend bool operator==(const Player&, const Player&) = default;
};

/// True where the fingering is `own` but for touches held down besides: a habit with a finger left on is still one.
[[nodiscard]] bool contains(const Fingering& fingering, const Fingering& own);

/// Whether a habit speaks of the note between its neighbours, and whether the fingering keeps to one. Habits of a pair
/// of notes go before those of a note alone.
enum class Custom : std::uint8_t { none, kept, broken };
[[nodiscard]] Custom custom_of(const Player& player, const OwnFingering& played);

}  // namespace fingerway
