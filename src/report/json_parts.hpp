// What this part answers: the parts that several JSON formats share: instrument, fingering, arrival, summary.
// Private to report. Field names are those of tools/schema.
#pragma once

#include "fingerway/plan/plan.hpp"
#include "fingerway/plan/trills.hpp"
#include "json_value.hpp"

namespace fingerway {

/// {"format": "fingerway/plan", "version": 1}, to be added to.
[[nodiscard]] Json document(std::string_view format);
/// Null where there is no number.
[[nodiscard]] Json number_or_null(const std::optional<Qpm>& tempo);

[[nodiscard]] Json instrument_json(const Played& played);
[[nodiscard]] Json passage_json(const Passage& passage);
/// {"LT": ["low-d"], ...}: fingers that press something only.
[[nodiscard]] Json pressed_json(const Instrument& instrument, TouchSet touches);
/// ["L1.hole"].
[[nodiscard]] Json full_names_json(const Instrument& instrument, TouchSet touches);
/// Adds "pressed", "half" and "flicked"; "pressed" is null without a fingering.
void add_fingering(Json& object, const Instrument& instrument, const Candidate* candidate);
/// One fingering of a chart: with origin, standing, mark, cents and source.
[[nodiscard]] Json candidate_json(const Instrument& instrument, const Candidate& candidate);
[[nodiscard]] Json moves_json(const Instrument& instrument, const std::vector<FingerMove>& moves, bool back_and_forth);
/// Null on a first note.
[[nodiscard]] Json arrival_json(const Played& played, const Shared<Arrival>& arrival);
[[nodiscard]] Json summary_json(const PlanSummary& summary);
[[nodiscard]] Json notes_json(const Played& played, const Passage& passage, const Plan& plan);
[[nodiscard]] Json note_json(const Played& played, const Passage& passage, const PlannedNote& planned,
                             std::size_t index);
/// Null where a note has no fingering.
/// One of several instruments that play the same passage: instrument, summary, notes.
[[nodiscard]] Json planned_side_json(const Played& played, const Passage& passage, const Plan& plan);
[[nodiscard]] std::string_view verdict_id(Verdict verdict);
[[nodiscard]] std::string_view standing_id(Standing standing);

}  // namespace fingerway
