#include "instrument_parts.hpp"

#include <algorithm>
#include <utility>

namespace fingerway {

namespace {

// Generous limits: a contrabass instrument is some three metres of tube.
constexpr Bounds spot_bounds{-1000.0, 4000.0};
constexpr Bounds width_bounds{1.0, 100.0};
constexpr Bounds cents_bounds{-200.0, 200.0};
constexpr Bounds register_bounds{1.0, 9.0};
constexpr Bounds sounding_bounds{-48.0, 48.0};
constexpr Bounds partial_bounds{2.0, 9.0};
constexpr int lowest_key = 0;
constexpr int highest_key = 127;

std::vector<std::string> touch_names(const Instrument& parts) {
  std::vector<std::string> names;
  for (const Touch& touch : parts.touches) names.push_back(full_name(touch));
  return names;
}

std::string label_or_id(YamlMap& line, const std::string& id) {
  std::string label = id;
  std::replace(label.begin(), label.end(), '-', ' ');
  return line.text_or("label", std::move(label));
}

Standing read_standing(YamlMap& line) {
  return line.word_or<Standing>(
      "standing",
      {{"standard", Standing::standard}, {"alternate", Standing::alternate}, {"trill-only", Standing::trill_only}},
      Standing::standard);
}

std::vector<Trait> read_traits(YamlMap& line, const PartContext& context) {
  static const std::vector<std::pair<std::string, Trait>> words = {
      {"sharp", Trait::sharp},       {"flat", Trait::flat},          {"soft", Trait::soft},
      {"stuffy", Trait::stuffy},     {"unstable", Trait::unstable},  {"stable", Trait::stable},
      {"resonant", Trait::resonant}, {"resistant", Trait::resistant}};
  std::vector<Trait> traits;
  for (const YamlNode* item : line.items("traits")) {
    const auto found = std::find_if(words.begin(), words.end(), [&](const auto& word) {
      return item->kind == YamlNode::Kind::scalar && word.first == item->text;
    });
    if (found != words.end()) {
      traits.push_back(found->second);
      continue;
    }
    std::vector<std::string> known;
    known.reserve(words.size());
    for (const auto& word : words) known.push_back(word.first);
    context.faults.add(*item, "unknown trait " + in_quotes(item->text), suggestion(item->text, known));
  }
  return traits;
}

}  // namespace

std::map<std::string, std::string> read_sources(const YamlNode* node, FaultList& faults) {
  std::map<std::string, std::string> sources;
  if (node == nullptr) return sources;
  YamlMap map(*node, "'sources'", faults);
  for (const YamlNode& key : node->keys) {
    if (key.kind != YamlNode::Kind::scalar) continue;
    require_id(key, key.text, faults);
    if (!sources.contains(key.text)) sources[key.text] = map.text(key.text);
  }
  return sources;
}

void require_id(const YamlNode& at, const std::string& id, FaultList& faults) {
  if (!is_id(id)) faults.add(at, in_quotes(id) + " is not an id", "lower-case letters, digits and single hyphens");
}

void read_identity(YamlMap& map, Instrument& made, FaultList& faults) {
  made.id = map.text("id");
  if (!made.id.empty()) require_id(*map.find("id"), made.id, faults);
  made.name = map.text("name");
  made.score_names = map.texts("score_names");
  made.score_sounds = map.texts("score_sounds");
  made.transposition.interval = Semitones(map.whole("sounding", sounding_bounds));
}

void read_range(YamlMap& map, Instrument& made, FaultList& faults) {
  const YamlNode* range = map.need("range");
  if (range == nullptr) return;
  if (range->kind != YamlNode::Kind::sequence || range->items.size() != 2) {
    faults.add(*range, "'range' must be two notes", "[lowest, highest]");
    return;
  }
  const std::optional<Spelling> lowest = read_note(range->items[0], faults);
  const std::optional<Spelling> highest = read_note(range->items[1], faults);
  if (lowest) made.lowest = written(*lowest);
  if (highest) made.highest = written(*highest);
}

Evidence read_evidence(YamlMap& line, const PartContext& context) {
  Evidence evidence;
  std::vector<const YamlNode*> cited;
  if (const YamlNode* source = line.need("source")) {
    if (source->kind == YamlNode::Kind::scalar) {
      cited.push_back(source);
    } else {
      cited = yaml_items(*source, "'source'", context.faults);
      if (cited.empty() && source->kind == YamlNode::Kind::sequence) {
        context.faults.add(*source, "'source' is empty", "name at least one source");
      }
    }
  }
  std::vector<std::string> known;
  for (const auto& [name, text] : context.sources) known.push_back(name);
  for (const YamlNode* item : cited) {
    const std::optional<std::string> name = yaml_text(*item, "a source", context.faults);
    if (!name) continue;
    const auto found = context.sources.find(*name);
    if (found != context.sources.end()) {
      evidence.sources.push_back(found->second);
    } else {
      context.faults.add(*item, "unknown source " + in_quotes(*name), suggestion(*name, known));
    }
  }
  evidence.confidence = line.word<Confidence>("confidence", {{"very-low", Confidence::very_low},
                                                             {"low", Confidence::low},
                                                             {"medium", Confidence::medium},
                                                             {"high", Confidence::high}});
  evidence.disputed = line.text_or("disputed", {});
  return evidence;
}

std::optional<TouchId> read_touch_name(const YamlNode& node, const PartContext& context) {
  const std::optional<std::string> name = yaml_text(node, "a touch", context.faults);
  if (!name) return std::nullopt;
  const std::optional<TouchId> touch = find_touch(context.parts, *name);
  if (!touch) {
    context.faults.add(node, "unknown touch " + in_quotes(*name), suggestion(*name, touch_names(context.parts)));
  }
  return touch;
}

std::optional<PadId> read_pad_name(const YamlNode& node, const PartContext& context) {
  const std::optional<std::string> name = yaml_text(node, "a pad", context.faults);
  if (!name) return std::nullopt;
  const std::optional<PadId> pad = find_pad(context.parts, *name);
  if (!pad) {
    std::vector<std::string> known;
    for (const Pad& each : context.parts.pads) known.push_back(each.id);
    context.faults.add(node, "unknown pad " + in_quotes(*name), suggestion(*name, known));
  }
  return pad;
}

PadSet read_pad_names(YamlMap& line, std::string_view key, const PartContext& context) {
  PadSet pads;
  for (const YamlNode* item : line.items(key)) {
    if (const std::optional<PadId> pad = read_pad_name(*item, context)) pads.insert(*pad);
  }
  return pads;
}

std::vector<TouchId> read_touch_list(YamlMap& line, std::string_view key, const PartContext& context) {
  std::vector<TouchId> touches;
  for (const YamlNode* item : line.items(key)) {
    const std::optional<TouchId> touch = read_touch_name(*item, context);
    if (!touch) continue;
    if (std::find(touches.begin(), touches.end(), *touch) == touches.end()) {
      touches.push_back(*touch);
    } else {
      context.faults.add(*item, in_quotes(item->text) + " stands twice in '" + std::string(key) + "'", "keep one");
    }
  }
  return touches;
}

TouchSet read_touches(YamlMap& line, std::string_view key, const PartContext& context) {
  TouchSet touches;
  for (TouchId touch : read_touch_list(line, key, context)) touches.insert(touch);
  return touches;
}

Spot read_spot(const YamlNode& node, FaultList& faults) {
  const std::vector<const YamlNode*> items = yaml_items(node, "'at'", faults);
  if (node.kind != YamlNode::Kind::sequence) return {};
  if (items.size() != 2) {
    faults.add(node, "'at' must be two numbers", "[millimetres along the body, millimetres across]");
    return {};
  }
  return {Mm(yaml_number(*items[0], "'at'", spot_bounds, faults).value_or(0.0)),
          Mm(yaml_number(*items[1], "'at'", spot_bounds, faults).value_or(0.0))};
}

Pad read_pad(YamlMap& line, const PartContext& context) {
  Pad pad;
  pad.id = line.text("id");
  if (!pad.id.empty()) require_id(*line.find("id"), pad.id, context.faults);
  pad.label = label_or_id(line, pad.id);
  pad.kind = line.word<PadKind>(
      "kind", {{"tone-hole", PadKind::tone_hole}, {"vent", PadKind::vent}, {"open-end", PadKind::open_end}});
  pad.rest = line.word<PadRest>("rest", {{"open", PadRest::open}, {"closed", PadRest::closed}});
  pad.springs_open = line.flag_or("springs_open", false);
  pad.opening_wins = line.flag_or("opening_wins", false);
  pad.evidence = read_evidence(line, context);
  return pad;
}

std::optional<Touch> read_touch(YamlMap& line, const PartContext& context) {
  Touch touch;
  const std::string id = line.text("id");
  const std::size_t dot = id.find('.');
  const std::optional<Finger> finger = parse_finger(std::string_view(id).substr(0, dot));
  touch.name = dot == std::string::npos ? std::string() : id.substr(dot + 1);
  if (!id.empty() && (!finger || !is_id(touch.name))) {
    context.faults.add(*line.find("id"), in_quotes(id) + " is not a touch id",
                       "a finger (LT, L1 to L4, RT, R1 to R4), a dot and a name: R4.low-c");
  }
  touch.finger = finger.value_or(Finger::LT);
  touch.label = label_or_id(line, touch.name);
  if (const YamlNode* at = line.need("at")) touch.spot = read_spot(*at, context.faults);
  touch.width = Mm(line.number_or("width", width_bounds, touch.width.value()));
  touch.spot_measured = line.word_or<bool>("at_basis", {{"assumed", false}, {"measured", true}}, false);
  touch.can_be_half = line.flag_or("half", false);
  touch.evidence = read_evidence(line, context);
  if (!finger || !is_id(touch.name)) return std::nullopt;
  return touch;
}

Rule read_rule(YamlMap& line, const PartContext& context) {
  Rule rule;
  line.need("when");
  rule.when = read_touches(line, "when", context);
  rule.unless = read_touches(line, "unless", context);
  rule.opens = read_pad_names(line, "opens", context);
  rule.closes = read_pad_names(line, "closes", context);
  rule.evidence = read_evidence(line, context);
  return rule;
}

std::vector<Grip> read_grips(YamlMap& line, const PartContext& context) {
  std::vector<Grip> grips;
  const bool is_row = line.find("row") != nullptr;
  if (is_row == (line.find("hold") != nullptr) && line.usable()) {
    context.faults.add(line.node(), "a grip needs either 'row' or 'hold'",
                       "hold: touches pressed together, or row: neighbours in order, any run of which can be");
  }
  const std::vector<TouchId> held = read_touch_list(line, "hold", context);
  const std::vector<TouchId> row = read_touch_list(line, "row", context);
  const Evidence evidence = read_evidence(line, context);
  if (!is_row) {
    Grip grip{{}, evidence};
    for (TouchId touch : held) grip.touches.insert(touch);
    grips.push_back(std::move(grip));
    return grips;
  }
  if (row.size() < 2) context.faults.add(line.node(), "a row needs two touches at least", "row: [touch, touch, ...]");
  for (std::size_t first = 0; first < row.size(); ++first) {
    Grip grip{{row[first]}, evidence};
    for (std::size_t last = first + 1; last < row.size(); ++last) {
      grip.touches.insert(row[last]);
      grips.push_back(grip);
    }
  }
  return grips;
}

std::optional<Slide> read_slide(YamlMap& line, const PartContext& context) {
  const YamlNode* between = line.need("between");
  const std::vector<TouchId> touches = read_touch_list(line, "between", context);
  Slide slide;
  slide.roller = line.flag_or("roller", false);
  slide.one_plate = line.flag_or("one_plate", false);
  slide.evidence = read_evidence(line, context);
  if (touches.size() != 2) {
    const bool other_count =
        between != nullptr && between->kind == YamlNode::Kind::sequence && between->items.size() != 2;
    if (other_count) context.faults.add(*between, "a slide is between two touches", "between: [touch, touch]");
    return std::nullopt;
  }
  slide.a = touches[0];
  slide.b = touches[1];
  return slide;
}

Latch read_latch(YamlMap& line, const PartContext& context, bool& engaged) {
  Latch latch;
  latch.id = line.text("id");
  if (!latch.id.empty()) require_id(*line.find("id"), latch.id, context.faults);
  latch.label = label_or_id(line, latch.id);
  latch.opens = read_pad_names(line, "opens", context);
  latch.closes = read_pad_names(line, "closes", context);
  engaged = line.flag_or("engaged", false);
  latch.evidence = read_evidence(line, context);
  return latch;
}

std::optional<Spelling> read_note(const YamlNode& node, FaultList& faults) {
  const std::optional<std::string> text = yaml_text(node, "a note", faults);
  if (!text) return std::nullopt;
  const std::optional<Spelling> spelling = parse_spelling(*text);
  if (!spelling) {
    faults.add(node, in_quotes(*text) + " is not a note name",
               "a letter, # or b, an octave: C#2, Bb1 (C4 is middle C)");
    return std::nullopt;
  }
  const int key = written(*spelling).key;
  if (key < lowest_key || key > highest_key) {
    faults.add(node, in_quotes(*text) + " is beyond any instrument",
               "notes from " + name(chart_spelling(WrittenPitch(lowest_key))) + " to " +
                   name(chart_spelling(WrittenPitch(highest_key))));
    return std::nullopt;
  }
  return spelling;
}

namespace {

/// How the note comes about; a harmonic names the partial and the note it is a partial of.
void read_way(YamlMap& line, const PartContext& context, TableFingering& entry) {
  entry.way = line.word_or<Way>("way",
                                {{"plain", Way::plain},
                                 {"forked", Way::forked},
                                 {"long", Way::full},
                                 {"muted", Way::muted},
                                 {"harmonic", Way::harmonic}},
                                Way::plain);
  const YamlNode* partial = line.find("partial");
  const YamlNode* of = line.find("of");
  const bool harmonic = entry.way == Way::harmonic;
  if (line.usable() && (harmonic != (partial != nullptr) || harmonic != (of != nullptr))) {
    context.faults.add(line.node(), "'partial' and 'of' belong to 'way: harmonic'",
                       "the partial that sounds, and the note whose fingering is overblown");
  }
  entry.partial = line.whole_or("partial", partial_bounds, 0);
  if (of != nullptr) {
    if (const std::optional<Spelling> note = read_note(*of, context.faults)) entry.partial_of = written(*note);
  }
  if (const YamlNode* partner = line.find("partner")) {
    if (const std::optional<Spelling> note = read_note(*partner, context.faults)) entry.partner = written(*note);
  }
}

}  // namespace

std::optional<TableFingering> read_fingering(YamlMap& line, const PartContext& context) {
  TableFingering entry;
  const YamlNode* note = line.need("note");
  const std::optional<Spelling> spelling = note != nullptr ? read_note(*note, context.faults) : std::nullopt;
  entry.reg = line.whole_or("register", register_bounds, 1);
  line.need("press");
  entry.fingering.pressed = read_touches(line, "press", context);
  entry.fingering.half = read_touches(line, "half", context);
  entry.fingering.flicked = read_touches(line, "flick", context);
  entry.optional_touches = read_touches(line, "optional", context);
  entry.standing = read_standing(line);
  read_way(line, context, entry);
  entry.traits = read_traits(line, context);
  if (const std::optional<double> cents = line.number_if("cents", cents_bounds)) entry.cents = Cents(*cents);
  entry.mark = line.text_or("mark", {});
  entry.remark = line.text_or("remark", {});
  entry.confirmed_whole = line.flag_or("whole", true);
  entry.evidence = read_evidence(line, context);
  if (!spelling) return std::nullopt;
  entry.spelling = *spelling;
  entry.pitch = written(*spelling);
  return entry;
}

}  // namespace fingerway
