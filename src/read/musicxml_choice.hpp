// What this part answers: which part and which voice of a score to read.
// It reads no notes beyond counting them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "musicxml_parts.hpp"

namespace fingerway {

/// The part chosen, and what made the choice where the user did not.
struct ChosenPart {
  std::size_t index = 0;
  std::string remark;
};

/// Throws InputError with a list of the parts where none or several fit.
[[nodiscard]] ChosenPart choose_part(const pugi::xml_node& score, const std::vector<ScorePart>& parts,
                                     const ScoreChoice& choice, const std::string& file);

/// A voice, the staff that speaks for it (its clef, key, transposition), and whether notes elsewhere are left out.
struct VoiceChoice {
  std::string voice = "1";
  int staff = 1;
  bool only_this_staff = false;
};

/// The voice asked for, or the one with the most notes. Throws InputError where the part has no such voice or staff.
[[nodiscard]] VoiceChoice choose_voice(const PartInfo& part, const ScoreChoice& choice, const std::string& file);

}  // namespace fingerway
