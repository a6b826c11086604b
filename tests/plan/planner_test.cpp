// A planner that keeps what it has worked out gives what planning afresh gives, and both give what the written-out
// graph gives to the plain search and to Boost.Graph.
#include <catch2/catch.hpp>

#include <random>

#include "fingerway/plan/planner.hpp"
#include "fingerway/read/musicxml.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

/// Notes drawn over the low and middle range, slurred or tongued, some after a rest: at most `notes` of them.
Passage drawn_passage(std::mt19937& random, std::size_t notes) {
  static const std::vector<std::string> names = {"Bb1", "C2", "Db2", "D2", "Eb2", "E2", "F2", "F#2", "G2", "Ab2",
                                                 "A2",  "B2", "C3",  "D3", "E3",  "F3", "G3", "A3",  "C4", "D4"};
  std::vector<std::string> drawn;
  for (std::size_t i = 0; i < notes; ++i) drawn.push_back(names[random() % names.size()]);
  Passage passage = passage_of(drawn);
  for (NoteEvent& note : passage.notes) {
    note.attack = random() % 3 == 0 ? Attack::tongued : Attack::slurred;
    if (random() % 6 == 0) note.length = note.length * ScoreTime(1, 2);
  }
  return passage;
}

void check_same(const Plan& a, const Plan& b) {
  CHECK(a.summary.weight == b.summary.weight);
  CHECK(a.summary.ceiling == b.summary.ceiling);
  CHECK(a.summary.best_ceiling == b.summary.best_ceiling);
  REQUIRE(a.notes.size() == b.notes.size());
  for (std::size_t i = 0; i < a.notes.size(); ++i) {
    CHECK(a.notes[i].candidate == b.notes[i].candidate);
    CHECK(a.notes[i].posture == b.notes[i].posture);
  }
}

}  // namespace

TEST_CASE("a plan is the best path of its graph written out, for the plain search and for Boost") {
  std::mt19937 random(5);
  const Played& played = own_played("bassoon");
  std::vector<Passage> passages;
  for (int i = 0; i < 12; ++i) passages.push_back(drawn_passage(random, 7));
  passages.push_back(read_musicxml("scores/lowland-round.musicxml", {}));
  for (const Passage& passage : passages) {
    const PassageGraph graph = passage_graph(played, passage, {});
    const auto best = best_path(graph.graph);
    REQUIRE(best);
    CHECK(best == best_path_by_boost(graph.graph));
    check_same(plan_passage(played, passage, {}).front(), [&] {
      Plan along = plan_along(played, passage, graph, best->at);
      // A plan along one path does not look for the fastest one.
      along.summary.best_ceiling = plan_passage(played, passage, {}).front().summary.best_ceiling;
      return along;
    }());
  }
}

TEST_CASE("replanning after pins, bans and holds gives what planning afresh gives") {
  std::mt19937 random(6);
  const Played& played = own_played("bassoon+interlinked-low-keys");
  for (int round = 0; round < 4; ++round) {
    const Passage passage = drawn_passage(random, 14);
    Planner planner(played);
    PlanRequest request;
    for (int change = 0; change < 8; ++change) {
      const auto plan = planner.plans(passage, request);
      check_same(plan.front(), plan_passage(played, passage, request).front());
      const std::size_t note = random() % passage.notes.size();
      const auto candidates = played.derivation.of(passage.notes[note].pitch);
      if (change % 4 == 3) request.choices = {};
      request.choices.pins.push_back({.note = note, .fingering = candidates[random() % candidates.size()].fingering});
      if (change % 3 == 0) request.choices.pins.back().whole = false;
    }
  }
}

TEST_CASE("a planner serves one passage after another") {
  std::mt19937 random(7);
  const Played& played = own_played("bassoon");
  Planner planner(played);
  for (int i = 0; i < 5; ++i) {
    const Passage passage = drawn_passage(random, 10);
    check_same(planner.plans(passage, {}).front(), plan_passage(played, passage, {}).front());
  }
}

TEST_CASE("what an option costs is what the written-out graph says of the best path through it") {
  std::mt19937 random(8);
  const Played& played = own_played("bassoon");
  for (int i = 0; i < 6; ++i) {
    const Passage passage = drawn_passage(random, 7);
    const std::size_t note = random() % 7;
    const PassageGraph graph = passage_graph(played, passage, {});
    const std::vector<Weight> through = weights_through(graph.graph, note);
    std::map<std::uint32_t, Weight> least;
    for (std::size_t n = 0; n < through.size(); ++n) {
      const auto [entry, is_new] = least.try_emplace(*graph.layers[note].nodes[n].candidate, through[n]);
      if (!is_new) entry->second = std::min(entry->second, through[n]);
    }
    std::vector<Weight> sorted;
    for (const auto& [candidate, weight] : least) {
      if (!is_forbidden(weight)) sorted.push_back(weight);
    }
    std::ranges::sort(sorted);
    const Explanation explained = explain_note(played, passage, {}, note, 100);
    REQUIRE(explained.options.size() == sorted.size());
    for (std::size_t o = 0; o < sorted.size(); ++o) {
      CHECK(explained.options[o].dearer.value() == Approx(static_cast<double>(sorted[o] - sorted[0]) / 1e6));
    }
  }
}
