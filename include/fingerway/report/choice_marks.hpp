// What this part answers: which notes of a plan deserve a pencil mark, and what the mark says.
// It does not write into a score (marks.hpp).
#pragma once

#include <string>
#include <vector>

#include "fingerway/plan/plan.hpp"
#include "fingerway/report/marks.hpp"

namespace fingerway {

/// Marks only where a choice matters, or on every note.
enum class MarkWhich { choices, all };

/// True where the player could go wrong: the note has several table fingerings with different marks, or the chosen one
/// is not the note's first standard line, or is derived, or the note is a trill or tremolo, or has no fingering.
[[nodiscard]] bool choice_matters(const Played& played, const NoteEvent& note, const PlannedNote& planned);

/// What a player would pencil in at the note: the table line's mark, with "+" and "-" for touches a derived fingering
/// adds and leaves out, or the whole fingering in short where that is shorter; both fingerings of a trill; "no
/// fingering" where there is none.
[[nodiscard]] std::string pencil_mark(const Played& played, const PlannedNote& planned);

/// The marks of a plan, in the order played, as a player would pencil them: shorter than pencil_mark, for touches held
/// without need are said only where that begins ("hold Eb" from the note before, "+Eb" early), and keys are named
/// without their finger where one has that name. When only choices are asked for, a fingering is said once a measure.
/// Each mark has the full fingering too: "press L1.hole L2.hole half L3.hole", the names as in choices files.
[[nodiscard]] std::vector<ScoreMark> marks_for(const Played& played, const Passage& passage, const Plan& plan,
                                               MarkWhich which);

}  // namespace fingerway
