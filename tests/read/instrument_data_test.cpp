// The project's own instrument and conversion files. Facts of the trade are checked as such, named in a comment.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "fingerway/base/errors.hpp"
#include "fingerway/instrument/check.hpp"
#include "fingerway/read/instrument_files.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;

namespace {

InstrumentFolders own_folder() { return {{project_folder() / "instruments"}}; }

const Instrument& bassoon() {
  static const Instrument instrument = read_instrument("bassoon", own_folder());
  return instrument;
}

TouchSet touches(const Instrument& instrument, const std::vector<std::string>& names) {
  TouchSet set;
  for (const std::string& name : names) {
    const std::optional<TouchId> touch = find_touch(instrument, name);
    REQUIRE(touch);
    set.insert(*touch);
  }
  return set;
}

bool can_hold(const Instrument& instrument, const std::vector<std::string>& names) {
  return std::any_of(instrument.grips.begin(), instrument.grips.end(),
                     [&](const Grip& grip) { return grip.touches == touches(instrument, names); });
}

/// The first line of a note.
const TableFingering& first_line(const Instrument& instrument, const char* note) {
  const WrittenPitch pitch = written(*parse_spelling(note));
  const auto found = std::find_if(instrument.table.begin(), instrument.table.end(),
                                  [&](const TableFingering& line) { return line.pitch == pitch; });
  REQUIRE(found != instrument.table.end());
  return *found;
}

/// Nothing where a plainer instrument lacks what a conversion of its model changes.
std::optional<Instrument> fitted(const Instrument& stock, const std::string& conversion) {
  try {
    return read_instrument(stock.id + "+" + conversion, own_folder());
  } catch (const InputError& error) {
    INFO(error.what());
    CHECK(stock.family != stock.id);
    return std::nullopt;
  }
}

const std::vector<std::string> all_holes = {"L1.hole", "L2.hole", "L3.hole", "R1.hole", "R2.hole", "R3.g", "R4.f"};

std::vector<std::string> with_holes(std::vector<std::string> names) {
  names.insert(names.end(), all_holes.begin(), all_holes.end());
  return names;
}

}  // namespace

TEST_CASE("every instrument of ours is sound, and every conversion on some instrument") {
  const std::vector<std::string> ids = instrument_ids(own_folder());
  REQUIRE_FALSE(ids.empty());
  std::set<std::string> sound;
  for (const std::string& id : ids) {
    INFO(id);
    const Instrument stock = read_instrument(id, own_folder());
    CHECK(check(stock).empty());
    for (const std::string& conversion : conversion_ids(id, own_folder())) {
      INFO(conversion);
      const std::optional<Instrument> converted = fitted(stock, conversion);
      if (!converted) continue;
      CHECK(check(*converted).empty());
      sound.insert(conversion);
    }
  }
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(project_folder() / "instruments" / "conversions")) {
    if (entry.path().extension() == ".yaml") ++files;
  }
  CHECK(files > 0);
  CHECK(sound.size() == files);
}

TEST_CASE("every line of an instrument names a source") {
  for (const std::string& id : instrument_ids(own_folder())) {
    const Instrument instrument = read_instrument(id, own_folder());
    INFO(id);
    const auto sourced = [](const auto& list) {
      return std::all_of(list.begin(), list.end(), [](const auto& part) { return !part.evidence.sources.empty(); });
    };
    CHECK(sourced(instrument.pads));
    CHECK(sourced(instrument.touches));
    CHECK(sourced(instrument.rules));
    CHECK(sourced(instrument.grips));
    CHECK(sourced(instrument.slides));
    CHECK(sourced(instrument.latches));
    CHECK(sourced(instrument.registers));
    CHECK(sourced(instrument.table));
  }
}

TEST_CASE("every conversion says what it costs, that its figures are invented, and who decides") {
  for (const std::string& id : instrument_ids(own_folder())) {
    const Instrument stock = read_instrument(id, own_folder());
    for (const std::string& conversion : conversion_ids(id, own_folder())) {
      INFO(conversion);
      const std::optional<Instrument> converted = fitted(stock, conversion);
      if (!converted) continue;
      const ConversionSheet& sheet = converted->conversions.at(0);
      CHECK(sheet.cost_low);
      CHECK(sheet.grams);
      CHECK(sheet.hours);
      CHECK_FALSE(sheet.figures_basis.empty());
      CHECK_FALSE(sheet.upkeep.empty());
      REQUIRE_FALSE(sheet.work.empty());
      CHECK(sheet.work[0].find("a qualified repairer decides") == 0);
    }
  }
}

