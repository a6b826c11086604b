// What this part answers: touches, fingerings, moves, numbers and note lengths as people say them.
// Private to report: view.cpp and the chart reports use it, so that one thing has one name everywhere.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fingerway/motion/transition.hpp"
#include "fingerway/plan/plan.hpp"
#include "fingerway/report/view.hpp"

namespace fingerway {

/// Which of two spellings of the same words: accidentals as signs for people, or letters only for pencil marks in
/// files.
enum class Script { signs, letters };

/// "low D-flat", "hole": the label without what its finger already says.
[[nodiscard]] std::string touch_words(const Instrument& instrument, TouchId touch);
/// "D♭", "flick A", "": the shortest form that is unique within its finger; empty for a finger's main hole.
[[nodiscard]] std::string touch_short(const Instrument& instrument, TouchId touch, Script script);
/// "low D + low C, half hole": all that is held of a set, "half" where it is half.
[[nodiscard]] std::string holds_words(const Instrument& instrument, TouchSet pressed, TouchSet half);
/// The touches, each with its finger: "left thumb low D, left little finger low D-flat".
[[nodiscard]] std::string touches_with_fingers(const Instrument& instrument, TouchSet touches);
/// The same, short: "LT D+C, R2".
[[nodiscard]] std::string touches_short(const Instrument& instrument, TouchSet touches, Script script);

/// One entry a finger that does something.
[[nodiscard]] std::vector<FingerWords> fingering_words(const Instrument& instrument, const Fingering& fingering);
/// All fingers in one string: "left thumb: low D; left index finger: hole".
[[nodiscard]] std::string one_line(const std::vector<FingerWords>& fingering);
/// "T·D+C 1 2 3 4·D♭ | T·E 1 2 3·G 4·F": left hand, then right; ½ before a half touch; "open" when nothing is held.
[[nodiscard]] std::string compact(const Instrument& instrument, const Fingering& fingering);

/// "left little finger slides low E-flat → low D-flat".
[[nodiscard]] std::string move_words(const Instrument& instrument, const FingerMove& move);
/// "press", "slide", "roll", ...
[[nodiscard]] std::string_view words(MoveKind kind);
[[nodiscard]] std::string_view words(Standing standing);
[[nodiscard]] std::string_view words(Way way);
[[nodiscard]] std::string_view words(Trait trait);
[[nodiscard]] std::string_view words(Origin origin);

/// "eighth", "dotted quarter", "half triplet", or a number of quarter notes.
[[nodiscard]] std::string length_words(ScoreTime length);
/// "D♭2" of a pitch without a spelling of its own.
[[nodiscard]] std::string pitch_words(WrittenPitch pitch);
/// A number rounded to so many decimals, trailing zeros kept; never "-0".
[[nodiscard]] std::string rounded(double value, int decimals);
/// "98 ms".
[[nodiscard]] std::string ms_words(Ms time);
/// "104 %".
[[nodiscard]] std::string percent(double share);
/// "1 note", "12 notes".
[[nodiscard]] std::string counted(std::size_t count, std::string_view one, std::string_view many);
/// "a, b and c".
[[nodiscard]] std::string listed(const std::vector<std::string>& items);
[[nodiscard]] std::string joined(const std::vector<std::string>& items, std::string_view separator);

/// "bassoon" with what lies on it: "German-system bassoon with interlinked low keys".
[[nodiscard]] std::string instrument_words(const Instrument& instrument);

}  // namespace fingerway
