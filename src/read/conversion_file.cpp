#include "conversion_file.hpp"

#include <algorithm>
#include <utility>

#include "instrument_parts.hpp"

namespace fingerway {

namespace {

using Subject = Finding::Subject;

constexpr Bounds width_bounds{1.0, 100.0};

std::string names(const Instrument& instrument, TouchSet touches) {
  std::string text;
  for (TouchId id : touches) text += (text.empty() ? "" : ", ") + full_name(instrument.touches[id.index]);
  return text;
}

/// Reads one conversion file and carries out each of its lines on the stack at once.
class ConversionReader {
 public:
  ConversionReader(const std::filesystem::path& file, const YamlNode& root, const Instrument& stock,
                   TracedInstrument& stack, ConversionClaims& claims)
      : faults_(file.string()), root_(root), stock_(stock), stack_(stack), claims_(claims) {}

  void lay_over() {
    YamlMap map(root_, "the conversion file", faults_);
    map.file_kind("conversion");
    sheet_ = read_sheet(map, stock_, faults_);
    // Over another instrument every name would be unknown; one fault says it better.
    faults_.throw_if_any();
    sources_ = read_sources(map.find("sources"), faults_);
    widen_range(map);
    in_section(map, "pads", [this](YamlMap& section) { pads(section); });
    in_section(map, "touches", [this](YamlMap& section) { touches(section); });
    in_section(map, "rules", [this](YamlMap& section) { rules(section); });
    in_section(map, "grips", [this](YamlMap& section) { grips(section); });
    in_section(map, "slides", [this](YamlMap& section) { slides(section); });
    in_section(map, "latches", [this](YamlMap& section) { latches(section); });
    in_section(map, "fingerings", [this](YamlMap& section) { fingerings(section); });
    map.finish();
    faults_.throw_if_any();
    made().conversions.push_back(std::move(sheet_));
  }

 private:
  [[nodiscard]] Instrument& made() { return stack_.instrument; }
  [[nodiscard]] PartContext context() { return {stack_.instrument, sources_, faults_}; }
  void came_from(Subject subject, const YamlNode& node) { stack_.places_of(subject).push_back(faults_.place(node)); }
  void state(const std::string& subject, const std::string& value, const YamlNode& at) {
    claims_.state(sheet_.id, subject, value, at, faults_);
  }
  // A touch that one conversion builds on must not be taken off by another.
  void state_used(TouchSet touches, const YamlNode& at) {
    for (TouchId id : touches) state("the touch " + full_name(made().touches[id.index]), "used", at);
  }

  // A conversion may add notes, never take any from the range; of several the widest counts, in any order.
  void widen_range(YamlMap& map) {
    if (map.find("range") == nullptr) return;
    Instrument named = made();
    read_range(map, named, faults_);
    made().lowest = std::min(made().lowest, named.lowest);
    made().highest = std::max(made().highest, named.highest);
  }

  template <class Work>
  void in_section(YamlMap& map, const char* key, Work work) {
    const YamlNode* node = map.find(key);
    if (node == nullptr) return;
    YamlMap section(*node, "'" + std::string(key) + "'", faults_);
    work(section);
    section.finish();
  }

  /// Every line of one list, read by `work` as a map called `what`.
  template <class Work>
  void each_line(YamlMap& section, const char* key, const char* what, Work work) {
    for (const YamlNode* node : section.items(key)) {
      YamlMap line(*node, what, faults_);
      if (!line.usable()) continue;
      work(line, *node);
      line.finish();
    }
  }

  void pads(YamlMap& section) {
    each_line(section, "add", "a pad", [this](YamlMap& line, const YamlNode& at) { add_pad(line, at); });
    each_line(section, "change", "a changed pad", [this](YamlMap& line, const YamlNode& at) { change_pad(line, at); });
  }

