#include "fingerway/report/page_answers.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

/// A text in double quotes, as YAML reads it back.
std::string in_quotes(const std::string& text) {
  std::string result = "\"";
  for (char c : text) {
    if (c == '"' || c == '\\') result += '\\';
    result += c;
  }
  return result + "\"";
}

std::string names_of(const Instrument& instrument, TouchSet touches) {
  std::vector<std::string> names;
  for (TouchId touch : touches) names.push_back(full_name(instrument.touches[touch.index]));
  return "[" + joined(names, ", ") + "]";
}

/// "3:2+1/2", "3:2 time 2": the place as choices files write it.
std::string place_of(const Passage& passage, std::size_t note) {
  const NoteEvent& event = passage.notes[note];
  const ScoreTime beat = beat_of(passage, event);
  const std::int64_t whole = beat.numerator() / beat.denominator();
  const ScoreTime rest = beat - ScoreTime(whole);
  const Measure& measure = passage.measures[event.place.measure];
  std::string text = measure.name + ":" + std::to_string(whole);
  if (!rest.is_zero()) text += "+" + std::to_string(rest.numerator()) + "/" + std::to_string(rest.denominator());
  if (measure.pass > 1) text += " time " + std::to_string(measure.pass);
  return in_quotes(text);
}

std::string pin_line(const Instrument& instrument, const Passage& passage, const Pin& pin) {
  std::string text = "  - {at: " + place_of(passage, pin.note) + ", ";
  if (!pin.whole) return text + "with: " + names_of(instrument, pin.fingering.pressed) + "}\n";
  text += "fingering: {press: " + names_of(instrument, pin.fingering.pressed - pin.fingering.half);
  if (!pin.fingering.half.empty()) text += ", half: " + names_of(instrument, pin.fingering.half);
  if (!pin.fingering.flicked.empty()) text += ", flick: " + names_of(instrument, pin.fingering.flicked);
  return text + "}}\n";
}

template <class Stretches>
std::string stretch_lines(const char* key, const Instrument& instrument, const Passage& passage,
                          const Stretches& stretches) {
  if (stretches.empty()) return {};
  std::string text = std::string(key) + ":\n";
  for (const auto& stretch : stretches) {
    text += "  - {from: " + place_of(passage, stretch.first) + ", to: " + place_of(passage, stretch.last) +
            ", touches: " + names_of(instrument, stretch.touches) + "}\n";
  }
  return text;
}

}  // namespace

std::string choices_text(const Played& played, const Passage& passage, const Choices& choices) {
  const Instrument& instrument = played.instrument;
  std::string text = "# Choices for " + instrument_words(instrument) + "\nfingerway: choices\nversion: 1\n";
  if (!choices.pins.empty()) {
    text += "pins:\n";
    for (const Pin& pin : choices.pins) text += pin_line(instrument, passage, pin);
  }
  text += stretch_lines("bans", instrument, passage, choices.bans) +
          stretch_lines("holds", instrument, passage, choices.holds);
  std::string latches;
  for (LatchId latch : instrument.engaged)
    latches += (latches.empty() ? "" : ", ") + instrument.latches[latch.index].id;
  return latches.empty() ? text : text + "latches: [" + latches + "]\n";
}

}  // namespace fingerway
