// What this part answers: how many notes of a part were not read, and why, as remarks.
// It does not decide what is left out.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "musicxml_choice.hpp"
#include "musicxml_findings.hpp"

namespace fingerway {

/// Counts while a part is read.
class LeftOut {
 public:
  void cue_note() { ++cue_notes_; }
  void hidden_note() { ++hidden_notes_; }
  void chord_note() { ++chord_notes_; }
  void other_line(std::string_view voice, int staff, const VoiceChoice& choice);
  void own_note() { ++own_here_; }
  /// At the end of a measure: notes may stand in other voices only.
  void close_measure(const std::string& printed_name);

  void tell(const VoiceChoice& choice, Divisi divisi, Findings& findings) const;

 private:
  std::size_t cue_notes_ = 0;
  std::size_t hidden_notes_ = 0;
  std::size_t chord_notes_ = 0;
  std::size_t own_here_ = 0;
  std::size_t others_here_ = 0;
  std::size_t silent_measures_ = 0;
  std::vector<std::string> silent_;
  std::map<std::string, std::size_t, std::less<>> other_voices_;
  std::map<int, std::size_t> other_staves_;
};

}  // namespace fingerway
