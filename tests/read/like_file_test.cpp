// Instrument files that say which other they are like, conversions that widen the range, and what a line may say of how
// its note comes about: on the worked example of instruments/README.md.
#include <catch2/catch.hpp>

#include <algorithm>

#include "read/pipe_example.hpp"

using namespace fingerway;

namespace {

const std::string head = "fingerway: instrument\nversion: 1\nid: low-pipe\nlike: pipe\nname: low pipe\nsounding: 0\n";

/// What reading such a file says, these lines added to its head.
std::string like_faults(const std::string& lines) {
  const PipeFolder folder;
  folder.folder().write("low-pipe.yaml", head + lines);
  return folder.faults("low-pipe");
}

Instrument low_pipe(const std::string& lines) {
  const PipeFolder folder;
  folder.folder().write("low-pipe.yaml", head + lines);
  return folder.read("low-pipe");
}

std::string changed_line_faults(const std::string& old, const std::string& by) {
  return PipeFolder(changed(readme_examples()[0], old, by)).faults("pipe");
}

}  // namespace

TEST_CASE("the example of an instrument like another reads as the README says") {
  const PipeFolder folder;
  folder.folder().write("low-pipe.yaml", readme_examples()[1]);
  const Instrument low = folder.read("low-pipe");
  const Instrument pipe = folder.read("pipe");
  CHECK(low.id == "low-pipe");
  CHECK(low.family == "pipe");
  CHECK(pipe.family == "pipe");
  CHECK(low.transposition.interval == Semitones(0));
  CHECK(low.pads == pipe.pads);
  CHECK(low.touches == pipe.touches);
  CHECK(low.rules == pipe.rules);
  CHECK(low.table == pipe.table);
  CHECK(low.highest == pipe.highest);
  CHECK(low.score_names == pipe.score_names);
}

TEST_CASE("scores call it what they call its model, unless the file says otherwise") {
  const std::string named = changed(readme_examples()[0], "range:", "score_names: [Pipe]\nrange:");
  const PipeFolder folder(named);
  folder.folder().write("low-pipe.yaml", head);
  CHECK(folder.read("low-pipe").score_names == std::vector<std::string>{"Pipe"});
  folder.folder().write("low-pipe.yaml", head + "score_names: [Low Pipe]\n");
  CHECK(folder.read("low-pipe").score_names == std::vector<std::string>{"Low Pipe"});
}

TEST_CASE("conversions of the model fit an instrument like it") {
  const PipeFolder folder;
  folder.folder().write("low-pipe.yaml", head);
  folder.conversion("trill-hole", readme_examples()[2]);
  CHECK(stacked_id(folder.read("low-pipe+trill-hole")) == "low-pipe+trill-hole");
  CHECK(conversion_ids("low-pipe", folder.where()) == std::vector<std::string>{"trill-hole"});
}

TEST_CASE("what hangs on a touch left off goes with it") {
  const Instrument low = low_pipe("range: [A3, B3]\nwithout: {touches: [LT.vent, LT.lock]}\n");
  CHECK_FALSE(find_touch(low, "LT.vent"));
  CHECK_FALSE(find_pad(low, "vent"));
  CHECK(low.bore.size() == 4);
  CHECK(low.rules.size() == 3);
  CHECK(low.grips.empty());
  CHECK(low.slides.empty());
  CHECK(low.table.size() == 3);
  // Everything that stays names what it named before.
  CHECK(low.rules[0].when == TouchSet{*find_touch(low, "L1.one")});
  CHECK(low.rules[0].closes == PadSet{*find_pad(low, "one")});
  CHECK(low.latches[0].closes == PadSet{*find_pad(low, "three")});
  CHECK(low.table_rules == low.rules);
}

TEST_CASE("pads and lines can be left off, and lines of its own added") {
  const Instrument low = low_pipe(
      "without: {pads: [vent], touches: [LT.vent, LT.lock], fingerings: [{note: C4, mark: half}]}\n"
      "sources: {s: made up}\n"
      "fingerings: [{note: C4, press: [], mark: open, source: s, confidence: low}]\n");
  const auto tops = std::count_if(low.table.begin(), low.table.end(),
                                  [](const TableFingering& line) { return line.pitch == WrittenPitch(60); });
  CHECK(tops == 1);
  CHECK(low.table.back().mark == "open");
  CHECK(low.table.back().evidence.sources == std::vector<std::string>{"made up"});
}

