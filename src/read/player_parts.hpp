// What this part answers: what a file says of one player, as written, and that turned into touches of an instrument.
// Private to read; player files and rosters share it.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "fingerway/motion/player.hpp"
#include "yaml_strict.hpp"

namespace fingerway {

/// A name that must be a finger ("L4") or a touch ("L4.low-eflat").
struct WrittenName {
  const YamlNode* node = nullptr;
  std::string text;
};

/// A fingering by its note and either its mark in the fingering table or its touches.
struct WrittenFingering {
  const YamlNode* node = nullptr;
  WrittenPitch pitch;
  std::string note;
  std::string mark;
  std::vector<std::string> press, half, flick;
  std::optional<WrittenPitch> after, before;
};

struct WrittenLearned {
  std::optional<std::pair<WrittenPitch, WrittenPitch>> standard;  ///< every standard fingering of these notes
  std::vector<WrittenFingering> also;
};

/// Keys of a player, names not looked up yet. Its nodes are those of the tree it was read from.
struct WrittenPlayer {
  std::string name;
  Level level = Level::amateur;
  MeasuredHand hand;
  bool holds_through = true;
  std::vector<WrittenName> cannot_use, should_rest;
  std::optional<WrittenLearned> learned;
  std::vector<WrittenFingering> not_learned, preferred;

  /// True where something in it is a name on an instrument.
  [[nodiscard]] bool names_touches() const;
};

/// Reads the keys a player may have from a map that may have others too.
[[nodiscard]] WrittenPlayer read_written_player(YamlMap& map, FaultList& faults);

/// The player on `instrument`. Names are those of `home`; what `instrument` has not got of them is left out, and told.
[[nodiscard]] Player resolve_player(const WrittenPlayer& written, const Instrument& home, const Instrument& instrument,
                                    FaultList& faults);

/// True where the touches of one are those of the other but for conversions.
[[nodiscard]] bool same_family(const Instrument& a, const Instrument& b);

}  // namespace fingerway
