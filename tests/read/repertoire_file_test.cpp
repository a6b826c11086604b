// Repertoire lists and folders.
#include "fingerway/read/repertoire_file.hpp"

#include <catch2/catch.hpp>

#include "support/scratch_folder.hpp"

using namespace fingerway;

namespace {

std::string faults_of(const std::string& text) {
  const ScratchFolder scratch;
  const auto file = scratch.write("list.yaml", text);
  try {
    static_cast<void>(read_repertoire_file(file));
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

const std::string head = "fingerway: repertoire\nversion: 1\n";

}  // namespace

TEST_CASE("a list names scores from its own folder on, each with bars, tempo, weight and times") {
  const ScratchFolder scratch;
  const auto file =
      scratch.write("lists/season.yaml", head +
                                             "name: a season\npassages:\n"
                                             "  - {score: ../a.musicxml, name: A, part: P2, voice: 1, bars: \"9-12\", "
                                             "tempo: 84.5, weight: 2, times: 12}\n"
                                             "  - {score: b.mxl}\n");
  const RepertoireFile list = read_repertoire_file(file);
  CHECK(list.name == "a season");
  REQUIRE(list.pieces.size() == 2);
  CHECK(list.pieces[0].score == scratch.path() / "a.musicxml");
  CHECK(list.pieces[0].bars == "9-12");
  CHECK(list.pieces[0].tempo == 84.5);
  CHECK(list.pieces[0].weight == 2.0);
  CHECK(list.pieces[0].times == 12.0);
  CHECK(list.pieces[0].part == "P2");
  CHECK(list.pieces[1].weight == 1.0);
  CHECK(list.pieces[1].times == 1.0);
  CHECK_FALSE(list.pieces[1].tempo.has_value());
  CHECK(list.pieces[1].place.line == 6);
}

TEST_CASE("every fault of a list is told with its line") {
  const std::string all = faults_of(head +
                                    "passages:\n"
                                    "  - {score: a.xml, tempo: 0}\n"
                                    "  - {tempo: 90}\n"
                                    "  - {score: a.xml, wieght: 2}\n"
                                    "  - {score: a.xml, times: -1}\n"
                                    "  - {score: a.xml, times: 1, times: 2}\n"
                                    "colour: red\n");
  CHECK(all.find("list.yaml:4:") != std::string::npos);
  CHECK(all.find("list.yaml:5:") != std::string::npos);
  CHECK(all.find("did you mean 'weight'?") != std::string::npos);
  CHECK(all.find("list.yaml:7:") != std::string::npos);
  CHECK(all.find("list.yaml:8:") != std::string::npos);
  CHECK(all.find("colour") != std::string::npos);
  CHECK(faults_of(head + "passages: []\n").find("'passages' is empty") != std::string::npos);
  CHECK_FALSE(faults_of(head).empty());
  CHECK_FALSE(faults_of("fingerway: choices\nversion: 1\npassages: [{score: a}]\n").empty());
}

TEST_CASE("a folder gives its scores and those of the folders in it, by path") {
  const ScratchFolder scratch;
  for (const char* name : {"b.musicxml", "a.MXL", "deep/c.xml", "d.txt", "e.yaml"}) scratch.write(name, "x");
  const auto found = scores_in(scratch.path());
  CHECK(found == std::vector<std::filesystem::path>{scratch.path() / "a.MXL", scratch.path() / "b.musicxml",
                                                    scratch.path() / "deep/c.xml"});
  CHECK_THROWS_AS(scores_in(scratch.path() / "none"), FileError);
}
