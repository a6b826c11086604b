#include "fingerway/music/passage.hpp"

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <string_view>
#include <unordered_set>

namespace fingerway {

namespace {

ScoreTime beat_length(const Measure& measure) { return ScoreTime(4, measure.beat_type); }

/// Beats missing before a pickup: a first measure shorter than its time signature ends where a full one would.
ScoreTime beats_left_out(const Measure& measure) {
  if (!measure.start.is_zero()) return ScoreTime(0);
  const ScoreTime full(measure.beats);
  const ScoreTime present = measure.length / beat_length(measure);
  return present < full ? full - present : ScoreTime(0);
}

/// A fraction below one as at most three decimals (".5"), or empty when it has no such short form.
std::string short_decimals(ScoreTime fraction) {
  const ScoreTime thousandths = fraction * ScoreTime(1000);
  if (thousandths.denominator() != 1) return {};
  std::string digits = std::to_string(thousandths.numerator());
  digits.insert(0, 3 - digits.size(), '0');
  while (digits.back() == '0') digits.pop_back();
  return "." + digits;
}

std::optional<std::size_t> find_measure_from(const Passage& passage, std::size_t from, const std::string& name) {
  for (std::size_t i = from; i < passage.measures.size(); ++i) {
    if (passage.measures[i].name == name) return i;
  }
  return std::nullopt;
}

/// Measures whose remarks a cut-out leaves behind.
std::unordered_set<std::string> places_outside(const Passage& passage, std::size_t begin, std::size_t end) {
  std::unordered_set<std::string> places;
  for (std::size_t i = 0; i < passage.measures.size(); ++i) {
    if (i < begin || i >= end) places.insert("measure " + passage.measures[i].name);
  }
  for (std::size_t i = begin; i < end; ++i) places.erase("measure " + passage.measures[i].name);
  return places;
}

}  // namespace

ScoreTime beat_of(const Passage& passage, const NoteEvent& note) {
  const Measure& measure = passage.measures.at(note.place.measure);
  return (note.onset - measure.start) / beat_length(measure) + beats_left_out(measure) + ScoreTime(1);
}

std::string beat_name(const Passage& passage, const NoteEvent& note) {
  const ScoreTime beat = beat_of(passage, note);
  const std::int64_t whole = beat.numerator() / beat.denominator();
  const ScoreTime rest = beat - ScoreTime(whole);
  if (rest.is_zero()) return std::to_string(whole);
  const std::string decimals = rest > ScoreTime(0) ? short_decimals(rest) : std::string();
  if (!decimals.empty()) return std::to_string(whole) + decimals;
  return std::to_string(whole) + "+" + to_string(rest);
}

Passage bars(const Passage& passage, const std::string& first, const std::string& last) {
  const std::optional<std::size_t> begin = find_measure(passage, first);
  assert(begin);
  const std::optional<std::size_t> final_one = find_measure_from(passage, *begin, last);
  assert(final_one);
  const std::size_t end = *final_one + 1;

  Passage cut = passage;
  cut.measures.assign(passage.measures.begin() + static_cast<std::ptrdiff_t>(*begin),
                      passage.measures.begin() + static_cast<std::ptrdiff_t>(end));
  std::erase_if(cut.notes,
                [&](const NoteEvent& note) { return note.place.measure < *begin || note.place.measure >= end; });
  for (NoteEvent& note : cut.notes) note.place.measure -= static_cast<std::uint32_t>(*begin);
  const std::unordered_set<std::string> outside = places_outside(passage, *begin, end);
  std::erase_if(cut.remarks, [&](const Remark& remark) { return outside.contains(remark.within); });
  return cut;
}

std::optional<std::size_t> find_measure(const Passage& passage, const std::string& printed_name, int pass) {
  // A cut-out may begin with a bar's second time: the first that is there is meant then.
  if (pass <= 1) return find_measure_from(passage, 0, printed_name);
  const auto found = std::ranges::find_if(
      passage.measures, [&](const Measure& one) { return one.name == printed_name && one.pass == pass; });
  if (found == passage.measures.end()) return std::nullopt;
  return static_cast<std::size_t>(found - passage.measures.begin());
}

}  // namespace fingerway