  void add_pad(YamlMap& line, const YamlNode& at) {
    Pad pad = read_pad(line, context());
    const YamlNode* after = line.need("after");
    const std::optional<PadId> anchor = after != nullptr ? read_pad_name(*after, context()) : std::nullopt;
    if (pad.id.empty() || !anchor) return;
    state("the pad " + pad.id, "added by " + sheet_.id, at);
    if (find_pad(stock_, pad.id))
      faults_.add(at, "the instrument already has a pad " + in_quotes(pad.id), "another id, or 'change' it");
    if (!has_room(made().pads.size(), PadSet::capacity, "pads", at, faults_)) return;
    // Several conversions may add behind the same pad; their order must not decide, so the ids do.
    auto place = std::find(made().bore.begin(), made().bore.end(), *anchor) + 1;
    while (place != made().bore.end() && !made().table_pads.contains(*place) && made().pads[place->index].id < pad.id) {
      ++place;
    }
    made().bore.insert(place, PadId(made().pads.size()));
    made().pads.push_back(std::move(pad));
    came_from(Subject::pad, at);
  }

  void change_pad(YamlMap& line, const YamlNode& at) {
    const YamlNode* id = line.need("id");
    const std::optional<PadId> found = id != nullptr ? read_pad_name(*id, context()) : std::nullopt;
    Pad scratch = found ? made().pads[found->index] : Pad{};
    Pad& pad = found ? made().pads[found->index] : scratch;
    const std::string who = "the pad " + pad.id;
    const bool named =
        line.find("rest") != nullptr || line.find("springs_open") != nullptr || line.find("opening_wins") != nullptr;
    if (!named) faults_.add(at, "a changed pad that changes nothing", "name 'rest', 'springs_open' or 'opening_wins'");
    if (line.find("rest") != nullptr) {
      pad.rest = line.word<PadRest>("rest", {{"open", PadRest::open}, {"closed", PadRest::closed}});
      state(who + ", its rest", pad.rest == PadRest::open ? "open" : "closed", at);
    }
    if (line.find("springs_open") != nullptr) {
      pad.springs_open = line.flag_or("springs_open", false);
      state(who + ", 'springs_open'", pad.springs_open ? "true" : "false", at);
    }
    if (line.find("opening_wins") != nullptr) {
      pad.opening_wins = line.flag_or("opening_wins", false);
      state(who + ", 'opening_wins'", pad.opening_wins ? "true" : "false", at);
    }
  }

  void touches(YamlMap& section) {
    each_line(section, "add", "a touch", [this](YamlMap& line, const YamlNode& at) { add_touch(line, at); });
    each_line(section, "move", "a moved touch", [this](YamlMap& line, const YamlNode& at) { move_touch(line, at); });
    for (const YamlNode* node : section.items("remove")) {
      const std::optional<TouchId> touch = read_touch_name(*node, context());
      if (!touch) continue;
      state("the touch " + node->text, "taken off", *node);
      made().touches[touch->index].removed = true;
    }
  }

  void add_touch(YamlMap& line, const YamlNode& at) {
    std::optional<Touch> touch = read_touch(line, context());
    if (!touch) return;
    const std::string id = full_name(*touch);
    state("the new touch " + id, "added by " + sheet_.id, at);
    if (find_touch(stock_, id))
      faults_.add(at, "the instrument already has a touch " + in_quotes(id), "another id, or 'move' it");
    if (!has_room(made().touches.size(), TouchSet::capacity, "touches", at, faults_)) return;
    touch->from = sheet_.id;
    made().touches.push_back(std::move(*touch));
    came_from(Subject::touch, at);
  }

  void move_touch(YamlMap& line, const YamlNode& at) {
    const YamlNode* id = line.need("id");
    const std::optional<TouchId> found = id != nullptr ? read_touch_name(*id, context()) : std::nullopt;
    Touch scratch = found ? made().touches[found->index] : Touch{};
    Touch& touch = found ? made().touches[found->index] : scratch;
    if (const YamlNode* place = line.need("at")) touch.spot = read_spot(*place, faults_);
    touch.width = Mm(line.number_or("width", width_bounds, touch.width.value()));
    touch.spot_measured = line.word_or<bool>("at_basis", {{"assumed", false}, {"measured", true}}, false);
    if (!found) return;
    state_used({*found}, at);
    state("the place of " + full_name(touch),
          std::to_string(touch.spot.along.value()) + ", " + std::to_string(touch.spot.across.value()) + ", width " +
              std::to_string(touch.width.value()),
          at);
  }

