#include "instrument_file.hpp"

#include <algorithm>
#include <utility>

#include "instrument_parts.hpp"

namespace fingerway {

namespace {

using Subject = Finding::Subject;

constexpr Bounds sounding_bounds{-48.0, 48.0};
constexpr Bounds register_bounds{1.0, 9.0};
constexpr Bounds hole_bounds{0.0, 64.0};

/// Reads one list of the file after another, in the order in which later lists name parts of earlier ones.
class InstrumentFileReader {
 public:
  explicit InstrumentFileReader(const std::filesystem::path& file) : faults_(file.string()), root_(load_yaml(file)) {}

  TracedInstrument read() {
    YamlMap map(root_, "the instrument file", faults_);
    map.file_kind("instrument");
    read_head(map);
    sources_ = read_sources(map.need("sources"), faults_);
    read_registers(map);
    read_pads(map);
    read_touches_of(map);
    read_rules(map);
    read_grips_of(map);
    read_slides(map);
    read_latches(map);
    read_table(map);
    map.finish();
    faults_.throw_if_any();
    remember_table_mechanism();
    return std::move(traced_);
  }

 private:
  [[nodiscard]] Instrument& made() { return traced_.instrument; }
  [[nodiscard]] PartContext context() { return {traced_.instrument, sources_, faults_}; }
  void came_from(Subject subject, const YamlNode& node) { traced_.places_of(subject).push_back(faults_.place(node)); }

  void read_head(YamlMap& map) {
    made().file = faults_.file();
    came_from(Subject::instrument, root_);
    made().id = map.text("id");
    if (!made().id.empty()) require_id(*map.find("id"), made().id, faults_);
    made().name = map.text("name");
    made().score_names = map.texts("score_names");
    made().score_sounds = map.texts("score_sounds");
    made().transposition.interval = Semitones(map.whole("sounding", sounding_bounds));
    const YamlNode* range = map.need("range");
    if (range == nullptr) return;
    traced_.places_of(Subject::instrument)[0] = faults_.place(*range);
    if (range->kind != YamlNode::Kind::sequence || range->items.size() != 2) {
      faults_.add(*range, "'range' must be two notes", "[lowest, highest]");
      return;
    }
    const std::optional<Spelling> lowest = read_note(range->items[0], faults_);
    const std::optional<Spelling> highest = read_note(range->items[1], faults_);
    if (lowest) made().lowest = written(*lowest);
    if (highest) made().highest = written(*highest);
  }

  void read_registers(YamlMap& map) {
    map.need("registers");
    for (const YamlNode* node : map.items("registers")) {
      YamlMap line(*node, "a register", faults_);
      RegisterRule rule;
      rule.reg = line.whole("register", register_bounds);
      rule.open_holes_that_matter = line.whole("open_holes_that_matter", hole_bounds);
      rule.evidence = read_evidence(line, context());
      line.finish();
      const bool known = std::any_of(made().registers.begin(), made().registers.end(),
                                     [&](const RegisterRule& other) { return other.reg == rule.reg; });
      if (known) faults_.add(*node, "the register " + std::to_string(rule.reg) + " stands twice", "keep one");
      made().registers.push_back(std::move(rule));
    }
  }

  void read_pads(YamlMap& map) {
    map.need("pads");
    for (const YamlNode* node : map.items("pads")) {
      YamlMap line(*node, "a pad", faults_);
      Pad pad = read_pad(line, context());
      line.finish();
      if (pad.id.empty() || !has_room(made().pads.size(), PadSet::capacity, "pads", *node, faults_)) continue;
      if (find_pad(made(), pad.id)) faults_.add(*node, "the pad " + in_quotes(pad.id) + " stands twice", "keep one");
      made().bore.emplace_back(made().pads.size());
      made().pads.push_back(std::move(pad));
      came_from(Subject::pad, *node);
    }
  }

  void read_touches_of(YamlMap& map) {
    map.need("touches");
    for (const YamlNode* node : map.items("touches")) {
      YamlMap line(*node, "a touch", faults_);
      std::optional<Touch> touch = read_touch(line, context());
      line.finish();
      if (!touch || !has_room(made().touches.size(), TouchSet::capacity, "touches", *node, faults_)) continue;
      if (find_touch(made(), full_name(*touch))) {
        faults_.add(*node, "the touch " + in_quotes(full_name(*touch)) + " stands twice", "keep one");
      }
      made().touches.push_back(std::move(*touch));
      came_from(Subject::touch, *node);
    }
  }

