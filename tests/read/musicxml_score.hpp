// Small MusicXML texts for tests, put together from notes.
#pragma once

#include <string>

#include "fingerway/music/passage.hpp"
#include "fingerway/read/musicxml.hpp"

namespace fingerway::test {

/// A <note> of the chosen pitch; `units` are divisions (2 to a quarter in one_part), `more` is put after the duration.
inline std::string note(const std::string& step, int octave, int units, const std::string& more = {}) {
  std::string alter;
  if (step.size() > 1) alter = step[1] == '#' ? "<alter>1</alter>" : "<alter>-1</alter>";
  return "<note><pitch><step>" + step.substr(0, 1) + "</step>" + alter + "<octave>" + std::to_string(octave) +
         "</octave></pitch><duration>" + std::to_string(units) + "</duration>" + more + "</note>";
}

/// A grace note, drawn with its slash.
inline std::string grace(const std::string& step, int octave, const std::string& attributes = "slash=\"yes\"") {
  return "<note><grace " + attributes + "/><pitch><step>" + step + "</step><octave>" + std::to_string(octave) +
         "</octave></pitch></note>";
}

inline std::string rest(int units) { return "<note><rest/><duration>" + std::to_string(units) + "</duration></note>"; }

inline std::string notations(const std::string& inside) { return "<notations>" + inside + "</notations>"; }

inline std::string measure(const std::string& number, const std::string& inside) {
  return "<measure number=\"" + number + "\">" + inside + "</measure>";
}

inline const std::string two_to_a_quarter = "<attributes><divisions>2</divisions></attributes>";

/// A score of one part, P1 "Bassoon".
inline std::string one_part(const std::string& measures) {
  return "<score-partwise version=\"4.0\"><part-list><score-part id=\"P1\"><part-name>Bassoon</part-name></score-part>"
         "</part-list><part id=\"P1\">" +
         measures + "</part></score-partwise>";
}

/// A score of one measure in divisions of 2 to a quarter.
inline std::string one_measure(const std::string& inside) { return one_part(measure("1", two_to_a_quarter + inside)); }

inline Passage parsed(const std::string& text, const ScoreChoice& choice = {}) {
  return parse_musicxml(text, "score.musicxml", choice);
}

/// Names of the notes, in order.
inline std::string names(const Passage& passage) {
  std::string list;
  for (const NoteEvent& event : passage.notes) list += (list.empty() ? "" : " ") + name(event.spelling);
  return list;
}

/// One letter a note: t tongued, s slurred.
inline std::string attacks(const Passage& passage) {
  std::string list;
  for (const NoteEvent& event : passage.notes) list += event.attack == Attack::slurred ? 's' : 't';
  return list;
}

/// "onset+length" of each note, in quarters.
inline std::string times(const Passage& passage) {
  std::string list;
  for (const NoteEvent& event : passage.notes) {
    list += (list.empty() ? "" : " ") + to_string(event.onset) + "+" + to_string(event.length);
  }
  return list;
}

/// "within: what" of each remark, a line each.
inline std::string remarks(const Passage& passage) {
  std::string list;
  for (const Remark& remark : passage.remarks) list += remark.within + ": " + remark.what + "\n";
  return list;
}

}  // namespace fingerway::test
