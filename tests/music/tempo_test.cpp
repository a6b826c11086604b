#include <vector>

#include <catch2/catch.hpp>

#include "fingerway/music/tempo.hpp"

using namespace fingerway;

namespace {

TempoMap slow_then_fast() {
  // Four quarters at 60 (a second each), then quarters of half a second.
  return TempoMap(
      {{ScoreTime(0), Qpm(60.0), TempoSource::metronome_mark}, {ScoreTime(4), Qpm(120.0), TempoSource::sound_element}});
}

}  // namespace

TEST_CASE("with no mark the tempo is an assumed 100") {
  const TempoMap map;
  REQUIRE(map.changes().size() == 1);
  CHECK(map.changes().front().source == TempoSource::assumed);
  CHECK(map.at(ScoreTime(1)).count() == Approx(600.0));
}

TEST_CASE("clock time follows every change of tempo") {
  const TempoMap map = slow_then_fast();
  CHECK(map.at(ScoreTime(0)).count() == 0.0);
  CHECK(map.at(ScoreTime(1, 2)).count() == Approx(500.0));
  CHECK(map.at(ScoreTime(4)).count() == Approx(4000.0));
  CHECK(map.at(ScoreTime(6)).count() == Approx(5000.0));
  CHECK(map.tempo_at(ScoreTime(7, 2)) == Qpm(60.0));
  CHECK(map.tempo_at(ScoreTime(4)) == Qpm(120.0));
}

TEST_CASE("changes may come in any order and the last given for a moment wins") {
  const TempoMap map({{ScoreTime(4), Qpm(120.0), TempoSource::sound_element},
                      {ScoreTime(0), Qpm(90.0), TempoSource::metronome_mark},
                      {ScoreTime(0), Qpm(60.0), TempoSource::metronome_mark}});
  CHECK(map.changes() == slow_then_fast().changes());
}

TEST_CASE("before the first change its tempo holds and the clock starts with the score") {
  const TempoMap map({{ScoreTime(4), Qpm(60.0), TempoSource::metronome_mark}});
  CHECK(map.tempo_at(ScoreTime(0)) == Qpm(60.0));
  CHECK(map.at(ScoreTime(0)).count() == 0.0);
  CHECK(map.at(ScoreTime(5)).count() == Approx(5000.0));
}

TEST_CASE("a requested first tempo scales every later one") {
  const TempoMap map = slow_then_fast().starting_at(Qpm(90.0));
  REQUIRE(map.changes().size() == 2);
  CHECK(map.changes()[0].tempo == Qpm(90.0));
  CHECK(map.changes()[1].tempo.value() == Approx(180.0));
  for (const TempoChange& change : map.changes()) CHECK(change.source == TempoSource::request);
}
