#include "musicxml_directions.hpp"

#include <algorithm>
#include <array>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <utility>

#include "musicxml_names.hpp"
#include "musicxml_text.hpp"

namespace fingerway {

namespace {

/// Loudness that stays in force after a sign. An accent such as sf says nothing about the notes after it.
std::optional<Dynamic> dynamic_named(std::string_view word) {
  constexpr std::array<std::pair<std::string_view, Dynamic>, 20> signs = {{
      {"ppp", Dynamic::ppp},   {"pp", Dynamic::pp},      {"p", Dynamic::p},        {"mp", Dynamic::mp},
      {"mf", Dynamic::mf},     {"f", Dynamic::f},        {"ff", Dynamic::ff},      {"fff", Dynamic::fff},
      {"pppp", Dynamic::ppp},  {"ppppp", Dynamic::ppp},  {"pppppp", Dynamic::ppp}, {"ffff", Dynamic::fff},
      {"fffff", Dynamic::fff}, {"ffffff", Dynamic::fff}, {"n", Dynamic::ppp},      {"fp", Dynamic::p},
      {"sfp", Dynamic::p},     {"sfpp", Dynamic::pp},    {"pf", Dynamic::f},       {"sfzp", Dynamic::p},
  }};
  const auto row = std::ranges::find(signs, word, &std::pair<std::string_view, Dynamic>::first);
  return row == signs.end() ? std::nullopt : std::optional<Dynamic>(row->second);
}

/// The first number in a text such as "ca. 92" or "88-92".
std::optional<double> number_within(std::string_view text) {
  constexpr std::string_view digits = "0123456789";
  const std::size_t first = text.find_first_of(digits);
  if (first == std::string_view::npos) return std::nullopt;
  text.remove_prefix(first);
  return parse_inexact(text.substr(0, text.find_first_not_of(digits)));
}

/// A tempo somebody may have meant. Slower or faster ones are slips of whatever wrote the file.
std::optional<Qpm> plausible(double quarters_a_minute, Findings& findings) {
  constexpr double slowest = 1.0;
  constexpr double fastest = 4000.0;
  if (quarters_a_minute >= slowest && quarters_a_minute <= fastest) return Qpm(quarters_a_minute);
  findings.remark("a tempo outside 1 to 4000 quarter notes a minute is left out");
  return std::nullopt;
}

/// The two sides of a metronome mark in quarter notes: the beat, or the values before and after "=". Units tied
/// together count as one, each with its dots.
struct MetronomeValues {
  std::optional<ScoreTime> first;
  std::optional<ScoreTime> second;
  bool readable = true;
};

MetronomeValues metronome_values(const pugi::xml_node& metronome) {
  MetronomeValues values;
  ScoreTime dot;
  const auto add = [&](ScoreTime value) {
    dot = value;
    std::optional<ScoreTime>& side = values.second ? values.second : values.first;
    side = side.value_or(ScoreTime(0)) + value;
  };
  for (const pugi::xml_node child : metronome.children()) {
    const std::string_view word = child.name();
    if (word == "beat-unit-dot") add(dot / ScoreTime(2));
    const bool tied = word == "beat-unit-tied";
    if (!tied && word != "beat-unit") continue;
    const std::optional<ScoreTime> value = note_value(text_of(tied ? child.child("beat-unit") : child));
    if (!value) {
      values.readable = false;
      return values;
    }
    if (!tied && values.first) values.second = values.second.value_or(ScoreTime(0));
    add(*value);
    for (pugi::xml_node more = child.child("beat-unit-dot"); more; more = more.next_sibling("beat-unit-dot")) {
      add(dot / ScoreTime(2));
    }
  }
  return values;
}

std::optional<TempoMark> metronome_tempo(const pugi::xml_node& metronome, Findings& findings) {
  const MetronomeValues values = metronome_values(metronome);
  const std::string_view count = text_of(metronome.child("per-minute"));
  if (values.readable && values.first && values.second && count.empty()) {
    findings.remark("a metronome mark of two note values: the second is taken to last as long as the first did before");
    return TempoMark{Qpm(0.0), TempoSource::metronome_mark, values.second->quarters() / values.first->quarters()};
  }
  if (metronome.child("metronome-note")) {
    findings.remark("swing or another relation of note values is not applied: notes are planned as written");
    return std::nullopt;
  }
  std::optional<double> per_minute = parse_inexact(count);
  const bool stated = values.readable && values.first && !values.second;
  if (stated && !per_minute) {
    per_minute = number_within(count);
    if (per_minute) findings.remark("the metronome mark " + short_quote(count) + " is read as its first number");
  }
  if (!stated || !per_minute) {
    findings.remark("a metronome mark that states no beats a minute is left out");
    return std::nullopt;
  }
  const std::optional<Qpm> tempo = plausible(values.first->quarters() * *per_minute, findings);
  if (!tempo) return std::nullopt;
  return TempoMark{*tempo, TempoSource::metronome_mark, std::nullopt};
}

/// Whether words speak of the tempo ("Allegro", "poco rit.").
bool are_tempo_words(std::string_view text) {
  constexpr std::array<std::string_view, 54> known = {
      "accel",       "accelerando", "adagio",  "affrettando", "allarg",      "allargando", "allegretto", "allegro",
      "andante",     "andantino",   "calando", "fast",        "grave",       "langsam",    "largamente", "larghetto",
      "largo",       "lebhaft",     "lent",    "lento",       "lively",      "maestoso",   "mäßig",      "moderato",
      "moderately",  "modéré",      "mosso",   "mässig",      "prestissimo", "presto",     "quickly",    "rall",
      "rallentando", "rasch",       "rit",     "ritard",      "ritardando",  "ritenuto",   "rubato",     "schnell",
      "slow",        "slower",      "slowly",  "stretto",     "stringendo",  "tempo",      "vif",        "vivace",
      "vivo",        "faster",      "ruhig",   "bewegt",      "animato",     "vite"};
  const std::vector<std::string> words = words_of(text.substr(0, 200));
  return std::ranges::any_of(
      words, [&](const std::string& word) { return std::ranges::find(known, std::string_view(word)) != known.end(); });
}

bool are_swing_words(std::string_view text) {
  const std::vector<std::string> words = words_of(text.substr(0, 200));
  return !words.empty() && words.size() <= 4 && std::ranges::find(words, "swing") != words.end();
}

void tell_swing(Findings& findings) { findings.remark("swing is not applied: notes are planned as written"); }

void read_words(std::string_view text, DirectionMarks& marks, Findings& findings) {
  if (are_tempo_words(text)) marks.tempo_words = std::string(text.substr(0, 200));
  if (are_swing_words(text)) tell_swing(findings);
  const std::vector<std::string> words = words_of(text.substr(0, 200));
  if (std::ranges::find(words, "multiphonic") != words.end()) {
    findings.remark("a multiphonic is planned as its written note");
  }
}

void read_wedge(const pugi::xml_node& wedge, DirectionMarks& marks) {
  const std::string_view type = wedge.attribute("type").value();
  const int number = parse_whole(wedge.attribute("number").as_string("1"), 1, 16).value_or(1);
  if (type == "crescendo") marks.wedges.push_back({Wedge::Kind::crescendo, number});
  if (type == "diminuendo") marks.wedges.push_back({Wedge::Kind::diminuendo, number});
  if (type == "stop") marks.wedges.push_back({Wedge::Kind::stop, number});
}

void read_direction_type(const pugi::xml_node& sign, DirectionMarks& marks, Findings& findings) {
  const std::string_view word = sign.name();
  if (word == "dynamics") {
    if (const std::optional<Dynamic> dynamic = dynamic_of(sign)) marks.dynamic = dynamic;
  } else if (word == "metronome") {
    if (const std::optional<TempoMark> tempo = metronome_tempo(sign, findings)) marks.tempo = tempo;
  } else if (word == "wedge") {
    read_wedge(sign, marks);
  } else if (word == "words") {
    read_words(text_of(sign), marks, findings);
  }
  // An octave-shift moves the print only: pitches in the file are "their true pitched values" (MusicXML 4.0, type
  // octave-shift), which is what the player plays.
}

}  // namespace

std::optional<Dynamic> dynamic_of(const pugi::xml_node& dynamics) {
  std::optional<Dynamic> dynamic;
  for (const pugi::xml_node sign : dynamics.children()) {
    if (const std::optional<Dynamic> named = dynamic_named(sign.name())) dynamic = named;
  }
  return dynamic;
}

std::optional<ScoreTime> note_value(std::string_view word) {
  constexpr std::array<std::string_view, 14> values = {"maxima",  "long",   "breve", "whole", "half",
                                                       "quarter", "eighth", "16th",  "32nd",  "64th",
                                                       "128th",   "256th",  "512th", "1024th"};
  const auto place = std::ranges::find(values, word);
  if (place == values.end()) return std::nullopt;
  const auto halvings = static_cast<unsigned>(place - values.begin());
  return ScoreTime(32) / ScoreTime(std::int64_t{1} << halvings);
}

DirectionMarks direction_marks(const pugi::xml_node& direction, Findings& findings) {
  DirectionMarks marks;
  for (const pugi::xml_node type : direction.children("direction-type")) {
    for (const pugi::xml_node sign : type.children()) read_direction_type(sign, marks, findings);
  }
  // The player reads the printed mark, so it wins over the number meant for playing back; but "a note value equals
  // another" is counted from the tempo before, and a number says it outright.
  const std::optional<Qpm> sound = sound_tempo(direction.child("sound"), findings);
  if (sound && (!marks.tempo || marks.tempo->factor)) {
    marks.tempo = TempoMark{*sound, TempoSource::sound_element, std::nullopt};
  }
  if (!marks.tempo_words.empty() && !marks.tempo) {
    findings.remark("the tempo words " + short_quote(marks.tempo_words) + " state no number: the tempo stays as it is");
  }
  return marks;
}

std::optional<Qpm> sound_tempo(const pugi::xml_node& sound, Findings& findings) {
  if (sound.child("swing") && !sound.child("swing").child("straight")) tell_swing(findings);
  const pugi::xml_attribute attribute = sound.attribute("tempo");
  if (!attribute) return std::nullopt;
  const std::optional<double> tempo = parse_inexact(attribute.value());
  if (!tempo) {
    findings.fault("tempo " + short_quote(attribute.value()) + " is not a number");
    return std::nullopt;
  }
  return plausible(*tempo, findings);
}

}  // namespace fingerway
