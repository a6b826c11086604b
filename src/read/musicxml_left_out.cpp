#include "musicxml_left_out.hpp"

#include "musicxml_text.hpp"

namespace fingerway {

namespace {

constexpr std::size_t most_listed = 20;

std::string are(std::size_t count) { return count == 1 ? " is " : " are "; }

}  // namespace

void LeftOut::other_line(std::string_view voice, int staff, const VoiceChoice& choice) {
  ++others_here_;
  if (voice == choice.voice) {
    ++other_staves_[staff];
    return;
  }
  const auto known = other_voices_.find(voice);
  if (known != other_voices_.end()) {
    ++known->second;
  } else {
    other_voices_.emplace(std::string(voice), 1);
  }
}

void LeftOut::close_measure(const std::string& printed_name) {
  if (own_here_ == 0 && others_here_ > 0) {
    if (silent_.size() < most_listed) silent_.push_back(printed_name);
    ++silent_measures_;
  }
  own_here_ = others_here_ = 0;
}

void LeftOut::tell(const VoiceChoice& choice, Divisi divisi, Findings& findings) const {
  if (cue_notes_ > 0) findings.remark(counted(cue_notes_, "cue note") + are(cue_notes_) + "not planned");
  if (hidden_notes_ > 0) {
    findings.remark(counted(hidden_notes_, "note") + " that" + are(hidden_notes_) + "not printed: not planned");
  }
  if (chord_notes_ > 0) {
    findings.remark("of chords, the " + std::string(divisi == Divisi::top ? "top" : "bottom") +
                    " notes are planned: " + counted(chord_notes_, "note") + are(chord_notes_) + "left out");
  }
  std::size_t listed = 0;
  std::size_t voices_more = 0;
  std::size_t notes_more = 0;
  for (const auto& [voice, notes] : other_voices_) {
    if (listed < most_listed) {
      ++listed;
      findings.remark("voice " + short_quote(voice) + " is not read (" + counted(notes, "note") + ")");
    } else {
      ++voices_more;
      notes_more += notes;
    }
  }
  if (voices_more > 0) {
    findings.remark(counted(voices_more, "more voice") + are(voices_more) + "not read (" + counted(notes_more, "note") +
                    ")");
  }
  for (const auto& [staff, notes] : other_staves_) {
    findings.remark("voice " + short_quote(choice.voice) + " on staff " + std::to_string(staff) + " is not read (" +
                    counted(notes, "note") + ")");
  }
  if (silent_measures_ == 0) return;
  std::string names;
  for (const std::string& name : silent_) names += (names.empty() ? "" : ", ") + name;
  if (silent_measures_ > silent_.size()) names += ", ...";
  findings.remark("voice " + short_quote(choice.voice) +
                  " has no notes where others have: " + counted(silent_measures_, "measure") + " (" + names + ")");
}

}  // namespace fingerway
