#include "instrument_file.hpp"

#include <algorithm>
#include <utility>

#include "instrument_parts.hpp"
#include "like_file.hpp"

namespace fingerway {

namespace {

using Subject = Finding::Subject;

constexpr Bounds register_bounds{1.0, 9.0};
constexpr Bounds hole_bounds{0.0, 64.0};

/// Reads one list of the file after another, in the order in which later lists name parts of earlier ones.
class InstrumentFileReader {
 public:
  InstrumentFileReader(const std::filesystem::path& file, YamlNode root)
      : faults_(file.string()), root_(std::move(root)) {}

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
    remember_table_mechanism(made());
    return std::move(traced_);
  }

 private:
  [[nodiscard]] Instrument& made() { return traced_.instrument; }
  [[nodiscard]] PartContext context() { return {traced_.instrument, sources_, faults_}; }
  void came_from(Subject subject, const YamlNode& node) { traced_.places_of(subject).push_back(faults_.place(node)); }

  void read_head(YamlMap& map) {
    made().file = faults_.file();
    came_from(Subject::instrument, root_);
    read_identity(map, made(), faults_);
    made().family = made().id;
    read_range(map, made(), faults_);
    if (const YamlNode* range = map.find("range")) {
      traced_.places_of(Subject::instrument)[0] = faults_.place(*range);
    }
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
      if (find_latch(made(), latch.id))
        faults_.add(*node, "the latch " + in_quotes(latch.id) + " stands twice", "keep one");
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

  FaultList faults_;
  YamlNode root_;
  std::map<std::string, std::string> sources_;
  TracedInstrument traced_;
};

}  // namespace

void remember_table_mechanism(Instrument& instrument) {
  instrument.table_rules = instrument.rules;
  instrument.table_pads = {};
  instrument.table_rest_closed = {};
  for (std::size_t i = 0; i < instrument.pads.size(); ++i) {
    instrument.table_pads.insert(PadId(i));
    if (instrument.pads[i].rest == PadRest::closed) instrument.table_rest_closed.insert(PadId(i));
  }
}

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
  return read_instrument_file(file, load_yaml(file));
}

TracedInstrument read_instrument_file(const std::filesystem::path& file, YamlNode root) {
  const auto is_like = [](const YamlNode& key) { return key.text == "like"; };
  TracedInstrument traced = std::any_of(root.keys.begin(), root.keys.end(), is_like)
                                ? read_like_file(file, root)
                                : InstrumentFileReader(file, std::move(root)).read();
  require_sound(traced);
  return traced;
}

}  // namespace fingerway
