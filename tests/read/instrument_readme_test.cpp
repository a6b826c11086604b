// The worked example of instruments/README.md is read as it stands there.
#include <catch2/catch.hpp>

#include <algorithm>

#include "read/pipe_example.hpp"

using namespace fingerway;

TEST_CASE("the example instrument of the README reads as the README says") {
  const Instrument pipe = PipeFolder().read("pipe");
  CHECK(pipe.name == "three-hole pipe");
  CHECK(pipe.transposition.interval == Semitones(12));
  CHECK(pipe.lowest == WrittenPitch(57));
  CHECK(pipe.highest == WrittenPitch(60));
  CHECK(pipe.pads.size() == 5);
  CHECK(pipe.pads[4].kind == PadKind::open_end);
  const Touch& first = pipe.touches[find_touch(pipe, "L1.one")->index];
  CHECK(first.can_be_half);
  CHECK_FALSE(first.spot_measured);
  CHECK(first.spot == Spot{Mm(40.0), Mm(0.0)});
  CHECK(pipe.touches[0].spot_measured);
  CHECK(pipe.rules[0].unless == TouchSet{*find_touch(pipe, "LT.lock")});
  CHECK(pipe.rules[0].opens == PadSet{*find_pad(pipe, "vent")});
  CHECK(pipe.grips.size() == 1);
  CHECK(pipe.latches[0].closes == PadSet{*find_pad(pipe, "three")});
  CHECK(pipe.engaged.empty());
  REQUIRE(pipe.table.size() == 5);
  const TableFingering& top = pipe.table[3];
  CHECK(top.fingering.pressed.empty());
  CHECK(top.fingering.flicked == TouchSet{*find_touch(pipe, "LT.vent")});
  CHECK(top.optional_touches == TouchSet{*find_touch(pipe, "L3.three")});
  CHECK(top.traits == std::vector<Trait>{Trait::sharp, Trait::unstable});
  CHECK(top.cents == Cents(12.0));
  CHECK(top.evidence.sources == std::vector<std::string>{"invented for this page"});
  CHECK(pipe.table[4].fingering.half == TouchSet{*find_touch(pipe, "L1.one")});
  CHECK(pipe.table[4].standing == Standing::alternate);
  CHECK_FALSE(pipe.table[4].confirmed_whole);
  CHECK(pipe.table[4].evidence.confidence == Confidence::low);
}

TEST_CASE("the example conversion of the README is laid over as the README says") {
  const PipeFolder folder;
  folder.conversion("trill-hole", readme_examples()[2]);
  const Instrument pipe = folder.read("pipe+trill-hole");
  CHECK(stacked_id(pipe) == "pipe+trill-hole");
  REQUIRE(pipe.conversions.size() == 1);
  CHECK(pipe.conversions[0].cost_low == 40.0);
  CHECK(pipe.conversions[0].hours == 2.0);
  CHECK(pipe.conversions[0].figures_basis == "invented");
  CHECK(pipe.conversions[0].work.size() == 2);
  std::vector<std::string> bore;
  for (PadId id : pipe.bore) bore.push_back(pipe.pads[id.index].id);
  CHECK(bore == std::vector<std::string>{"vent", "one", "trill", "two", "three", "foot"});
  CHECK(pipe.pads.back().springs_open);
  CHECK(pipe.touches[0].spot == Spot{Mm(32.0), Mm(0.0)});
  CHECK(pipe.touches[0].width == Mm(12.0));
  CHECK(pipe.touches[find_touch(pipe, "LT.lock")->index].removed);
  CHECK(pipe.touches[find_touch(pipe, "R1.trill")->index].from == "trill-hole");
  CHECK(pipe.grips.empty());
  CHECK(pipe.slides.empty());
  CHECK(pipe.rules.size() == 5);
  CHECK(std::none_of(pipe.rules.begin(), pipe.rules.end(), [](const Rule& rule) { return !rule.unless.empty(); }));
  CHECK(pipe.table.back().from == "trill-hole");
}

TEST_CASE("the table keeps the mechanism it was written for") {
  const PipeFolder folder;
  folder.conversion("trill-hole", readme_examples()[2]);
  const Instrument stock = folder.read("pipe");
  const Instrument converted = folder.read("pipe+trill-hole");
  CHECK(stock.table_rules == stock.rules);
  CHECK(converted.table_rules == stock.rules);
  CHECK(converted.table_pads == stock.table_pads);
  CHECK(converted.table_rest_closed == PadSet{*find_pad(stock, "vent")});
  CHECK(converted.table_pads.size() == 5);
}

TEST_CASE("an id names the first folder that has it, a path any file") {
  const PipeFolder folder;
  const ScratchFolder other;
  other.write("pipe.yaml", changed(readme_examples()[0], "three-hole pipe", "other pipe"));
  const InstrumentFolders both{{other.path(), folder.folder().path()}};
  CHECK(read_instrument("pipe", both).name == "other pipe");
  CHECK(read_instrument((folder.folder().path() / "pipe.yaml").string(), both).name == "three-hole pipe");
  CHECK(instrument_ids(both) == std::vector<std::string>{"pipe"});
  folder.conversion("trill-hole", readme_examples()[2]);
  folder.conversion("broken", "[");
  CHECK(conversion_ids("pipe", both) == std::vector<std::string>{"trill-hole"});
  CHECK(conversion_ids("flute", both).empty());
  CHECK_NOTHROW(check_instrument_file(folder.folder().path() / "conversions" / "trill-hole.yaml", both));
  CHECK_THROWS_AS(check_instrument_file(folder.folder().path() / "conversions" / "broken.yaml", both), InputError);
}