TEST_CASE("the bassoon has a fingering for every semitone from B-flat 1 to D5") {
  CHECK(bassoon().lowest == WrittenPitch(34));
  CHECK(bassoon().highest == WrittenPitch(74));
  std::set<int> keys;
  for (const TableFingering& line : bassoon().table) keys.insert(line.pitch.key);
  CHECK(keys.size() == 74 - 34 + 1);
  CHECK(*keys.begin() == 34);
  CHECK(*keys.rbegin() == 74);
}

TEST_CASE("marks tell the bassoon fingerings of one note apart") {
  std::set<std::pair<int, std::string>> seen;
  for (const TableFingering& line : bassoon().table) {
    INFO(name(line.spelling) << " " << line.mark);
    CHECK_FALSE(line.mark.empty());
    CHECK(seen.emplace(line.pitch.key, line.mark).second);
  }
}

TEST_CASE("bassoon lines that no source gives in full say so") {
  std::vector<std::string> partial;
  for (const TableFingering& line : bassoon().table) {
    if (!line.confirmed_whole) partial.push_back(name(line.spelling));
    if (!line.confirmed_whole) CHECK(line.evidence.confidence == Confidence::very_low);
  }
  CHECK(partial == std::vector<std::string>{"C#5"});
}

// Common practice, and the lessons cited in the file.
TEST_CASE("the bassoon's low notes are fingered as in common practice") {
  CHECK(first_line(bassoon(), "Bb1").fingering.pressed ==
        touches(bassoon(), with_holes({"LT.low-d", "LT.low-c", "LT.low-b", "LT.low-bflat", "RT.low-e"})));
  CHECK(first_line(bassoon(), "C#2").fingering.pressed ==
        touches(bassoon(), with_holes({"LT.low-d", "LT.low-c", "L4.low-dflat", "RT.low-e"})));
  CHECK(first_line(bassoon(), "Eb2").fingering.pressed ==
        touches(bassoon(), with_holes({"LT.low-d", "L4.low-eflat", "RT.low-e"})));
  CHECK(first_line(bassoon(), "F2").fingering.pressed == touches(bassoon(), with_holes({"LT.whisper"})));
  CHECK(first_line(bassoon(), "F3").fingering.pressed == touches(bassoon(), {"LT.whisper"}));
}

// Common practice: F-sharp to A-flat 3 with the left index hole half shut; A3 to D4 with a flicked vent.
TEST_CASE("the bassoon's half holes and flicks are where players have them") {
  for (const char* note : {"F#3", "G3", "G#3"}) {
    INFO(note);
    CHECK(first_line(bassoon(), note).fingering.half == touches(bassoon(), {"L1.hole"}));
  }
  CHECK(first_line(bassoon(), "A3").fingering.flicked == touches(bassoon(), {"LT.flick-a"}));
  CHECK(first_line(bassoon(), "B3").fingering.flicked == touches(bassoon(), {"LT.flick-c"}));
  CHECK(first_line(bassoon(), "C4").fingering.flicked == touches(bassoon(), {"LT.flick-c"}));
  CHECK(first_line(bassoon(), "D4").fingering.flicked == touches(bassoon(), {"LT.flick-d"}));
}

// Sources in the file: the pancake key works the whisper pad across the joint; both F-sharp keys shut the F pad.
TEST_CASE("the bassoon's linkages are those of its sources") {
  const auto rule_of = [](const char* touch) -> const Rule& {
    const auto found = std::find_if(bassoon().rules.begin(), bassoon().rules.end(),
                                    [&](const Rule& rule) { return rule.when == touches(bassoon(), {touch}); });
    REQUIRE(found != bassoon().rules.end());
    return *found;
  };
  const auto pad = [](const char* id) { return *find_pad(bassoon(), id); };
  CHECK(rule_of("RT.low-e").closes == PadSet{pad("e"), pad("bocal-vent")});
  CHECK(rule_of("RT.fsharp").opens == PadSet{pad("fsharp")});
  CHECK(rule_of("RT.fsharp").closes == PadSet{pad("f")});
  CHECK(rule_of("R4.fsharp").opens == PadSet{pad("fsharp-little")});
  CHECK(rule_of("R4.fsharp").closes == PadSet{pad("f")});
  CHECK(rule_of("RT.bflat").opens == rule_of("R3.bflat-trill").opens);
  CHECK(rule_of("RT.aflat").opens == rule_of("R4.aflat").opens);
  CHECK(bassoon().latches.at(0).closes == PadSet{pad("bocal-vent")});
  CHECK(bassoon().engaged.empty());
}

