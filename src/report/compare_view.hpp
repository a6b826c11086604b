// What this part answers: a comparison in words, in the order people read it; text and page share it.
// Private to report.
#pragma once

#include <string>
#include <vector>

#include "fingerway/decide/compare.hpp"
#include "fingerway/report/view.hpp"

namespace fingerway {

/// One number of both instruments.
struct TotalView {
  std::string label;
  std::string stock;
  std::string converted;
};

/// A note where the two plans part.
struct DifferenceView {
  std::size_t note = 0;
  std::string where;  ///< "bar 3, beat 2, E♭2"
  NoteView stock;
  NoteView converted;
  bool fingering_differs = false;
};

/// Fingerings only one instrument has, by note.
struct ChangedNote {
  std::string note;
  std::vector<std::string> fingerings;  ///< short forms, with their mark and standing
};

struct CompareView {
  PlanView stock;
  PlanView converted;
  std::vector<Labelled> read;  ///< of both
  std::string stock_name;
  std::string converted_name;
  std::vector<TotalView> totals;
  std::string verdict;  ///< what the conversion does for the passage, in one sentence
  std::vector<DifferenceView> differing;
  std::vector<ChangedNote> gained;
  std::vector<ChangedNote> lost;
};

[[nodiscard]] CompareView view(const Played& stock, const Played& converted, const Passage& passage,
                               const Comparison& comparison);

/// Fingerings by note, leanest first.
[[nodiscard]] std::vector<ChangedNote> changed_notes(const Instrument& instrument,
                                                     const std::vector<SoundedFingering>& list);
/// "left thumb rolls on low C, 70 ms": the slowest move, or that nothing moves.
[[nodiscard]] std::string arrival_words(const NoteView& note);

}  // namespace fingerway
