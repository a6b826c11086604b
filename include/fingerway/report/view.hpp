// What this part answers: a plan in words and rounded numbers, in the order people read it. Text, CSV and page share
// it. Rounding happens here only; scripts get exact numbers (json.hpp).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// One finger of a fingering: "left thumb", "low D + low C".
struct FingerWords {
  Finger finger = Finger::LT;
  std::string finger_words;
  std::string holds;

  friend bool operator==(const FingerWords&, const FingerWords&) = default;
};

/// One finger's move into a note.
struct MoveView {
  Finger finger = Finger::LT;
  std::string words;  ///< "left little finger slides low E-flat -> low D-flat, 98 ms"
  std::string ms;     ///< "98"

  friend bool operator==(const MoveView&, const MoveView&) = default;
};

/// How the hand gets to a note.
struct ArrivalView {
  std::vector<MoveView> moves;  ///< the slowest first
  std::string needs;            ///< "170 ms"
  std::string there_is;         ///< "94 ms"
  std::string load;             ///< "181 %"
  std::string gap;              ///< "45 ms", empty when none is heard
  std::string passing;          ///< "may blip through E2, D2"; empty when nothing is passed
  std::string effort;           ///< awkwardness in points, "27"
  bool slurred = false;
  bool fits = true;

  friend bool operator==(const ArrivalView&, const ArrivalView&) = default;
};

/// One note of the passage with its fingering.
struct NoteView {
  std::size_t index = 0;
  std::string bar, beat;
  std::string note;    ///< "D♭2"
  std::string other;   ///< of a trill or tremolo, "E♭2"
  std::string length;  ///< "eighth", "dotted quarter"
  std::vector<FingerWords> fingering, other_fingering;
  std::string compact, other_compact;  ///< "T·D+C 1 2 3 4·D♭ | T·E 1 2 3·G 4·F"
  std::string mark;                    ///< what to pencil in
  std::string origin;                  ///< "table", "derived", or empty without a fingering
  std::string standing;                ///< "standard", "alternate", "trill only", or empty
  std::string rate;                    ///< of a trill: "7.1 notes a second, fluent"
  bool matters = false;                ///< choice_matters
  bool doubtful_source = false;
  std::optional<ArrivalView> arrival;
  std::vector<std::string> warnings;

  friend bool operator==(const NoteView&, const NoteView&) = default;
};

/// A moment worth practising: the note, and why in one sentence.
struct Moment {
  std::size_t note = 0;
  std::string where;  ///< "bar 3, beat 2"
  std::string what;
  bool fits = true;

  friend bool operator==(const Moment&, const Moment&) = default;
};

/// "Instrument" and "German-system bassoon", told before everything else.
struct Labelled {
  std::string label;
  std::string text;

  friend bool operator==(const Labelled&, const Labelled&) = default;
};

struct PlanView {
  std::string title;
  std::vector<Labelled> read;         ///< what was read: file, part, instrument, level, tempo
  std::vector<Labelled> key_numbers;  ///< notes, ceiling, awkwardness, worst load
  std::string decides;                ///< the change that decides the ceiling, in one sentence; may be empty
  std::vector<NoteView> notes;
  std::vector<Moment> hardest;            ///< at most five, hardest first
  std::vector<std::string> not_playable;  ///< notes without a fingering, trills out of reach
  std::vector<std::string> assumed;       ///< what rests on assumption or doubtful sources
  std::vector<std::string> remarks;       ///< of the reader
};

[[nodiscard]] PlanView view(const Played& played, const Passage& passage, const Plan& plan);
/// One note of a plan; part of view().
[[nodiscard]] NoteView note_view(const Played& played, const Passage& passage, const Plan& plan, std::size_t note);

/// "up to 96 quarter notes a minute", or why there is no such number.
[[nodiscard]] std::string ceiling_words(const PlanSummary& summary);

/// What every report says at its foot, one sentence each.
[[nodiscard]] const std::vector<std::string>& cautions();

}  // namespace fingerway
