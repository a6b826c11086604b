// The same fault gets the same sentence on the command line and in the page; only what says where it is differs.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "app/program_run.hpp"
#include "serve/served_page.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;
using nlohmann::json;

namespace {

/// What was wrong on the command line, its first line.
std::string told(const std::vector<std::string>& words) {
  const Run done = run(words);
  return done.code >= 2 ? done.err.substr(0, done.err.find('\n')) : "nothing";
}

/// The sentence without the place in front of it ("file:3:7: ", "request: choices.pins[0]: ").
std::string sentence(const std::string& message, const std::string& place) {
  return message.starts_with(place) ? message.substr(place.size()) : message;
}

}  // namespace

TEST_CASE("the same fault has the same message on the command line and in the page") {
  const ServedPage page;
  const ScratchFolder scratch;
  const std::string file = "scores/first-steps.musicxml";
  const std::string score = page.demo("first-steps");
  const auto planned = [&](json more) {
    json request = {{"score", score}, {"instrument", "treble-recorder"}};
    request.update(more);
    return first_message(page.ask("plan", request));
  };
  const auto plan = [&](std::vector<std::string> more) {
    std::vector<std::string> words = {"plan", file, "-i", "treble-recorder"};
    words.insert(words.end(), more.begin(), more.end());
    return told(words);
  };
  const std::string head = "fingerway: player\nversion: 1\nname: x\ninstrument: treble-recorder\n";
  const std::string bad_player = head + "level: amatuer\n";
  const std::string bad_choices = "fingerway: choices\nversion: 1\nbanns: []\n";
  const std::string far_choices = "fingerway: choices\nversion: 1\nbans: [{touches: [L1.hole], from: \"99\"}]\n";
  const std::string token = page.answer("plan", {{"score", score}, {"instrument", "treble-recorder"}})["plan"];
  const auto choices = [&](const std::string& text) {
    return first_message(page.ask("choices/read", {{"plan", token}, {"text", text}}));
  };
  const auto trill = [&](const char* from, const char* to) {
    return first_message(page.ask("trill", {{"instrument", "treble-recorder"}, {"from", from}, {"to", to}}));
  };
  const auto brought = [&](const std::string& text) {
    return first_message(page.client().Post("/api/scores?name=bad.musicxml", text, "application/octet-stream"));
  };
  const std::string player_file = scratch.write("player.yaml", bad_player).string();
  const std::string choices_file = scratch.write("choices.yaml", bad_choices).string();
  const std::string far_file = scratch.write("far.yaml", far_choices).string();
  const std::string bad_score = scratch.write("bad.musicxml", "<score-partwise><part>").string();
  const std::string no_score = scratch.write("no.musicxml", "<html></html>").string();

  struct Fault {
    std::string line, place_of_line, page, place_on_page;
  };
  const std::vector<Fault> faults = {
      {told({"plan", file, "-i", "trebel-recorder"}), "",
       first_message(page.ask("plan", {{"score", score}, {"instrument", "trebel-recorder"}})), "request: instrument: "},
      {told({"plan", file, "-i", "bassoon+low-key-roller"}), "",
       first_message(page.ask("plan", {{"score", score}, {"instrument", "bassoon+low-key-roller"}})),
       "request: instrument: "},
      {plan({"--latch", "lock"}), "", planned({{"latches", {"lock"}}}), ""},
      {plan({"--bars", "99"}), file + ": ", planned({{"bars", "99"}}), "first-steps.musicxml: "},
      {plan({"--bars", "5-3"}), file + ": ", planned({{"bars", "5-3"}}), "first-steps.musicxml: "},
      {plan({"--part", "P9"}), file + ": ", planned({{"part", "P9"}}), "first-steps.musicxml: "},
      {plan({"--voice", "9"}), file + ": ", planned({{"voice", "9"}}), "first-steps.musicxml: "},
      {plan({"--player", player_file}), player_file, planned({{"player", bad_player}}), "player"},
      {plan({"--choices", choices_file}), choices_file, choices(bad_choices), "choices"},
      {plan({"--choices", far_file}), far_file, choices(far_choices), "choices"},
      {told({"trills", "-i", "treble-recorder", "--between", "C5", "H5"}), "", trill("C5", "H5"), ""},
      {told({"trills", "-i", "treble-recorder", "--between", "C5", "C1"}), "", trill("C5", "C1"), ""},
      {told({"trills", "-i", "treble-recorder", "--between", "C5", "C5"}), "", trill("C5", "C5"), ""},
      {told({"compare", file, "-i", "treble-recorder", "--with", "bassoon"}), "", planned({{"with", "bassoon"}}), ""},
      {told({"plan", bad_score, "-i", "bassoon"}), bad_score, brought("<score-partwise><part>"), "bad.musicxml"},
      {told({"plan", no_score, "-i", "bassoon"}), no_score, brought("<html></html>"), "bad.musicxml"},
  };
  for (const Fault& fault : faults) {
    CHECK(fault.line != "nothing");
    CHECK(sentence(fault.line, fault.place_of_line) == sentence(fault.page, fault.place_on_page));
  }
}
