#include "fingerway/read/choices_file.hpp"

#include <charconv>

#include "yaml_strict.hpp"

namespace fingerway {
namespace {

constexpr const char* place_hint =
    "bar:beat, as \"3:2\", \"3:2.5\" or \"3:2+1/3\"; a bar alone is the whole bar; \"3:2 time 2\" is the repeat's";
constexpr std::int64_t most_times = 99;

std::optional<std::int64_t> small_number(std::string_view text) {
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || value < 0 || value > 100'000) return std::nullopt;
  return value;
}

/// "2", "2.5", "2+1/3".
std::optional<ScoreTime> parse_beat(std::string_view text) {
  const std::size_t plus = text.find('+');
  const std::size_t dot = text.find('.');
  if (plus != std::string_view::npos) {
    const std::string_view fraction = text.substr(plus + 1);
    const std::size_t bar = fraction.find('/');
    if (bar == std::string_view::npos) return std::nullopt;
    const auto whole = small_number(text.substr(0, plus));
    const auto over = small_number(fraction.substr(0, bar));
    const auto under = small_number(fraction.substr(bar + 1));
    if (!whole || !over || !under || *under == 0) return std::nullopt;
    return ScoreTime(*whole) + ScoreTime(*over, *under);
  }
  if (dot != std::string_view::npos) {
    const std::string_view decimals = text.substr(dot + 1);
    const auto whole = small_number(text.substr(0, dot));
    const auto part = small_number(decimals);
    if (!whole || !part || decimals.size() > 4) return std::nullopt;
    std::int64_t scale = 1;
    for (std::size_t i = 0; i < decimals.size(); ++i) scale *= 10;
    return ScoreTime(*whole) + ScoreTime(*part, scale);
  }
  const auto whole = small_number(text);
  return whole ? std::optional(ScoreTime(*whole)) : std::nullopt;
}

std::optional<BarBeat> read_place(YamlMap& line, std::string_view key, FaultList& faults) {
  const YamlNode* node = line.find(key);
  if (node == nullptr) return std::nullopt;
  const auto text = yaml_text(*node, "'" + std::string(key) + "'", faults);
  if (!text) return std::nullopt;
  auto place = parse_bar_beat(*text);
  if (!place) faults.add(*node, in_quotes(*text) + " is not a place", place_hint);
  return place;
}

WrittenTouches read_written_touches(const YamlNode& node, FaultList& faults) {
  YamlMap map(node, "a fingering", faults);
  WrittenTouches touches;
  if (!map.usable()) return touches;
  touches.press = map.texts("press");
  touches.half = map.texts("half");
  touches.flick = map.texts("flick");
  map.finish();
  return touches;
}

void read_pin(const YamlNode& item, ChoicesFile& choices, FaultList& faults) {
  YamlMap line(item, "a pin", faults);
  if (!line.usable()) return;
  WrittenPin pin;
  pin.place = faults.place(item);
  static_cast<void>(line.need("at"));
  const auto at = read_place(line, "at", faults);
  const YamlNode* fingering = line.find("fingering");
  const std::vector<std::string> with = line.texts("with");
  line.finish();
  if ((fingering != nullptr) == !with.empty()) {
    faults.add(item, "a pin needs either 'fingering' or 'with'",
               "fingering: {press: [...], half: [...], flick: [...]} or with: [touch, ...]");
    return;
  }
  if (fingering != nullptr) {
    pin.touches = read_written_touches(*fingering, faults);
  } else {
    pin.touches.press = with;
    pin.whole = false;
  }
  if (at) {
    pin.at = *at;
    choices.pins.push_back(std::move(pin));
  }
}

void read_stretch(const YamlNode& item, const char* what, std::vector<WrittenStretch>& list, FaultList& faults) {
  YamlMap line(item, what, faults);
  if (!line.usable()) return;
  WrittenStretch stretch;
  stretch.place = faults.place(item);
  stretch.touches = line.texts("touches");
  if (line.need("touches") != nullptr && stretch.touches.empty())
    faults.add(item, "'touches' is empty", "touches: [touch, ...]");
  stretch.from = read_place(line, "from", faults);
  stretch.to = read_place(line, "to", faults);
  line.finish();
  list.push_back(std::move(stretch));
}

}  // namespace

std::optional<BarBeat> parse_bar_beat(std::string_view text) {
  BarBeat place;
  constexpr std::string_view word = " time ";
  if (const std::size_t said = text.rfind(word); said != std::string_view::npos) {
    const auto time = small_number(text.substr(said + word.size()));
    if (!time || *time < 1 || *time > most_times) return std::nullopt;
    place.time = static_cast<int>(*time);
    text = text.substr(0, said);
  }
  const std::size_t colon = text.rfind(':');
  place.bar = std::string(text.substr(0, colon));
  if (place.bar.empty() || place.bar.size() > 64) return std::nullopt;
  if (colon == std::string_view::npos) return place;
  place.beat = parse_beat(text.substr(colon + 1));
  if (!place.beat) return std::nullopt;
  return place;
}

ChoicesFile read_choices_file(const std::filesystem::path& file) {
  return parse_choices_file(read_text_file(file), file.string());
}

ChoicesFile parse_choices_file(const std::string& text, const std::string& name) {
  const YamlNode root = parse_yaml(text, name);
  FaultList faults(name);
  YamlMap top(root, "the choices file", faults);
  ChoicesFile choices;
  choices.file = name;
  top.file_kind("choices");
  for (const YamlNode* item : top.items("pins")) read_pin(*item, choices, faults);
  for (const YamlNode* item : top.items("bans")) read_stretch(*item, "a ban", choices.bans, faults);
  for (const YamlNode* item : top.items("holds")) read_stretch(*item, "a hold", choices.holds, faults);
  choices.latches = top.texts("latches");
  top.finish();
  faults.throw_if_any();
  return choices;
}

}  // namespace fingerway