TEST_CASE("faults of an instrument like another are told with their place") {
  CHECK(like_faults("without: {touches: [L9.x]}\n") ==
        "low-pipe.yaml:7:21: unknown touch 'L9.x' (known: LT.vent, LT.lock, L1.one, L2.two, L3.three)");
  CHECK(like_faults("without: {fingerings: [{note: A3, mark: most}]}\n") ==
        "low-pipe.yaml:7:24: no fingering of A3 has the mark 'most' (name a line of the instrument it is like)");
  CHECK(like_faults("pads: []\n").find("unknown key 'pads'") != std::string::npos);
  CHECK(like_faults("without: {touches: [L3.three]}\n").find("no fingering for A3") != std::string::npos);
}

TEST_CASE("the instrument it is like must stand beside it and stand alone") {
  const PipeFolder folder;
  folder.folder().write("low-pipe.yaml", changed(head, "like: pipe", "like: fife"));
  CHECK(folder.faults("low-pipe") ==
        "low-pipe.yaml:4:7: no instrument 'fife' in the folder of this file ('like' looks there only)");
  folder.folder().write("low-pipe.yaml", changed(head, "like: pipe", "like: ../pipe"));
  CHECK(folder.faults("low-pipe").find("'../pipe' is not an id") != std::string::npos);
  folder.folder().write("low-pipe.yaml", head);
  folder.folder().write("lower-pipe.yaml",
                        changed(changed(head, "like: pipe", "like: low-pipe"), "id: low-pipe", "id: lower-pipe"));
  CHECK(folder.faults("lower-pipe") ==
        "lower-pipe.yaml:4:7: 'low-pipe' is itself like another instrument (name that one)");
}

TEST_CASE("a conversion may widen the range, never narrow it, in any order") {
  const PipeFolder folder;
  const std::string line = "sources: {s: made up}\n";
  const auto conversion = [&](const std::string& id, const std::string& rest) {
    folder.conversion(
        id, "fingerway: conversion\nversion: 1\nid: " + id + "\nbase: pipe\nname: n\nwhat: w\n" + line + rest);
  };
  conversion("high",
             "range: [B3, C#4]\nfingerings: {add: [{note: C#4, press: [L2.two], source: s, confidence: low}]}\n");
  conversion("narrow", "range: [B3, B3]\n");
  for (const char* stack : {"pipe+high+narrow", "pipe+narrow+high"}) {
    const Instrument pipe = folder.read(stack);
    CHECK(pipe.lowest == WrittenPitch(57));
    CHECK(pipe.highest == WrittenPitch(61));
  }
  conversion("gap", "range: [A3, D4]\n");
  CHECK(folder.faults("pipe+gap").find("no fingering for C#4") != std::string::npos);
}

TEST_CASE("a line says how it comes by its note, and what another source says") {
  const std::string text = changed(readme_examples()[0], "mark: \"one\"",
                                   "mark: \"one\"\n    way: harmonic\n    partial: 2\n    of: B2\n    partner: A3\n"
                                   "    disputed: \"another chart has two\"");
  const Instrument pipe = PipeFolder(text).read("pipe");
  const TableFingering& line = pipe.table[2];
  CHECK(line.way == Way::harmonic);
  CHECK(line.partial == 2);
  CHECK(line.partial_of == WrittenPitch(47));
  CHECK(line.partner == WrittenPitch(57));
  CHECK(line.evidence.disputed == "another chart has two");
  CHECK(pipe.table[1].way == Way::plain);

  CHECK(changed_line_faults("mark: \"one\"", "mark: \"one\"\n    way: harmonic").find("'partial' and 'of' belong to") !=
        std::string::npos);
  CHECK(changed_line_faults("mark: \"one\"", "mark: \"one\"\n    partial: 3").find("'partial' and 'of' belong to") !=
        std::string::npos);
  CHECK(changed_line_faults("mark: \"one\"", "mark: \"one\"\n    way: bent").find("'bent'") != std::string::npos);
}
