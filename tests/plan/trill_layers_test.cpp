// Trills and tremolos: inside a passage, on the board of all trills, and where their verdicts turn.
#include <catch2/catch.hpp>

#include "fingerway/plan/plan.hpp"
#include "fingerway/plan/trills.hpp"
#include "support/passages.hpp"
#include "support/toy_world.hpp"

using namespace fingerway;

namespace {

/// A short note, a long trill or tremolo, a short note.
Passage with_trill(const std::vector<std::string>& notes, const char* other, NoteKind kind) {
  NoteRow row;
  row.each = ScoreTime(1);
  Passage passage = passage_of(notes, row);
  passage.notes[1].kind = kind;
  passage.notes[1].other = spelled(other);
  return passage;
}

Plan best(const Played& played, const Passage& passage) { return plan_passage(played, passage, {}).front(); }

}  // namespace

TEST_CASE("verdicts turn at the limits of the motion file") {
  const MotionNumbers& n = own_numbers();
  CHECK(verdict(n, NotesPerSecond(n.fluent_from.value)) == Verdict::fluent);
  CHECK(verdict(n, NotesPerSecond(n.fluent_from.value - 0.01)) == Verdict::workable);
  CHECK(verdict(n, NotesPerSecond(n.workable_from.value)) == Verdict::workable);
  CHECK(verdict(n, NotesPerSecond(n.workable_from.value - 0.01)) == Verdict::laborious);
  CHECK(verdict(n, NotesPerSecond(n.laborious_from.value)) == Verdict::laborious);
  CHECK(verdict(n, NotesPerSecond(n.laborious_from.value - 0.01)) == Verdict::out_of_reach);
}

TEST_CASE("the toy's best trills move the fewest fingers there are") {
  const Played toy = played(toy_instrument(), own_numbers(), Level::amateur);
  const Trill one = best_trill(toy, WrittenPitch(58), WrittenPitch(57));
  REQUIRE(one.best);
  CHECK(moving_touches(*one.best) == TouchSet{toy_three});
  CHECK(one.best->rate.value() == Approx(2 * 6.0 * 0.98));
  CHECK(one.verdict == Verdict::fluent);
  const Trill none = best_trill(toy, WrittenPitch(60), WrittenPitch(61));
  CHECK_FALSE(none.best);
  CHECK(none.verdict == Verdict::out_of_reach);
}

TEST_CASE("a plan fits with a laborious trill, and not with one that is out of reach") {
  const Passage passage = with_trill({"C4", "Bb3", "C4"}, "A3", NoteKind::trill);
  const double rate = best(played(toy_instrument(), own_numbers(), Level::amateur), passage).notes[1].rate->value();
  const auto fits = [&](double laborious_from) {
    MotionNumbers n = own_numbers();
    n.laborious_from.value = laborious_from;
    n.workable_from.value = n.fluent_from.value = rate + 1.0;
    return best(played(toy_instrument(), n, Level::amateur), passage).summary.fits;
  };
  CHECK(fits(rate - 0.5));
  CHECK_FALSE(fits(rate + 0.5));
}

TEST_CASE("the board of trills has every pair up to the width asked for, by lower note") {
  const Played toy = played(toy_instrument(), own_numbers(), Level::amateur);
  const auto all = all_trills(toy, Semitones(2));
  std::vector<std::pair<int, int>> pairs;
  for (const Trill& trill : all) pairs.emplace_back(trill.from.key, trill.to.key);
  CHECK(pairs == std::vector<std::pair<int, int>>{{57, 58}, {57, 59}, {58, 59}, {58, 60}, {59, 60}});
}

TEST_CASE("a trill in a passage has two fingerings and the rate of their postures") {
  for (const char* id : {"bassoon", "bassoon+interlinked-low-keys"}) {
    const Played& played = own_played(id);
    const Plan plan = best(played, with_trill({"D2", "C2", "D2"}, "Db2", NoteKind::trill));
    REQUIRE(plan.notes[1].other);
    REQUIRE(plan.notes[1].rate);
    CHECK(plan.notes[1].rate->value() > 0.0);
    CHECK(plan.notes[1].rate->value() <=
          best_trill(played, pitch_named("C2"), pitch_named("Db2")).best->rate.value() + 1e-9);
    CHECK_FALSE(plan.notes[0].other);
    CHECK_FALSE(plan.notes[0].rate);
  }
}

