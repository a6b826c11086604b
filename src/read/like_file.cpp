#include "like_file.hpp"

#include <algorithm>
#include <utility>

#include "conversion_file.hpp"
#include "instrument_parts.hpp"

namespace fingerway {

namespace {

using Subject = Finding::Subject;

/// Members of a set under the indices they have once some are gone.
template <class IdT>
IdSet<IdT> renumbered(IdSet<IdT> set, IdSet<IdT> gone) {
  IdSet<IdT> result;
  std::size_t before = 0;
  for (std::size_t i = 0; i < IdSet<IdT>::capacity; ++i) {
    if (gone.contains(IdT(i))) continue;
    if (set.contains(IdT(i))) result.insert(IdT(before));
    ++before;
  }
  return result;
}

template <class IdT>
IdT renumbered(IdT id, IdSet<IdT> gone) {
  return renumbered(IdSet<IdT>{id}, gone).first();
}

/// Pads that some rule moved in `before` and none moves now.
PadSet idle_pads(const std::vector<Rule>& before, const std::vector<Rule>& now) {
  PadSet idle;
  for (const Rule& rule : before) idle |= rule.opens | rule.closes;
  for (const Rule& rule : now) idle -= rule.opens | rule.closes;
  return idle;
}

void leave_off_pads(TracedInstrument& traced, PadSet gone) {
  Instrument& made = traced.instrument;
  for (Rule& rule : made.rules) {
    rule.opens = renumbered(rule.opens, gone);
    rule.closes = renumbered(rule.closes, gone);
  }
  for (Latch& latch : made.latches) {
    latch.opens = renumbered(latch.opens - gone, gone);
    latch.closes = renumbered(latch.closes - gone, gone);
  }
  std::erase_if(made.bore, [&](PadId pad) { return gone.contains(pad); });
  for (PadId& pad : made.bore) pad = renumbered(pad, gone);
  std::size_t i = 0;
  erase_traced(made.pads, traced.places_of(Subject::pad), [&](const Pad&) { return gone.contains(PadId(i++)); });
}

/// What an instrument is without.
struct LeftOff {
  TouchSet touches;
  PadSet pads;
};

void leave_off(TracedInstrument& traced, const LeftOff& left_off) {
  Instrument& made = traced.instrument;
  const TouchSet gone = left_off.touches;
  for (TouchId touch : gone) made.touches[touch.index].removed = true;
  const std::vector<Rule> before = made.rules;
  drop_removed_touches(traced);
  for (Rule& rule : made.rules) {
    rule.opens -= left_off.pads;
    rule.closes -= left_off.pads;
  }
  erase_traced(made.rules, traced.places_of(Subject::rule),
               [](const Rule& rule) { return rule.opens.empty() && rule.closes.empty(); });
  leave_off_pads(traced, idle_pads(before, made.rules) | left_off.pads);
  erase_traced(made.table, traced.places_of(Subject::fingering), [&](const TableFingering& line) {
    return (line.fingering.pressed | line.fingering.flicked).intersects(gone) || line.pitch < made.lowest ||
           line.pitch > made.highest;
  });
  for (Rule& rule : made.rules) {
    rule.when = renumbered(rule.when, gone);
    rule.unless = renumbered(rule.unless, gone);
  }
  for (Grip& grip : made.grips) grip.touches = renumbered(grip.touches, gone);
  for (Slide& slide : made.slides) {
    slide.a = renumbered(slide.a, gone);
    slide.b = renumbered(slide.b, gone);
  }
  for (TableFingering& line : made.table) {
    line.fingering.pressed = renumbered(line.fingering.pressed, gone);
    line.fingering.half = renumbered(line.fingering.half, gone);
    line.fingering.flicked = renumbered(line.fingering.flicked, gone);
    line.optional_touches = renumbered(line.optional_touches - gone, gone);
  }
  std::size_t i = 0;
  erase_traced(made.touches, traced.places_of(Subject::touch),
               [&](const Touch&) { return gone.contains(TouchId(i++)); });
  remember_table_mechanism(made);
}

/// Table lines that do not hold on the plainer instrument, each named by its note and mark.
void leave_off_lines(YamlMap& without, TracedInstrument& traced, FaultList& faults) {
  for (const YamlNode* node : without.items("fingerings")) {
    YamlMap line(*node, "a fingering left off", faults);
    const YamlNode* note = line.need("note");
    const std::optional<Spelling> spelling = note != nullptr ? read_note(*note, faults) : std::nullopt;
    const std::string mark = line.text("mark");
    line.finish();
    if (!spelling) continue;
    std::vector<TableFingering>& table = traced.instrument.table;
    const std::size_t before = table.size();
    erase_traced(table, traced.places_of(Subject::fingering),
                 [&](const TableFingering& each) { return each.pitch == written(*spelling) && each.mark == mark; });
    if (table.size() == before) {
      faults.add(*node, "no fingering of " + name(*spelling) + " has the mark " + in_quotes(mark),
                 "name a line of the instrument it is like");
    }
  }
}

/// The table lines of its own, pressed on what is left.
void add_own_lines(YamlMap& map, TracedInstrument& traced, FaultList& faults) {
  const std::map<std::string, std::string> sources = read_sources(map.find("sources"), faults);
  for (const YamlNode* node : map.items("fingerings")) {
    YamlMap line(*node, "a fingering", faults);
    std::optional<TableFingering> entry = read_fingering(line, {traced.instrument, sources, faults});
    line.finish();
    if (!entry || !has_room(traced.instrument.table.size(), most_fingerings, "fingerings", *node, faults)) continue;
    traced.instrument.table.push_back(std::move(*entry));
    traced.places_of(Subject::fingering).push_back(faults.place(*node));
  }
}

bool names_another(const YamlNode& root) {
  return std::any_of(root.keys.begin(), root.keys.end(), [](const YamlNode& key) { return key.text == "like"; });
}

/// The instrument a file is like. One step only: chains would hide where a part comes from.
TracedInstrument read_model(const std::filesystem::path& file, const YamlNode& at, const std::string& id,
                            FaultList& faults) {
  if (!is_id(id)) {
    faults.add(at, in_quotes(id) + " is not an id", "'like' names an instrument of the same folder: clarinet");
    faults.throw_if_any();
  }
  const std::filesystem::path model = file.parent_path() / (id + ".yaml");
  std::error_code error;
  if (!std::filesystem::exists(model, error)) {
    faults.add(at, "no instrument " + in_quotes(id) + " in the folder of this file", "'like' looks there only");
    faults.throw_if_any();
  }
  if (names_another(load_yaml(model))) {
    faults.add(at, in_quotes(id) + " is itself like another instrument", "name that one");
    faults.throw_if_any();
  }
  return read_instrument_file(model);
}

}  // namespace

TracedInstrument read_like_file(const std::filesystem::path& file, const YamlNode& root) {
  FaultList faults(file.string());
  YamlMap map(root, "the instrument file", faults);
  map.file_kind("instrument");
  const std::string like = map.text("like");
  TracedInstrument traced = read_model(file, *map.find("like"), like, faults);
  Instrument& made = traced.instrument;
  made.file = faults.file();
  made.family = made.id;
  traced.places_of(Subject::instrument)[0] = faults.place(root);
  const std::vector<std::string> names = made.score_names;
  const std::vector<std::string> sounds = made.score_sounds;
  read_identity(map, made, faults);
  if (map.find("score_names") == nullptr) made.score_names = names;
  if (map.find("score_sounds") == nullptr) made.score_sounds = sounds;
  if (map.find("range") != nullptr) read_range(map, made, faults);
  if (const YamlNode* node = map.find("without")) {
    YamlMap without(*node, "'without'", faults);
    const std::map<std::string, std::string> no_sources;
    const PartContext context{made, no_sources, faults};
    const LeftOff left_off{.touches = read_touches(without, "touches", context),
                           .pads = read_pad_names(without, "pads", context)};
    leave_off_lines(without, traced, faults);
    without.finish();
    faults.throw_if_any();
    leave_off(traced, left_off);
  }
  add_own_lines(map, traced, faults);
  map.finish();
  faults.throw_if_any();
  return traced;
}

}  // namespace fingerway
