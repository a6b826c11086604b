// Every kind of fault in an instrument file, on the exact text a user reads. The file is the example of the README.
#include <catch2/catch.hpp>

#include <algorithm>

#include "read/pipe_example.hpp"

using namespace fingerway;

TEST_CASE("unknown and duplicate keys are named, with the key that was probably meant") {
  CHECK(pipe_faults("name: three-hole pipe", "nam: three-hole pipe") ==
        "pipe.yaml:1:1: the instrument file needs the key 'name'\n"
        "pipe.yaml:4:1: unknown key 'nam' in the instrument file (did you mean 'name'?)");
  CHECK(pipe_faults("half: true", "halves: true") ==
        "pipe.yaml:20:60: unknown key 'halves' in a touch (known: id, label, at, width, at_basis, half, source, "
        "confidence, disputed)");
  CHECK(pipe_faults("kind: vent,", "kind: vent, kind: vent,") ==
        "pipe.yaml:12:47: the key 'kind' stands twice in a pad (keep one)");
}

TEST_CASE("a missing key is told at its own map") {
  CHECK(pipe_faults("rest: closed, ", "") == "pipe.yaml:12:5: a pad needs the key 'rest'");
  CHECK(pipe_faults("source: [invented], confidence: high}\npads", "confidence: high}\npads") ==
        "pipe.yaml:10:5: a register needs the key 'source'");
  CHECK(pipe_faults("    press: []\n", "") == "pipe.yaml:50:5: a fingering needs the key 'press'");
}

TEST_CASE("wrong types are told") {
  CHECK(pipe_faults("sounding: 12", "sounding: twelve") ==
        "pipe.yaml:5:11: 'sounding' must be a whole number, not 'twelve' (from -48 to 48)");
  CHECK(pipe_faults("sounding: 12", "sounding: \"12\"") ==
        "pipe.yaml:5:11: 'sounding' must be a whole number, not '12' (a number stands without quotes)");
  CHECK(pipe_faults("half: true", "half: yes") == "pipe.yaml:20:66: 'half' must be true or false, not 'yes'");
  CHECK(pipe_faults("press: []", "press: none") ==
        "pipe.yaml:52:12: 'press' must be a list, not 'none' ([a, b], or one item a line behind '- ')");
  CHECK(pipe_faults("mark: \"flick\"", "mark: [flick]") == "pipe.yaml:58:11: 'mark' must be a text, not a list");
  CHECK(pipe_faults("at: [30, 0]", "at: [nan, 0]") ==
        "pipe.yaml:18:41: 'at' must be a number, not 'nan' (from -1000 to 4000)");
  CHECK(pipe_faults("  - note: A3\n", "  - 5\n  - note: A3\n") ==
        "pipe.yaml:35:5: a fingering must be a map of keys and values, not '5'");
}

TEST_CASE("a number with a leading zero is not read as octal") {
  CHECK(pipe_faults("sounding: 12", "sounding: 010") ==
        "pipe.yaml:5:11: 'sounding' must be a whole number, not '010' (no leading zeros)");
}

TEST_CASE("values out of range are told with the range") {
  CHECK(pipe_faults("sounding: 12", "sounding: 99") ==
        "pipe.yaml:5:11: 'sounding' is out of range: 99 (from -48 to 48)");
  CHECK(pipe_faults("cents: 12", "cents: 1e300") ==
        "pipe.yaml:57:12: 'cents' is out of range: 1e300 (from -200 to 200)");
  CHECK(pipe_faults("version: 1", "version: 2") == "pipe.yaml:2:10: 'version' is out of range: 2 (from 1 to 1)");
}

TEST_CASE("a word that is none of those known is told with them") {
  CHECK(pipe_faults("kind: vent, rest", "kind: went, rest") ==
        "pipe.yaml:12:41: 'kind' can't be 'went' (did you mean 'vent'? one of: tone-hole, vent, open-end)");
  CHECK(pipe_faults("kind: vent, rest", "kind: bell, rest") ==
        "pipe.yaml:12:41: 'kind' can't be 'bell' (one of: tone-hole, vent, open-end)");
  CHECK(pipe_faults("traits: [sharp", "traits: [bright") ==
        "pipe.yaml:56:14: unknown trait 'bright' (known: sharp, flat, soft, stuffy, unstable, stable, resonant, "
        "resistant)");
  CHECK(pipe_faults("fingerway: instrument", "fingerway: player") ==
        "pipe.yaml:1:12: this is not 'instrument' but 'player' (the first line says what the file is: fingerway: "
        "instrument)");
}