TEST_CASE("a Db2-Eb2 trill in a passage does not fit the stock bassoon, and does with interlinked low keys") {
  // bandestration.com/2013/10, bassoon technique: impossible on the stock instrument.
  const Passage passage = with_trill({"C2", "Db2", "C2"}, "Eb2", NoteKind::trill);
  const Plan stock = best(own_played("bassoon"), passage);
  CHECK(stock.summary.complete);
  CHECK_FALSE(stock.summary.fits);
  const Plan linked = best(own_played("bassoon+interlinked-low-keys"), passage);
  CHECK(linked.summary.complete);
  CHECK(linked.summary.fits);
  CHECK(linked.notes[1].rate->value() >= own_numbers().fluent_from.value);
}

TEST_CASE("a trill ends on its first fingering, a tremolo on its second") {
  const Played& played = own_played("bassoon");
  for (NoteKind kind : {NoteKind::trill, NoteKind::tremolo}) {
    const Passage passage = with_trill({"F2", "G2", "A2"}, "A2", kind);
    const PassageGraph graph = passage_graph(played, passage, {});
    for (const Node& node : graph.layers[1].nodes) {
      CHECK(node.ends_on_second == (kind == NoteKind::tremolo));
      const Leaving leaving = leaving_from(graph.layers[1], node);
      CHECK(leaving.pitch == pitch_named(kind == NoteKind::tremolo ? "A2" : "G2"));
    }
    const Plan plan = best(played, passage);
    // After a tremolo that ends on A the next A needs no change; after a trill on G it does.
    CHECK((plan.notes[2].arrive->step.movers == 0) == (kind == NoteKind::tremolo));
  }
}

TEST_CASE("plans that differ only in the second fingering of a tremolo are different plans") {
  const Played toy = played(toy_instrument(), own_numbers(), Level::amateur);
  // A3 is fingered in one way; for C4 some of its keys may stay down.
  PlanRequest request;
  request.alternatives = 2;
  const std::vector<Plan> plans = plan_passage(toy, with_trill({"A3", "A3", "A3"}, "C4", NoteKind::tremolo), request);
  REQUIRE(plans.size() == 2);
  CHECK(plans[0].notes[1].other->fingering != plans[1].notes[1].other->fingering);
  CHECK(plans[0].notes[1].candidate->fingering == plans[1].notes[1].candidate->fingering);
}

TEST_CASE("a trill to a note without a fingering leaves the note without one") {
  const Plan plan = best(own_played("bassoon"), with_trill({"D5", "D5", "D5"}, "Eb5", NoteKind::trill));
  CHECK_FALSE(plan.notes[1].candidate);
  CHECK_FALSE(plan.summary.complete);
}

TEST_CASE("the tempo does not change how fast a trill goes") {
  Passage passage = with_trill({"C2", "Db2", "C2"}, "Eb2", NoteKind::trill);
  const Played& played = own_played("bassoon+interlinked-low-keys");
  const auto slow = best(played, passage).notes[1].rate;
  passage.tempo = passage.tempo.starting_at(Qpm(60));
  CHECK(best(played, passage).notes[1].rate->value() == Approx(slow->value()));
}

TEST_CASE("a finger that lets go as a trill starts need not be over its trill key yet") {
  // The left little finger leaves low E-flat for a trill on low C in which it moves low D-flat.
  Passage passage = passage_of({"F4", "C2"});
  passage.notes[1].kind = NoteKind::trill;
  passage.notes[1].other = spelled("Db2");
  PlanRequest request;
  for (const auto& candidate : own_played("bassoon").derivation.of(passage.notes[0].pitch)) {
    request.choices.pins = {{.note = 0, .fingering = candidate.fingering}};
    const Plan plan = plan_passage(own_played("bassoon"), passage, request).front();
    REQUIRE(plan.notes.size() == 2);
    CHECK(plan.notes[1].candidate);
    CHECK(plan.notes[1].arrive);
    CHECK(plan.notes[1].arrive->step.possible);
  }
}
