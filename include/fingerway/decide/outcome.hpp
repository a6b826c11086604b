// What this part answers: how one passage goes on one instrument, as a plain value that can be kept in a file.
// It compares nothing. It is the unit of work of a payoff: each is planned once, by whichever machine.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "fingerway/plan/plan.hpp"
#include "fingerway/plan/trills.hpp"

namespace fingerway {

/// How the hand gets to a note: the time it needs and the time there is.
struct OutcomeChange {
  double time_ms = 0.0;
  double available_ms = 0.0;
  bool possible = true;

  friend bool operator==(const OutcomeChange&, const OutcomeChange&) = default;
};

/// One note as planned.
struct OutcomeNote {
  std::optional<Fingering> fingering;  ///< nothing: the note has none
  std::optional<Fingering> other;      ///< the second fingering of a trill or tremolo
  std::optional<double> rate;          ///< of the trill or tremolo, notes a second
  std::optional<OutcomeChange> arrive;

  friend bool operator==(const OutcomeNote&, const OutcomeNote&) = default;
};
[[nodiscard]] inline bool same_fingering(const OutcomeNote& a, const OutcomeNote& b) {
  return a.fingering == b.fingering && a.other == b.other;
}

/// One passage on one instrument.
struct PassageOutcome {
  std::int64_t micro_points = 0;  ///< what the plan costs the choice, and what notes without a fingering count for
  double awkwardness = 0.0;       ///< points, over all changes
  double worst_load = 0.0;
  bool complete = true;
  bool fits = true;
  std::optional<double> ceiling;       ///< quarter notes a minute; nothing: nothing limits
  std::optional<double> best_ceiling;  ///< with the fastest fingerings
  std::vector<Verdict> verdicts;       ///< one a note: of the change to it or of its trill, whichever is worse
  std::vector<OutcomeNote> notes;      ///< empty where only figures were asked for

  [[nodiscard]] double points() const { return static_cast<double>(micro_points) / 1e6; }
  friend bool operator==(const PassageOutcome&, const PassageOutcome&) = default;
};

/// Whether an outcome keeps every note or the figures only.
enum class OutcomeDetail : std::uint8_t { notes, figures };

/// Plans the passage and keeps what a payoff asks for. A note without a fingering counts as a change that would need
/// twice its time: a conversion cannot gain by losing notes.
[[nodiscard]] PassageOutcome outcome_of(const Played& played, const Passage& passage, OutcomeDetail detail);

/// Loads up to which a change is fluent, or workable; beyond 1 it is out of reach. Assumed: the reserve that trills of
/// 8.5 and 7 notes a second have over those of 6, where by the trade laborious ones begin.
inline constexpr double fluent_load = 0.7;
inline constexpr double workable_load = 0.85;
/// The verdict of a change that takes so much of the time there is.
[[nodiscard]] Verdict change_verdict(double load);

}  // namespace fingerway
