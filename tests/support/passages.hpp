// What this part answers: passages and players made in code for tests, and the project's own instruments by id.
// It reads no scores.
#pragma once

#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "fingerway/music/passage.hpp"
#include "fingerway/plan/played.hpp"
#include "fingerway/read/instrument_files.hpp"
#include "fingerway/read/motion_file.hpp"
#include "support/scratch_folder.hpp"

namespace fingerway {

/// Equal notes one after the other, as a test asks for them.
struct NoteRow {
  ScoreTime each = ScoreTime(1, 2);  ///< quarter notes from one onset to the next
  Qpm tempo{92.0};
  Attack attack = Attack::slurred;
  Dynamic dynamic = Dynamic::unmarked;
};

[[nodiscard]] inline Spelling spelled(std::string_view name) {
  const auto spelling = parse_spelling(name);
  if (!spelling) throw std::runtime_error("no note name: " + std::string(name));
  return *spelling;
}

[[nodiscard]] inline WrittenPitch pitch_named(std::string_view name) { return written(spelled(name)); }

/// One measure of equal notes; the first is tongued, the others as the row says.
[[nodiscard]] inline Passage passage_of(const std::vector<std::string>& names, const NoteRow& row = {}) {
  Passage passage;
  passage.part_id = "P1";
  passage.voice = "1";
  passage.tempo = TempoMap({{.at = ScoreTime(), .tempo = row.tempo, .source = TempoSource::request}});
  ScoreTime now;
  for (const std::string& name : names) {
    NoteEvent note;
    note.spelling = spelled(name);
    note.pitch = written(note.spelling);
    note.onset = now;
    note.length = row.each;
    note.attack = passage.notes.empty() ? Attack::tongued : row.attack;
    note.dynamic = row.dynamic;
    note.place.element = static_cast<std::uint32_t>(passage.notes.size());
    passage.notes.push_back(note);
    now += row.each;
  }
  Measure measure;
  measure.name = "1";
  measure.length = now;
  passage.measures = {measure};
  return passage;
}

[[nodiscard]] inline InstrumentFolders own_instruments() { return {{project_folder() / "instruments"}}; }

/// The numbers of instruments/motion.yaml, read once.
[[nodiscard]] inline const MotionNumbers& own_numbers() {
  static const MotionNumbers numbers = read_motion_numbers(project_folder() / "instruments" / "motion.yaml");
  return numbers;
}

/// The same with every fitted number back at its prior, so that what is worked out by hand does not follow the fit.
[[nodiscard]] inline const MotionNumbers& prior_numbers() {
  static const MotionNumbers numbers = [] {
    MotionNumbers made = own_numbers();
    for (const NamedNumber& named : named_numbers(made)) named.number->value = named.number->prior;
    return made;
  }();
  return numbers;
}

/// One of the project's instruments in the hands of a typical player; worked out once a test process.
[[nodiscard]] inline const Played& own_played(const std::string& stacked, Level level = Level::amateur) {
  static std::map<std::pair<std::string, Level>, Played> known;
  const auto found = known.find({stacked, level});
  if (found != known.end()) return found->second;
  return known
      .emplace(std::pair(stacked, level), played(read_instrument(stacked, own_instruments()), own_numbers(), level))
      .first->second;
}

[[nodiscard]] inline TouchId touch_named(const Instrument& instrument, std::string_view name) {
  const auto touch = find_touch(instrument, name);
  if (!touch) throw std::runtime_error("no touch: " + std::string(name));
  return *touch;
}

[[nodiscard]] inline TouchSet touches_named(const Instrument& instrument, const std::vector<std::string>& names) {
  TouchSet set;
  for (const std::string& name : names) set.insert(touch_named(instrument, name));
  return set;
}

/// "LT.low-d LT.low-c": for messages of failing checks.
[[nodiscard]] inline std::string names_of(const Instrument& instrument, TouchSet touches) {
  std::string text;
  for (TouchId touch : touches) text += (text.empty() ? "" : " ") + full_name(instrument.touches[touch.index]);
  return text;
}

}  // namespace fingerway
