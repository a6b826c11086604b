// What this part answers: in which order the measures of a part are played: repeats, endings, da capo, dal segno,
// coda, fine.
// It moves no notes; musicxml_unroll.hpp does.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "musicxml_findings.hpp"
#include "musicxml_parts.hpp"

namespace fingerway {

/// The signs of one measure that send the player elsewhere. Names of segnos and codas may be empty.
struct OrderSigns {
  bool forward = false;
  bool backward = false;
  int times = 2;            ///< how often the repeated section is played
  bool after_jump = false;  ///< its repeats are played after a da capo or dal segno too
  bool in_middle = false;   ///< a repeat sign stands inside the measure
  bool ending_starts = false;
  bool ending_stops = false;
  std::vector<int> ending_numbers;
  std::vector<std::string> segnos;
  std::vector<std::string> codas;
  bool da_capo = false;
  std::vector<std::string> dal_segno;  ///< none or one
  std::vector<std::string> to_coda;    ///< none or one
  bool fine = false;
  std::vector<int> jump_times;  ///< the times through at which the jump happens; empty: the first it can

  [[nodiscard]] bool jumps() const { return da_capo || fine || !dal_segno.empty() || !to_coda.empty(); }
  [[nodiscard]] bool repeats() const { return forward || backward || ending_starts || in_middle; }
};

/// The signs of every measure of a part.
[[nodiscard]] std::vector<OrderSigns> order_signs(const ScorePart& part, Findings& findings);
/// Signs often stand in the top part only: what the chosen part has none of is taken from another one.
void add_signs_of_others(std::vector<OrderSigns>& signs, const std::vector<ScorePart>& parts, const ScorePart& chosen);

/// A measure as it is played.
struct PlayedMeasure {
  std::uint32_t written = 0;
  int pass = 1;         ///< how often it has been played, this time counted
  bool jumped = false;  ///< it does not follow the measure written before it
};

/// The order of play of these measures. `notes` counts those of each: what unrolls to more than a million of them (and
/// more than are written), or repeats more than 64 times, is a fault.
///
/// Repeats are not played after a da capo or dal segno unless they say so (MusicXML 4.0, type repeat); of several
/// endings the last is taken then (common practice).
[[nodiscard]] std::vector<PlayedMeasure> play_order(const std::vector<OrderSigns>& signs,
                                                    const std::vector<Measure>& measures,
                                                    const std::vector<std::size_t>& notes, Findings& findings);

}  // namespace fingerway
