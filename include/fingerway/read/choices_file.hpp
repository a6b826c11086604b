// What this part answers: a player's choices file (YAML) as written: pins, bans and holds by bar and beat.
// It does not know the passage; whoever has one turns places into notes (app/requests).
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "fingerway/base/errors.hpp"
#include "fingerway/music/score_time.hpp"

namespace fingerway {

/// A bar by its printed name and, unless the whole bar is meant, a beat counted from 1. Of a bar that is repeated, the
/// time it is played.
struct BarBeat {
  std::string bar;
  std::optional<ScoreTime> beat;
  int time = 1;

  friend bool operator==(const BarBeat&, const BarBeat&) = default;
};

/// Touches by full name ("L4.low-eflat"), as written.
struct WrittenTouches {
  std::vector<std::string> press;
  std::vector<std::string> half;
  std::vector<std::string> flick;
};

/// `fingering:` pins exactly these touches; `with:` only asks for them.
struct WrittenPin {
  Place place;
  BarBeat at;
  WrittenTouches touches;
  bool whole = true;
};

/// A ban or a hold over a stretch; without one, over the whole passage.
struct WrittenStretch {
  Place place;
  std::optional<BarBeat> from;
  std::optional<BarBeat> to;
  std::vector<std::string> touches;
};

struct ChoicesFile {
  std::string file;
  std::vector<WrittenPin> pins;
  std::vector<WrittenStretch> bans;
  std::vector<WrittenStretch> holds;
  std::vector<std::string> latches;  ///< set before playing
};

/// Throws InputError with every fault of the file, or FileError.
[[nodiscard]] ChoicesFile read_choices_file(const std::filesystem::path& file);

/// The same from text already in memory; `name` is only for messages.
[[nodiscard]] ChoicesFile parse_choices_file(const std::string& text, const std::string& name);

/// "3:2", "12a:1+1/2", "4": a bar, and a beat after a colon; "3:2 time 2": the second time the bar is played. Nothing
/// when it is not of that form.
[[nodiscard]] std::optional<BarBeat> parse_bar_beat(std::string_view text);

}  // namespace fingerway
