// Where the time of `fingerway plan` goes: reading, deriving, the graph, the search, the whole. Run in the source
// folder. Times of one run compare only with each other: machines are noisy.
#include <benchmark/benchmark.h>

#include "fingerway/decide/compare.hpp"
#include "fingerway/plan/plan.hpp"
#include "fingerway/plan/trills.hpp"
#include "fingerway/read/instrument_files.hpp"
#include "fingerway/read/motion_file.hpp"
#include "fingerway/read/musicxml.hpp"

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

void edge_costs(benchmark::State& state) {
  std::size_t edges = 0;
  for (auto _ : state) {
    const PassageGraph graph = passage_graph(stock(), passage(), {});
    edges = 0;
    for (const auto& steps : graph.graph.steps) edges += steps->weight.size();
  }
  state.counters["edges"] = static_cast<double>(edges);
}
BENCHMARK(edge_costs)->Unit(benchmark::kMillisecond);

void search(benchmark::State& state) {
  const PassageGraph graph = passage_graph(stock(), passage(), {});
  for (auto _ : state) benchmark::DoNotOptimize(best_path(graph.graph));
}
BENCHMARK(search)->Unit(benchmark::kMillisecond);

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
