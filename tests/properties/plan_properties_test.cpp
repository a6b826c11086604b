// What must be true of every plan, on random instruments, hands and passages.
#include "fingerway/search/paths.hpp"
#include "plan/every_way.hpp"
#include "properties/random_world.hpp"

using namespace fingerway;

namespace {

/// The plan's own fingerings as pins.
Choices as_pins(const Plan& plan) {
  Choices choices;
  for (std::size_t i = 0; i < plan.notes.size(); ++i) {
    if (plan.notes[i].candidate) choices.pins.push_back({.note = i, .fingering = plan.notes[i].candidate->fingering});
  }
  return choices;
}

}  // namespace

TEST_CASE("property: the search finds what trying every sequence finds") {
  std::size_t tried = 0;
  holds_for_all("search equals brute force", 150, [&] {
    const DrawnInstrument drawn(drawn_seed());
    const Played world = played(drawn.instrument(), own_numbers(), drawn_player());
    const Passage passage = drawn_passage(drawn.pitches(), 1, 4);
    const auto least = least_of_every_sequence(world, passage, 20'000);
    // What no hand can do is left out of the sequences; the search then has no path, and says the passage is
    // incomplete.
    RC_PRE(least && *least < forbidden);
    const Plan plan = best_plan(world, passage);
    RC_ASSERT(plan.summary.weight == *least);
    const auto by_boost = best_path_by_boost(passage_graph(world, passage, {}).graph);
    RC_ASSERT(by_boost.has_value());
    RC_ASSERT(by_boost->weight == *least);
    ++tried;
  });
  CHECK(tried >= 150);
}

TEST_CASE("property: a plan weighs the sum of its parts, and the same when it is priced as somebody's own choice") {
  holds_for_all("plan cost equals priced cost", 150, [] {
    const DrawnInstrument drawn(drawn_seed());
    const Played world = played(drawn.instrument(), own_numbers(), drawn_player());
    const Passage passage = drawn_passage(drawn.pitches(), 1, 8);
    const Plan plan = best_plan(world, passage);
    RC_PRE(plan.summary.complete);
    RC_ASSERT(weight_by_parts(plan) == plan.summary.weight);
    const Plan own = best_plan(world, passage, as_pins(plan));
    RC_LOG() << shown(drawn.instrument(), passage, plan) << '\n' << shown(drawn.instrument(), passage, own) << '\n';
    RC_ASSERT(own.summary.weight == plan.summary.weight);
  });
}

TEST_CASE("property: every pressed set a plan shows can be held, and sounds its note by the mechanism") {
  std::size_t fingerings = 0;
  holds_for_all("shown sets are reachable and sound", 150, [&] {
    const DrawnInstrument drawn(drawn_seed());
    const Instrument& instrument = drawn.instrument();
    const BruteForce brute(instrument);
    const Played world = played(instrument, own_numbers(), drawn_player());
    const Passage passage = drawn_passage(drawn.pitches(), 1, 8);
    PlanRequest request;
    request.alternatives = 3;
    for (const Plan& plan : plan_passage(world, passage, request)) {
      for (std::size_t i = 0; i < plan.notes.size(); ++i) {
        if (!plan.notes[i].candidate) continue;
        const Fingering& f = plan.notes[i].candidate->fingering;
        RC_LOG() << shown(instrument, passage, plan) << '\n';
        RC_ASSERT(brute.line_of(passage.notes[i].pitch, f) != nullptr);
        // In brackets, or both halves are looked at.
        RC_ASSERT((!plan.notes[i].arrive || plan.notes[i].arrive->step.possible));
        for (Finger finger : all_fingers) {
          const TouchSet own = held_by(instrument, f.pressed, finger);
          const TouchSet half = held_by(instrument, f.half, finger);
          const TouchSet flicked = held_by(instrument, f.flicked, finger);
          const auto holds = holds_of(instrument, finger);
          RC_ASSERT(std::ranges::count(holds, Hold{.touches = own, .half = half}) == 1);
          RC_ASSERT(flicked.size() <= 1);
          RC_ASSERT(flicked.empty() || own.empty());
        }
        ++fingerings;
      }
    }
  });
  CHECK(fingerings > 500);
}

TEST_CASE("property: a pin to one of the ways there are never makes a passage lighter") {
  std::size_t pinned = 0;
  holds_for_all("adding a pin never lowers", 150, [&] {
    const DrawnInstrument drawn(drawn_seed());
    const Played world = played(drawn.instrument(), own_numbers(), drawn_player());
    const Passage passage = drawn_passage(drawn.pitches(), 2, 6);
    Choices choices;
    Plan before = best_plan(world, passage);
    RC_PRE(before.summary.complete);
    for (int round = 0; round < 4; ++round) {
      const std::size_t note = *rc::gen::inRange<std::size_t>(0, passage.notes.size());
      const PassageGraph graph = passage_graph(world, passage, choices);
      const std::vector<Candidate>& known = graph.layers[note].candidates;
      Pin pin{.note = note, .fingering = known[*rc::gen::inRange<std::size_t>(0, known.size())].fingering};
      if (*rc::gen::inRange(0, 2) == 0 && !pin.fingering.pressed.empty()) {
        // Only one of its touches is asked for.
        const std::vector<TouchId> touches(pin.fingering.pressed.begin(), pin.fingering.pressed.end());
        pin.fingering = {};
        pin.fingering.pressed = {touches[*rc::gen::inRange<std::size_t>(0, touches.size())]};
        pin.whole = false;
      }
      choices.pins.push_back(pin);
      const Plan plan = best_plan(world, passage, choices);
      RC_LOG() << shown(drawn.instrument(), passage, before) << "\n  pinned note " << note << " to "
               << names_of(drawn.instrument(), pin.fingering.pressed) << (pin.whole ? " alone" : " at least") << '\n'
               << shown(drawn.instrument(), passage, plan) << '\n';
      RC_ASSERT(plan.summary.complete);
      RC_ASSERT(plan.summary.weight >= before.summary.weight);
      before = plan;
      ++pinned;
    }
  });
  CHECK(pinned >= 600);
}

TEST_CASE("property: a touch more, with none taken off, never makes a passage heavier") {
  // Exactly so where idle fingers may be anywhere. The planner looks at useful places only (see Decisions in
  // DEVELOPERS.md), and a new touch makes others useful: that may cost what the bound costs anywhere else.
  std::size_t exact = 0;
  holds_for_all("adding a touch never raises cost", 150, [&] {
    DrawnInstrument drawn(drawn_seed());
    const Player player = drawn_player();
    const Played plain = played(drawn.instrument(), own_numbers(), player);
    const Played more = played(drawn.with_another_touch(), own_numbers(), player);
    const Passage passage = drawn_passage(drawn.pitches(), 1, 4);
    const Plan before = best_plan(plain, passage);
    RC_PRE(before.summary.complete);
    const Plan after = best_plan(more, passage);
    RC_LOG() << shown(plain.instrument, passage, before) << '\n' << shown(more.instrument, passage, after) << '\n';
    RC_ASSERT(after.summary.complete);
    RC_ASSERT(after.summary.weight <= before.summary.weight + before.summary.weight / 6);

    const PassageGraph graph_before = passage_graph(plain, passage, {});
    const PassageGraph graph_after = passage_graph(more, passage, {});
    std::size_t ways = 1;
    for (const NoteLayer& layer : graph_after.layers) ways = std::max(ways, layer.candidates.size());
    if (ways > 60) return;
    EveryWay every_before(plain, passage, graph_before);
    EveryWay every_after(more, passage, graph_after);
    RC_ASSERT(every_after.least_over_all_places() <= every_before.least_over_all_places());
    ++exact;
  });
  CHECK(exact > 100);
}
