// Where the time of `fingerway plan` goes: reading, deriving, the ways, the search, the whole. Run in the source
// folder. Times of one run compare only with each other: machines are noisy.
#include <benchmark/benchmark.h>

#include "fingerway/decide/compare.hpp"
#include "fingerway/plan/planner.hpp"
#include "fingerway/plan/trills.hpp"
#include "fingerway/read/instrument_files.hpp"
#include "fingerway/read/motion_file.hpp"
#include "fingerway/read/musicxml.hpp"
#include "plan/passage_search.hpp"

namespace {

using namespace fingerway;

const InstrumentFolders folders{{"instruments"}};
constexpr const char* demo = "scores/lowland-round.musicxml";

const Played& stock() {
  static const Played player =
      played(read_instrument("bassoon", folders), read_motion_numbers("instruments/motion.yaml"), Level::amateur);
  return player;
}

const Played& converted() {
  static const Played player = played(read_instrument("bassoon+interlinked-low-keys", folders),
                                      read_motion_numbers("instruments/motion.yaml"), Level::amateur);
  return player;
}

const Passage& passage() {
  static const Passage read = read_musicxml(demo, {});
  return read;
}

/// The demo passage `times` over, one after the other.
Passage repeated(std::size_t times) {
  Passage longer = passage();
  const ScoreTime span = longer.measures.back().start + longer.measures.back().length;
  for (std::size_t i = 1; i < times; ++i) {
    const ScoreTime shift = span * ScoreTime(static_cast<std::int64_t>(i));
    for (NoteEvent note : passage().notes) {
      note.onset = note.onset + shift;
      longer.notes.push_back(std::move(note));
    }
  }
  return longer;
}

void read_score(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(read_musicxml(demo, {}));
}
BENCHMARK(read_score)->Unit(benchmark::kMillisecond);

void read_instrument_and_numbers(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(read_instrument("bassoon", folders));
    benchmark::DoNotOptimize(read_motion_numbers("instruments/motion.yaml"));
  }
}
BENCHMARK(read_instrument_and_numbers)->Unit(benchmark::kMillisecond);

void derive_bassoon(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(derive(stock().instrument));
}
BENCHMARK(derive_bassoon)->Unit(benchmark::kMillisecond);

void hand_on_instrument(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(HandOnInstrument(stock().instrument, stock().hand.numbers(), Level::amateur));
  }
}
BENCHMARK(hand_on_instrument)->Unit(benchmark::kMillisecond);

/// The graph written out, as for k best paths and dumps.
void explicit_graph(benchmark::State& state) {
  std::size_t edges = 0;
  for (auto _ : state) {
    const PassageGraph graph = passage_graph(stock(), passage(), {});
    edges = 0;
    for (const auto& steps : graph.graph.steps) edges += steps->weight.size();
  }
  state.counters["edges"] = static_cast<double>(edges);
}
BENCHMARK(explicit_graph)->Unit(benchmark::kMillisecond);

void search_of_the_explicit_graph(benchmark::State& state) {
  const PassageGraph graph = passage_graph(stock(), passage(), {});
  for (auto _ : state) benchmark::DoNotOptimize(best_path(graph.graph));
}
BENCHMARK(search_of_the_explicit_graph)->Unit(benchmark::kMillisecond);

/// What can be played where, before any change is priced.
void ways(benchmark::State& state) {
  for (auto _ : state) {
    Workshop workshop(stock());
    const PassageWays ways(workshop, passage(), {});
    for (std::size_t note = 0; note < ways.size(); ++note) benchmark::DoNotOptimize(ways.shape(note));
  }
}
BENCHMARK(ways)->Unit(benchmark::kMillisecond);

/// That, and the best path, with prices worked out as it asks for them; nothing kept from before.
void ways_prices_and_search(benchmark::State& state) {
  for (auto _ : state) {
    Workshop workshop(stock());
    benchmark::DoNotOptimize(search(PassageWays(workshop, passage(), {}), {}, Sought::path));
  }
}
BENCHMARK(ways_prices_and_search)->Unit(benchmark::kMillisecond);

/// The same again, where all is kept.
void search_again(benchmark::State& state) {
  Workshop workshop(stock(), Workshop::Keeps::prices_by_note);
  for (auto _ : state) benchmark::DoNotOptimize(search(PassageWays(workshop, passage(), {}), {}, Sought::path));
}
BENCHMARK(search_again)->Unit(benchmark::kMillisecond);

/// A pin that comes and goes, as a player tries it.
void again_after_a_pin(benchmark::State& state) {
  Planner planner(stock());
  const Fingering fingering = planner.plans(passage(), {})[0].notes[passage().notes.size() / 2].candidate->fingering;
  PlanRequest request;
  request.choices.pins.push_back({.note = passage().notes.size() / 2, .fingering = fingering, .whole = true});
  for (auto _ : state) {
    benchmark::DoNotOptimize(planner.plans(passage(), request));
    benchmark::DoNotOptimize(planner.plans(passage(), {}));
  }
}
BENCHMARK(again_after_a_pin)->Unit(benchmark::kMillisecond);

void whole_plan(benchmark::State& state) {
  const Passage longer = repeated(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(plan_passage(stock(), longer, {}));
  state.SetComplexityN(static_cast<std::int64_t>(longer.notes.size()));
}
BENCHMARK(whole_plan)->Unit(benchmark::kMillisecond)->RangeMultiplier(2)->Range(1, 4)->Complexity();

void gained_and_lost(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(
        difference(stock().instrument, stock().derivation, converted().instrument, converted().derivation));
  }
}
BENCHMARK(gained_and_lost)->Unit(benchmark::kMillisecond);

void trills_of_the_instrument(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(all_trills(stock(), Semitones(12)));
}
BENCHMARK(trills_of_the_instrument)->Unit(benchmark::kMillisecond);

}  // namespace
