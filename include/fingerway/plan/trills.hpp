// What this part answers: the best pair of fingerings for a trill or a two-note tremolo, and how fast it goes.
// It knows no passage.
#pragma once

#include <optional>
#include <vector>

#include "fingerway/plan/played.hpp"

namespace fingerway {

enum class Verdict : std::uint8_t { fluent, workable, laborious, out_of_reach };
/// "fluent", "workable", "laborious", "out of reach".
[[nodiscard]] std::string_view words(Verdict verdict);
/// Limits stand in instruments/motion.yaml.
[[nodiscard]] Verdict verdict(const MotionNumbers& numbers, NotesPerSecond rate);

/// Two fingerings to alternate between.
struct TrillPair {
  Candidate from;
  Candidate to;
  Posture from_posture;
  Posture to_posture;
  NotesPerSecond rate;
};

struct Trill {
  WrittenPitch from;
  WrittenPitch to;
  std::optional<TrillPair> best;  ///< nothing: one of the notes has no fingering
  Verdict verdict = Verdict::out_of_reach;
};

/// The best pair between two notes: the fastest, but speed beyond what the ear follows counts for nothing, and then
/// tone and standing decide.
[[nodiscard]] Trill best_trill(const Played& played, WrittenPitch from, WrittenPitch to);

/// All pairs of the instrument's range up to `widest` apart, by lower note, then by width.
[[nodiscard]] std::vector<Trill> all_trills(const Played& played, Semitones widest);

/// The touches that move in a pair: pressed in one of them and not in the other, or half in one only.
[[nodiscard]] TouchSet moving_touches(const TrillPair& pair);

}  // namespace fingerway
