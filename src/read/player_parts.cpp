#include "player_parts.hpp"

namespace fingerway {
namespace {

constexpr Bounds trill_rates{.least = 1.0, .most = 30.0};
constexpr Bounds hand_spans{.least = 100.0, .most = 350.0};

std::optional<WrittenPitch> read_note(const YamlNode& node, const std::string& what, FaultList& faults) {
  const auto text = yaml_text(node, what, faults);
  if (!text) return std::nullopt;
  const auto spelling = parse_spelling(*text);
  if (spelling) return written(*spelling);
  faults.add(node, in_quotes(*text) + " is not a note name", "as Db2, F#3, C4 (middle C)");
  return std::nullopt;
}

std::optional<WrittenPitch> read_note_if(YamlMap& map, std::string_view key, FaultList& faults) {
  const YamlNode* node = map.find(key);
  return node == nullptr ? std::nullopt : read_note(*node, "'" + std::string(key) + "'", faults);
}

void read_rates(const YamlNode& node, MeasuredHand& hand, FaultList& faults) {
  YamlMap map(node, "the measured rates", faults);
  if (!map.usable()) return;
  for (Finger finger : all_fingers) {
    if (const auto rate = map.number_if(code(finger), trill_rates)) {
      hand.rates[index(finger)] = NotesPerSecond(*rate);
    }
  }
  map.finish();
}

std::vector<WrittenName> read_names(YamlMap& map, std::string_view key, FaultList& faults) {
  std::vector<WrittenName> names;
  for (const YamlNode* item : map.items(key)) {
    if (const auto text = yaml_text(*item, "a finger or touch", faults)) names.push_back({item, *text});
  }
  return names;
}

enum class Neighbours { none, allowed };

std::optional<WrittenFingering> read_fingering(const YamlNode& node, Neighbours neighbours, FaultList& faults) {
  YamlMap map(node, "a fingering", faults);
  if (!map.usable()) return std::nullopt;
  WrittenFingering result;
  result.node = &node;
  const YamlNode* note = map.need("note");
  const auto pitch = note == nullptr ? std::nullopt : read_note(*note, "'note'", faults);
  const YamlNode* mark = map.find("mark");
  const YamlNode* press = map.find("press");
  const YamlNode* flick = map.find("flick");
  if (mark != nullptr) result.mark = yaml_text(*mark, "'mark'", faults).value_or("");
  result.press = map.texts("press");
  result.half = map.texts("half");
  result.flick = map.texts("flick");
  if (neighbours == Neighbours::allowed) {
    result.after = read_note_if(map, "after", faults);
    result.before = read_note_if(map, "before", faults);
  }
  map.finish();
  const bool touches = press != nullptr || flick != nullptr || !result.half.empty();
  if ((mark != nullptr) == touches) {
    faults.add(node, "a fingering needs either its 'mark' or its touches",
               "mark: \"...\" as fingerway chart shows it, or press: [...], half: [...], flick: [...]");
    return std::nullopt;
  }
  if (!pitch) return std::nullopt;
  result.pitch = *pitch;
  result.note = note->text;
  return result;
}

void read_fingerings(const std::vector<const YamlNode*>& items, Neighbours neighbours,
                     std::vector<WrittenFingering>& list, FaultList& faults) {
  for (const YamlNode* item : items) {
    if (auto fingering = read_fingering(*item, neighbours, faults)) list.push_back(std::move(*fingering));
  }
}

WrittenLearned read_learned(const YamlNode& node, FaultList& faults) {
  WrittenLearned learned;
  YamlMap map(node, "what is learned", faults);
  if (!map.usable()) return learned;
  if (const YamlNode* range = map.find("standard")) {
    const auto ends = yaml_items(*range, "'standard'", faults);
    if (ends.size() == 2) {
      const auto low = read_note(*ends[0], "the lowest note", faults);
      const auto high = read_note(*ends[1], "the highest note", faults);
      if (low && high && *high < *low) faults.add(*range, "the highest note is below the lowest");
      if (low && high) learned.standard = {*low, *high};
    } else if (range->kind == YamlNode::Kind::sequence) {
      faults.add(*range, "'standard' must hold two notes", "standard: [lowest, highest]");
    }
  }
  read_fingerings(map.items("also"), Neighbours::none, learned.also, faults);
  map.finish();
  return learned;
}

}  // namespace

bool WrittenPlayer::names_touches() const {
  return !cannot_use.empty() || !should_rest.empty() || learned || !not_learned.empty() || !preferred.empty();
}

WrittenPlayer read_written_player(YamlMap& map, FaultList& faults) {
  WrittenPlayer player;
  player.name = map.text_or("name", "");
  player.level = map.word_or<Level>(
      "level", {{"professional", Level::professional}, {"amateur", Level::amateur}, {"beginner", Level::beginner}},
      Level::amateur);
  if (const YamlNode* rates = map.find("notes_per_second")) read_rates(*rates, player.hand, faults);
  if (const auto span = map.number_if("hand_span", hand_spans)) player.hand.span = Mm(*span);
  player.cannot_use = read_names(map, "cannot_use", faults);
  player.should_rest = read_names(map, "should_rest", faults);
  if (const YamlNode* learned = map.find("learned")) player.learned = read_learned(*learned, faults);
  player.holds_through = map.flag_or("holds_through", true);
  read_fingerings(map.items("not_learned"), Neighbours::none, player.not_learned, faults);
  read_fingerings(map.items("preferred"), Neighbours::none, player.preferred, faults);
  read_fingerings(map.items("habits"), Neighbours::allowed, player.preferred, faults);
  return player;
}

}  // namespace fingerway
