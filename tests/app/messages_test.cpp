// Every message there is, listed from the sources for people to go through, and held to what a message must be. Those
// of the command line are tried one by one.
#include <algorithm>
#include <filesystem>
#include <map>
#include <regex>
#include <set>

#include <catch2/catch.hpp>

#include "app/program_run.hpp"
#include "report/approved.hpp"
#include "support/scratch_folder.hpp"

namespace {

using namespace fingerway;
namespace fs = std::filesystem;

/// The end of a text in quotes that starts at `at`.
std::size_t end_of_quote(const std::string& text, std::size_t at) {
  const char quote = text[at];
  for (++at; at < text.size() && text[at] != quote; ++at) {
    if (text[at] == '\\') ++at;
  }
  return at;
}

/// The texts within a call's brackets, joined by "…" where something is put in between.
std::string texts_in_call(const std::string& text, std::size_t after_bracket) {
  std::string joined;
  int depth = 1;
  for (std::size_t i = after_bracket; i < text.size() && depth > 0; ++i) {
    const char c = text[i];
    if (c == '"') {
      const std::size_t end = end_of_quote(text, i);
      const std::string piece = text.substr(i + 1, end - i - 1);
      if (!piece.empty()) joined += (joined.empty() ? "" : " … ") + piece;
      i = end;
    } else if (c == '\'') {
      i = end_of_quote(text, i);
    } else if (c == '(' || c == '{' || c == '[') {
      ++depth;
    } else if (c == ')' || c == '}' || c == ']') {
      --depth;
    }
  }
  return joined;
}

/// What faults and remarks say, by source file.
std::map<std::string, std::vector<std::string>> all_messages() {
  const std::regex call(R"(\b(Fault|FileError|Gone|faults_?\.add|add|fault|remark|refuse|fail|unknown)\s*[({])");
  const std::regex words("[a-z] [a-z]");
  std::map<std::string, std::vector<std::string>> all;
  for (const char* part : {"app", "read"}) {
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(project_folder() / "src" / part)) {
      if (entry.path().extension() != ".cpp" || entry.path().stem() == "command_line") continue;
      const std::string text = text_of(entry.path());
      const fs::path file = fs::relative(entry.path(), project_folder() / "src");
      std::vector<std::string>& list = all[(file.parent_path() / file.stem()).string()];
      for (std::sregex_iterator at(text.begin(), text.end(), call), end; at != end; ++at) {
        const std::string said = texts_in_call(text, static_cast<std::size_t>(at->position() + at->length()));
        if (!std::regex_search(said, words) || std::ranges::find(list, said) != list.end()) continue;
        list.push_back(said);
      }
    }
  }
  return all;
}

}  // namespace

TEST_CASE("every message is listed, and says what a person can act on") {
  std::string listed;
  std::size_t count = 0;
  for (const auto& [file, messages] : all_messages()) {
    for (const std::string& said : messages) {
      INFO(file << ": " << said);
      listed += file + ": " + said + "\n";
      ++count;
      CHECK(said.back() != '.');
      CHECK(said.size() < 300);
      for (const char* word : {"invalid", "illegal", "error", "failed to", "unable to", "unexpected", "null",
                               "exception", "please", "sorry", "must not be null", "parse", "token"}) {
        CHECK(said.find(word) == std::string::npos);
      }
    }
  }
  CHECK(count > 150);
  CHECK(unapproved("messages.txt", listed).empty());
}