  void rules(YamlMap& section) {
    // Removed first: a rule that stays word for word is written again among the added ones.
    each_line(section, "remove", "a removed rule", [this](YamlMap& line, const YamlNode& at) {
      line.need("when");
      const TouchSet when = read_touches(line, "when", context());
      const TouchSet unless = read_touches(line, "unless", context());
      const auto is_it = [&](const Rule& rule) {
        return rule.from.empty() && rule.when == when && rule.unless == unless;
      };
      if (std::none_of(stock_.rules.begin(), stock_.rules.end(), is_it)) {
        faults_.add(at, "no such rule to remove", "'when' and 'unless' must be those of a rule of the base");
      }
      erase_traced(made().rules, stack_.places_of(Subject::rule), is_it);
    });
    each_line(section, "add", "a rule", [this](YamlMap& line, const YamlNode& at) { add_rule(line, at); });
  }

  void add_rule(YamlMap& line, const YamlNode& at) {
    Rule rule = read_rule(line, context());
    rule.from = sheet_.id;
    if (!has_room(made().rules.size(), most_rules, "rules", at, faults_)) return;
    state_used(rule.when | rule.unless, at);
    std::string held = names(made(), rule.when);
    if (!rule.unless.empty()) held += " unless " + names(made(), rule.unless);
    for (PadId pad : rule.opens) state("the pad " + made().pads[pad.index].id + " under " + held, "opens", at);
    for (PadId pad : rule.closes) state("the pad " + made().pads[pad.index].id + " under " + held, "closes", at);
    const bool known = std::any_of(made().rules.begin(), made().rules.end(), [&](const Rule& other) {
      return other.when == rule.when && other.unless == rule.unless && other.opens == rule.opens &&
             other.closes == rule.closes;
    });
    if (known) return;
    made().rules.push_back(std::move(rule));
    came_from(Subject::rule, at);
  }

  void grips(YamlMap& section) {
    each_line(section, "add", "a grip", [this](YamlMap& line, const YamlNode& at) {
      for (Grip& grip : read_grips(line, context())) {
        state_used(grip.touches, at);
        state("holding " + names(made(), grip.touches) + " together", "possible", at);
        const bool known = std::any_of(made().grips.begin(), made().grips.end(),
                                       [&](const Grip& other) { return other.touches == grip.touches; });
        if (known || !has_room(made().grips.size(), most_grips, "grips", at, faults_)) continue;
        made().grips.push_back(std::move(grip));
        came_from(Subject::grip, at);
      }
    });
    each_line(section, "remove", "a removed grip", [this](YamlMap& line, const YamlNode& at) {
      line.need("hold");
      const TouchSet touches = read_touches(line, "hold", context());
      const auto is_it = [&](const Grip& grip) { return grip.touches == touches; };
      if (std::none_of(stock_.grips.begin(), stock_.grips.end(), is_it)) {
        faults_.add(at, "no such grip to remove", "'hold' must name the touches of a grip of the base");
      }
      state("holding " + names(made(), touches) + " together", "not possible", at);
      erase_traced(made().grips, stack_.places_of(Subject::grip), is_it);
    });
  }

  void slides(YamlMap& section) {
    each_line(section, "add", "a slide", [this](YamlMap& line, const YamlNode& at) {
      std::optional<Slide> slide = read_slide(line, context());
      if (!slide) return;
      const TouchSet ends{slide->a, slide->b};
      state_used(ends, at);
      state_slide(ends, slide->roller ? "with a roller" : "without a roller", at);
      if (find_slide(stock_, ends) != nullptr) {
        faults_.add(at, "the instrument already has a slide between " + names(made(), ends), "'change' it");
      }
      if (find_slide(made(), ends) != nullptr || !has_room(made().slides.size(), most_slides, "slides", at, faults_)) {
        return;
      }
      slide->from = sheet_.id;
      made().slides.push_back(std::move(*slide));
      came_from(Subject::slide, at);
    });
    each_line(section, "change", "a changed slide", [this](YamlMap& line, const YamlNode& at) {
      line.need("roller");
      const bool roller = line.flag_or("roller", false);
      const TouchSet ends = stock_slide(line, at);
      state_used(ends, at);
      state_slide(ends, roller ? "with a roller" : "without a roller", at);
      if (Slide* slide = find_slide(made(), ends)) {
        slide->roller = roller;
        slide->from = sheet_.id;
      }
    });
    each_line(section, "remove", "a removed slide", [this](YamlMap& line, const YamlNode& at) {
      const TouchSet ends = stock_slide(line, at);
      state_slide(ends, "not possible", at);
      erase_traced(made().slides, stack_.places_of(Subject::slide), [&](const Slide& slide) {
        return TouchSet{slide.a, slide.b} == ends;
      });
    });
  }