  void read_rules(YamlMap& map) {
    map.need("rules");
    for (const YamlNode* node : map.items("rules")) {
      if (!has_room(made().rules.size(), most_rules, "rules", *node, faults_)) break;
      YamlMap line(*node, "a rule", faults_);
      made().rules.push_back(read_rule(line, context()));
      line.finish();
      came_from(Subject::rule, *node);
    }
  }

  void read_grips_of(YamlMap& map) {
    for (const YamlNode* node : map.items("grips")) {
      YamlMap line(*node, "a grip", faults_);
      for (Grip& grip : read_grips(line, context())) {
        if (!has_room(made().grips.size(), most_grips, "grips", *node, faults_)) return;
        made().grips.push_back(std::move(grip));
        came_from(Subject::grip, *node);
      }
      line.finish();
    }
  }

  void read_slides(YamlMap& map) {
    for (const YamlNode* node : map.items("slides")) {
      if (!has_room(made().slides.size(), most_slides, "slides", *node, faults_)) break;
      YamlMap line(*node, "a slide", faults_);
      std::optional<Slide> slide = read_slide(line, context());
      line.finish();
      if (!slide) continue;
      made().slides.push_back(std::move(*slide));
      came_from(Subject::slide, *node);
    }
  }

  void read_latches(YamlMap& map) {
    for (const YamlNode* node : map.items("latches")) {
      YamlMap line(*node, "a latch", faults_);
      bool engaged = false;
      Latch latch = read_latch(line, context(), engaged);
      line.finish();
      if (!has_room(made().latches.size(), LatchSet::capacity, "latches", *node, faults_)) continue;
      if (find_latch(made(), latch.id)) faults_.add(*node, "the latch " + in_quotes(latch.id) + " stands twice");
      if (engaged) made().engaged.insert(LatchId(made().latches.size()));
      made().latches.push_back(std::move(latch));
      came_from(Subject::latch, *node);
    }
  }

  void read_table(YamlMap& map) {
    map.need("fingerings");
    for (const YamlNode* node : map.items("fingerings")) {
      if (!has_room(made().table.size(), most_fingerings, "fingerings", *node, faults_)) break;
      YamlMap line(*node, "a fingering", faults_);
      std::optional<TableFingering> entry = read_fingering(line, context());
      line.finish();
      if (!entry) continue;
      made().table.push_back(std::move(*entry));
      came_from(Subject::fingering, *node);
    }
  }

  // Conversions change rules and rest states; the table goes on meaning what it says on the stock keywork.
  void remember_table_mechanism() {
    made().table_rules = made().rules;
    for (std::size_t i = 0; i < made().pads.size(); ++i) {
      made().table_pads.insert(PadId(i));
      if (made().pads[i].rest == PadRest::closed) made().table_rest_closed.insert(PadId(i));
    }
  }

  FaultList faults_;
  YamlNode root_;
  std::map<std::string, std::string> sources_;
  TracedInstrument traced_;
};

}  // namespace

bool has_room(std::size_t count, std::size_t most, const char* parts, const YamlNode& at, FaultList& faults) {
  if (count < most) return true;
  faults.add(at, "more " + std::string(parts) + " than an instrument can have", "at most " + std::to_string(most));
  return false;
}

void require_sound(TracedInstrument& traced) {
  const std::vector<Finding> findings = check(traced.instrument);
  if (findings.empty()) return;
  FaultList faults(traced.instrument.file);
  for (const Finding& finding : findings) {
    const std::vector<Place>& places = traced.places_of(finding.subject);
    const Place place = finding.index < places.size() ? places[finding.index] : Place{faults.file(), 0, 0, {}};
    faults.add(Fault{place, finding.what, finding.hint});
  }
  faults.throw_if_any();
}

TracedInstrument read_instrument_file(const std::filesystem::path& file) {
  TracedInstrument traced = InstrumentFileReader(file).read();
  require_sound(traced);
  return traced;
}

}  // namespace fingerway