TEST_CASE("unknown names are told with the nearest known one") {
  CHECK(pipe_faults("when: [L1.one]", "when: [L1.on]") ==
        "pipe.yaml:25:13: unknown touch 'L1.on' (did you mean 'L1.one'?)");
  CHECK(pipe_faults("closes: [two]", "closes: [tow]") == "pipe.yaml:26:31: unknown pad 'tow' (did you mean 'two'?)");
  CHECK(pipe_faults("confidence: high}\npads", "confidence: sure}\npads") ==
        "pipe.yaml:10:78: 'confidence' can't be 'sure' (one of: very-low, low, medium, high)");
  CHECK(pipe_faults("source: invented", "source: inventor") ==
        "pipe.yaml:43:13: unknown source 'inventor' (did you mean 'invented'?)");
}

TEST_CASE("ids that are none are told") {
  CHECK(pipe_faults("{id: LT.lock", "{id: XT.lock").substr(0, 120) ==
        "pipe.yaml:19:10: 'XT.lock' is not a touch id (a finger (LT, L1 to L4, RT, R1 to R4), a dot and a name: "
        "R4.low-c)\npipe.ya");
  CHECK(pipe_faults("id: foot,", "id: Foot,") ==
        "pipe.yaml:16:10: 'Foot' is not an id (lower-case letters, digits and single hyphens)");
  CHECK(pipe_faults("{id: foot,", "{id: two,") == "pipe.yaml:16:5: the pad 'two' stands twice (keep one)");
}

TEST_CASE("notes that are none or lie outside the range are told") {
  CHECK(pipe_faults("note: A3", "note: H3") ==
        "pipe.yaml:35:11: 'H3' is not a note name (a letter, # or b, an octave: C#2, Bb1 (C4 is middle C))");
  CHECK(pipe_faults("note: A3", "note: A2") ==
        "pipe.yaml:6:8: no fingering for A3 (every semitone of the range needs a line)\n"
        "pipe.yaml:35:5: A2 lies outside the range (A3 to C4)");
  CHECK(pipe_faults("range: [A3, C4]", "range: [A3]") ==
        "pipe.yaml:6:8: 'range' must be two notes ([lowest, highest])");
}

TEST_CASE("what check finds is told at the line of the part") {
  CHECK(pipe_faults("hold: [LT.vent, LT.lock]", "hold: [LT.vent, L1.one]") ==
        "pipe.yaml:29:5: a grip of two fingers: LT.vent, L1.one (a grip is what one finger holds)");
  CHECK(pipe_faults("unless: [LT.lock], ", "") ==
        "pipe.yaml:19:5: the touch 'LT.lock' moves nothing (name it in a rule)");
  CHECK(pipe_faults("half: true, ", "") ==
        "pipe.yaml:62:5: the fingering of C4 half-presses L1.one (this touch has no 'half: true')");
  CHECK(pipe_faults("  - {when: [L3.three]",
                    "  - {when: [L3.three], closes: [vent], source: [invented], confidence: high}\n"
                    "  - {when: [L3.three]") ==
        "pipe.yaml:27:5: L3.three shuts the pad 'vent' against the finger that opens it (LT.vent) (a pad that another "
        "key holds shut must spring open by itself: springs_open: true)");
}

TEST_CASE("all faults of a file are told at once, and a flood of them is counted") {
  const std::string twice = changed(changed(readme_examples()[0], "half: true", "half: 1"), "note: A3", "note: A");
  CHECK(PipeFolder(twice).faults("pipe").find('\n') != std::string::npos);
  std::string flood = "fingerway: instrument\n";
  for (int i = 0; i < 1000; ++i) flood += "k" + std::to_string(i) + ": 1\n";
  const std::string told = PipeFolder(flood).faults("pipe");
  CHECK(std::count(told.begin(), told.end(), '\n') == 50);
  // 1000 unknown keys and the 11 keys that an instrument file must have, less the 50 listed.
  CHECK(told.substr(told.rfind('\n') + 1) == "pipe.yaml: and 961 more faults");
}