// Assumed places, but inside the ranges of hand size and hole spacing they were assumed from.
TEST_CASE("the bassoon's assumed places agree with the spacing they were assumed from") {
  const auto apart = [](const char* a, const char* b) {
    const Spot from = bassoon().touches[find_touch(bassoon(), a)->index].spot;
    const Spot to = bassoon().touches[find_touch(bassoon(), b)->index].spot;
    const double along = (to.along - from.along).value();
    const double across = (to.across - from.across).value();
    return std::sqrt(along * along + across * across);
  };
  const auto within = [](double value, double least, double most) { return value >= least && value <= most; };
  CHECK(within(apart("L1.hole", "L2.hole"), 35.0, 42.0));
  CHECK(within(apart("L2.hole", "L3.hole"), 35.0, 42.0));
  CHECK(within(apart("R1.hole", "R2.hole"), 35.0, 40.0));
  CHECK(within(apart("R2.hole", "R3.g"), 35.0, 40.0));
  CHECK(within(apart("L4.low-eflat", "L4.low-dflat"), 15.0, 20.0));
  CHECK(within(apart("R4.f", "R4.aflat"), 15.0, 20.0));
  CHECK(within(apart("LT.low-d", "LT.low-c"), 12.0, 16.0));
  CHECK(within(apart("RT.low-e", "RT.fsharp"), 12.0, 16.0));
  CHECK(std::none_of(bassoon().touches.begin(), bassoon().touches.end(),
                     [](const Touch& touch) { return touch.spot_measured; }));
}

TEST_CASE("a row is every run of neighbours, and no more") {
  CHECK(can_hold(bassoon(), {"LT.low-d", "LT.low-c", "LT.low-b", "LT.low-bflat"}));
  CHECK(can_hold(bassoon(), {"LT.low-c", "LT.low-b"}));
  CHECK(can_hold(bassoon(), {"LT.low-d", "LT.low-bflat"}));  // declared by itself: the muted low D
  CHECK_FALSE(can_hold(bassoon(), {"LT.low-d", "LT.low-b"}));
  CHECK_FALSE(can_hold(bassoon(), {"L4.low-eflat", "L4.low-dflat"}));
}

TEST_CASE("the interlinked low keys add rules and springs, and no fingering") {
  const Instrument converted = read_instrument("bassoon+interlinked-low-keys", own_folder());
  CHECK(converted.table == bassoon().table);
  CHECK(converted.rules.size() == bassoon().rules.size() + 3);
  CHECK(converted.pads[find_pad(converted, "low-eflat")->index].springs_open);
  CHECK(converted.pads[find_pad(converted, "low-dflat")->index].springs_open);
  CHECK(std::all_of(converted.rules.end() - 3, converted.rules.end(),
                    [](const Rule& rule) { return rule.from == "interlinked-low-keys"; }));
  CHECK(converted.table_rules == bassoon().rules);
}

TEST_CASE("the right thumb's new keys make a row with the low E key") {
  const Instrument converted = read_instrument("bassoon+right-thumb-low-c-and-d", own_folder());
  CHECK(can_hold(converted, {"RT.low-e", "RT.low-d", "RT.low-c"}));
  CHECK(can_hold(converted, {"RT.low-d", "RT.low-c"}));
  CHECK_FALSE(can_hold(converted, {"RT.low-e", "RT.low-c"}));
  CHECK(converted.touches[find_touch(converted, "RT.low-c")->index].from == "right-thumb-low-c-and-d");
}

TEST_CASE("rollers go on the two little-finger pairs and nothing else changes") {
  const Instrument converted = read_instrument("bassoon+low-key-rollers", own_folder());
  CHECK(converted.rules == bassoon().rules);
  const auto rollers = [](const Instrument& instrument) {
    return std::count_if(instrument.slides.begin(), instrument.slides.end(), [](const Slide& s) { return s.roller; });
  };
  CHECK(rollers(bassoon()) == 0);
  CHECK(rollers(converted) == 2);
}

TEST_CASE("our conversions of the bassoon stack in any order") {
  CHECK_NOTHROW(read_instrument("bassoon+interlinked-low-keys+right-thumb-low-c-and-d+low-key-rollers", own_folder()));
  CHECK_NOTHROW(read_instrument("bassoon+low-key-rollers+right-thumb-low-c-and-d+interlinked-low-keys", own_folder()));
}