TEST_CASE("what is wrong with a command line is told in our words, with the nearest known one") {
  const std::string easy = "scores/first-steps.musicxml";
  const std::vector<std::pair<std::vector<std::string>, std::string>> tried = {
      {{"frobnicate"}, "there is no command 'frobnicate' (known: plan, compare, price, trills, chart, assign"},
      {{"plann", easy}, "there is no command 'plann' (did you mean 'plan'?)"},
      {{"plan", easy, "-i", "bassoon", "--tempp", "3"}, "there is no option '--tempp' (did you mean '--tempo'?)"},
      {{"plan", easy, easy, "-i", "bassoon"}, "'" + easy + "' is one word too many"},
      {{"plan", easy, "-i", "bassoon", "--level", "amatuer"},
       "--level: there is no 'amatuer' (did you mean 'amateur'?)"},
      {{"plan", easy, "-i", "bassoon", "--level", "angel"},
       "--level: there is no 'angel' (known: amateur, beginner, professional)"},
      {{"plan", easy, "-i", "bassoon", "--divisi", "tpo"}, "--divisi: there is no 'tpo' (did you mean 'top'?)"},
      {{"plan", easy, "-i", "bassoon", "--mark", "al"}, "--mark: there is no 'al' (did you mean 'all'?)"},
      {{"plan", easy, "-i", "bassoon", "--tempo", "fast"}, "--tempo: 'fast' is not a number from 1 to 1000"},
      {{"plan", easy, "-i", "bassoon", "--tempo", "nan"}, "--tempo: 'nan' is not a number from 1 to 1000"},
      {{"plan", easy, "-i", "bassoon", "--staff", "0"}, "--staff: '0' is not a number from 1 to 99"},
      {{"plan", easy, "-i", "bassoon", "--alternatives", "1e9"}, "--alternatives: '1e9' is not a number from 1 to 50"},
      {{"payoff", easy, "-i", "bassoon", "--budget", "inf"}, "--budget: 'inf' is not a number from 0 to 1000000000"},
      {{"plan", easy}, "--instrument is required"},
      {{"plan"}, "score is required"},
      {{}, "A subcommand is required"},
      {{"trills", "-i", "bassoon", "--between", "C2"}, "--between: At least 2 required but received 1"},
  };
  for (const auto& [words, said] : tried) {
    const Run told = run(words);
    INFO(told.err);
    CHECK(told.code == 3);
    CHECK(told.out.empty());
    CHECK(told.err.find(said) == 0);
    CHECK(told.err.find("Run with --help for more information.") != std::string::npos);
  }
}

TEST_CASE("unknown names of every kind get the nearest known one") {
  const ScratchFolder scratch;
  const std::string easy = "scores/first-steps.musicxml";
  int written = 0;
  const auto choices = [&](const std::string& text) {
    return scratch.write(std::to_string(++written) + "/choices.yaml", "fingerway: choices\nversion: 1\n" + text)
        .string();
  };
  const auto player = [&](const std::string& text) {
    return scratch
        .write(std::to_string(++written) + "/player.yaml",
               "fingerway: player\nversion: 1\nname: x\ninstrument: bassoon\n" + text)
        .string();
  };
  const std::vector<std::pair<std::vector<std::string>, std::string>> tried = {
      {{"plan", easy, "-i", "basson"}, "no instrument 'basson' (did you mean 'bassoon'?"},
      {{"plan", easy, "-i", "bassoon+low-key-roller"}, "did you mean 'low-key-rollers'?"},
      {{"plan", easy, "-i", "bassoon", "--latch", "wisper-lock"}, "did you mean 'whisper-lock'?"},
      {{"plan", easy, "-i", "flute", "--latch", "lock"}, "no latch 'lock' on flute (this instrument has none)"},
      {{"plan", easy, "-i", "bassoon", "--choices", choices("bans: [{touches: [LT.wisper]}]\n")},
       "choices.yaml:3:8: no touch 'LT.wisper' on bassoon (did you mean 'LT.whisper'?)"},
      {{"check", choices("banns: []\n")}, "unknown key 'banns' in the choices file (did you mean 'bans'?)"},
      {{"check", player("cannot_use: [L9]\n")}, "no finger or touch 'L9' on"},
      {{"check", player("level: amatuer\n")}, "'level' can't be 'amatuer' (did you mean 'amateur'? one of: "},
      {{"check", player("preferred: [{note: F#2, mark: \"R4 F\"}]\n")}, "did you mean 'R4 F#'?"},
      {{"check", scratch.write("kind.yaml", "fingerway: instrment\n").string()},
       "'instrment' is no kind of file known here (did you mean 'fingerway: instrument'?)"},
      {{"check", scratch.write("base.yaml", "fingerway: conversion\nversion: 1\nbase: basoon\n").string()},
       "base.yaml:3:7: no instrument 'basoon' (did you mean 'bassoon'?"},
  };
  for (const auto& [words, said] : tried) {
    const Run told = run(words);
    INFO(told.err << told.out);
    CHECK(told.code == 2);
    CHECK((told.err + told.out).find(said) != std::string::npos);
  }
}