TEST_CASE("anchors, aliases and tags are refused") {
  CHECK(pipe_faults("pads:", "pads: &a") == "pipe.yaml:11:7: an anchor (&name) is not allowed (write the value out)");
  CHECK(pipe_faults("source: invented", "source: !t invented") ==
        "pipe.yaml:43:13: a tag (!name) is not allowed (write the plain value)");
}

TEST_CASE("files that are no YAML of ours are refused with a reason") {
  const auto faults = [](const std::string& text) { return PipeFolder(text).faults("pipe"); };
  CHECK(faults("") == "pipe.yaml: the file is empty");
  CHECK(faults("# nothing\n") == "pipe.yaml: the file is empty");
  CHECK(faults("hello") == "pipe.yaml:1:1: the instrument file must be a map of keys and values, not 'hello'");
  CHECK(faults("a: b: c") == "pipe.yaml:1:5: not YAML: illegal map value");
  CHECK(faults("a: [1, 2\n").find("pipe.yaml:2:1: not YAML: ") == 0);
  CHECK(faults(std::string("\x7f"
                           "ELF\x01\x00\xff",
                           7)) == "pipe.yaml:1: not a text file (YAML in UTF-8 is expected)");
  CHECK(faults("a: 1\nb: \xff\xfe\n") == "pipe.yaml:2: not a text file (YAML in UTF-8 is expected)");
  CHECK(faults("a: 1\n---\nb: 2\n") == "pipe.yaml:3:1: a second document (one document a file)");
}

TEST_CASE("depth, number of values, lines and size are bounded") {
  const auto faults = [](const std::string& text) { return PipeFolder(text).faults("pipe"); };
  CHECK(faults(std::string(1000, '[')).find("nested too deeply (at most 32)") != std::string::npos);
  CHECK(faults("a: 1\n# " + std::string(10'000, 'x')) ==
        "pipe.yaml:2: a line of more than 10000 bytes (break the line)");
  std::string many = "x: [";
  for (int i = 0; i < 200'001; ++i) many += "a,\n";
  CHECK(faults(many + "]").find(": more than 200000 values in one file") != std::string::npos);
  CHECK(faults(std::string(8 * 1024 * 1024 + 1, ' ')) == "pipe.yaml: larger than 8 MiB (no such file needs that much)");
}

TEST_CASE("more parts than fit are refused") {
  std::string pads = "pads:\n";
  for (int i = 0; i < 70; ++i) {
    pads += "  - {id: p" + std::to_string(i) + ", kind: vent, rest: open, source: invented, confidence: low}\n";
  }
  CHECK(pipe_faults("pads:\n", pads).find(": more pads than an instrument can have (at most 64)") != std::string::npos);
}

TEST_CASE("an instrument that is not there is told with those that are") {
  const PipeFolder folder;
  CHECK(folder.faults("pip") == "no instrument 'pip' (did you mean 'pipe'?)");
  CHECK(folder.faults("") == "no instrument '' (known: pipe)");
  CHECK(folder.faults("no/such.yaml") == "file error: no/such.yaml: no such file");
  CHECK(folder.faults((folder.folder().path() / "").string()) == "file error: : is a folder, not a file");
  CHECK(PipeFolder(changed(readme_examples()[0], "id: pipe", "id: flute")).faults("pipe") ==
        "pipe.yaml: the id in this file is 'flute' (rename the file or the id)");
}

TEST_CASE("a conversion of nothing known is told at its own line") {
  const PipeFolder pipe;
  const auto file = pipe.folder().write("conversions/lost.yaml", "fingerway: conversion\nversion: 1\nbase: pype\n");
  const auto checked = [&] { return told(pipe.folder(), [&] { check_instrument_file(file, pipe.where()); }); };
  CHECK(checked() == "conversions/lost.yaml:3:7: no instrument 'pype' (did you mean 'pipe'?)");
  pipe.folder().write("conversions/lost.yaml", "fingerway: conversion\nversion: 1\n");
  CHECK(checked() ==
        "conversions/lost.yaml:1:1: the conversion does not say what it is a conversion of (base: bassoon)");
}

TEST_CASE("texts that steer a terminal are refused, and shown as blanks") {
  CHECK(pipe_faults("label: thumb vent", "label: \"\\x9b31m\"").find("a control character in a text") !=
        std::string::npos);
  CHECK(pipe_faults("kind: vent", "kind: \"\\t\"").find("'kind' can't be ' '") != std::string::npos);
}