  template <class InstrumentT>
  static auto find_slide(InstrumentT& instrument, TouchSet ends) -> decltype(instrument.slides.data()) {
    for (auto& slide : instrument.slides) {
      if (TouchSet{slide.a, slide.b} == ends) return &slide;
    }
    return nullptr;
  }

  void state_slide(TouchSet ends, const char* value, const YamlNode& at) {
    if (ends.size() == 2) state("sliding between " + names(made(), ends), value, at);
  }

  TouchSet stock_slide(YamlMap& line, const YamlNode& at) {
    line.need("between");
    const TouchSet ends = read_touches(line, "between", context());
    if (find_slide(stock_, ends) == nullptr) {
      faults_.add(at, "the instrument has no such slide", "'between' must name a slide of the base");
    }
    return ends;
  }

  void latches(YamlMap& section) {
    each_line(section, "add", "a latch", [this](YamlMap& line, const YamlNode& at) {
      bool engaged = false;
      Latch latch = read_latch(line, context(), engaged);
      state("the latch " + latch.id, "added by " + sheet_.id, at);
      if (find_latch(stock_, latch.id))
        faults_.add(at, "the instrument already has a latch " + in_quotes(latch.id), "another id");
      if (!has_room(made().latches.size(), LatchSet::capacity, "latches", at, faults_)) return;
      if (engaged) made().engaged.insert(LatchId(made().latches.size()));
      made().latches.push_back(std::move(latch));
      came_from(Subject::latch, at);
    });
    for (const YamlNode* node : section.items("engage")) {
      const std::optional<std::string> id = yaml_text(*node, "a latch", faults_);
      const std::optional<LatchId> latch = id ? find_latch(made(), *id) : std::nullopt;
      if (latch) made().engaged.insert(*latch);
      if (latch || !id) continue;
      std::vector<std::string> known;
      for (const Latch& each : made().latches) known.push_back(each.id);
      faults_.add(*node, "unknown latch " + in_quotes(*id), suggestion(*id, known));
    }
  }

  void fingerings(YamlMap& section) {
    each_line(section, "add", "a fingering", [this](YamlMap& line, const YamlNode& at) {
      std::optional<TableFingering> entry = read_fingering(line, context());
      if (!entry || !has_room(made().table.size(), most_fingerings, "fingerings", at, faults_)) return;
      state_used(entry->fingering.pressed | entry->fingering.flicked, at);
      entry->from = sheet_.id;
      made().table.push_back(std::move(*entry));
      came_from(Subject::fingering, at);
    });
  }

  FaultList faults_;
  YamlNode root_;
  const Instrument& stock_;
  TracedInstrument& stack_;
  ConversionClaims& claims_;
  std::map<std::string, std::string> sources_;
  ConversionSheet sheet_;
};

}  // namespace

void lay_over(const std::filesystem::path& file, const YamlNode& root, const Instrument& stock, TracedInstrument& stack,
              ConversionClaims& claims) {
  ConversionReader(file, root, stock, stack, claims).lay_over();
}

void drop_removed_touches(TracedInstrument& stack) {
  Instrument& made = stack.instrument;
  TouchSet removed;
  for (std::size_t i = 0; i < made.touches.size(); ++i) {
    if (made.touches[i].removed) removed.insert(TouchId(i));
  }
  if (removed.empty()) return;
  erase_traced(made.rules, stack.places_of(Subject::rule),
               [&](const Rule& rule) { return rule.when.intersects(removed); });
  for (Rule& rule : made.rules) rule.unless -= removed;
  for (Grip& grip : made.grips) grip.touches -= removed;
  std::vector<TouchSet> kept;
  erase_traced(made.grips, stack.places_of(Subject::grip), [&](const Grip& grip) {
    if (grip.touches.size() < 2 || std::find(kept.begin(), kept.end(), grip.touches) != kept.end()) return true;
    kept.push_back(grip.touches);
    return false;
  });
  erase_traced(made.slides, stack.places_of(Subject::slide),
               [&](const Slide& slide) { return removed.contains(slide.a) || removed.contains(slide.b); });
}

}  // namespace fingerway
