// One measurement a run, as one line of JSON; tools/bench asks for them and sets them against their limits. Times are
// processor seconds, so that what else the machine does disturbs them little.
#include <malloc.h>

#include <yaml-cpp/yaml.h>
#include <algorithm>
#include <cstdlib>
#include <functional>
#include <iostream>
#include <map>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "fingerway/plan/planner.hpp"
#include "fingerway/read/instrument_files.hpp"
#include "fingerway/read/motion_file.hpp"
#include "fingerway/read/musicxml.hpp"
#include "measure/clock.hpp"
#include "measure/yardsticks.hpp"
#include "plan/passage_search.hpp"

namespace {

using namespace fingerway;
using nlohmann::json;

const Played& bassoon() {
  static const Played player = played(read_instrument("bassoon", InstrumentFolders{{"instruments"}}),
                                      read_motion_numbers("instruments/motion.yaml"), Level::amateur);
  return player;
}

/// Keeps the least of what it is told.
void keep_least(std::optional<double>& least, double seconds) { least = std::min(least.value_or(seconds), seconds); }

/// Over the layers of a passage and what their nodes weigh, pricing changes and searching with no change priced yet;
/// from a passage to its best path with nothing ready, and with the workshop kept; and the whole plan with it; against
/// the yardsticks over tables that are ready. All must find the same weight.
json search_against_yardsticks(const Passage& passage, int repeats) {
  const LayeredGraph graph = passage_graph(bassoon(), passage, {}).graph;
  std::size_t edges = 0;
  for (const auto& steps : graph.steps) edges += steps->weight.size();

  std::optional<double> own, fresh, kept, plan, yardstick, boost, boost_search;
  std::vector<Weight> weights;
  Workshop workshop(bassoon(), Workshop::Keeps::prices_by_note);
  for (int i = 0; i < repeats; ++i) {
    keep_least(yardstick, timed([&] {
                 std::vector<std::uint32_t> path;
                 weights.push_back(dense_min_plus(graph, path));
               }));
    {
      Workshop layers(bassoon());
      const PassageWays ways(layers, passage, {});
      std::vector<Weight> nodes;
      for (std::size_t note = 0; note < ways.size(); ++note) ways.weights(note, *ways.shape(note), nodes);
      keep_least(own, timed([&] { weights.push_back(search(ways, {}, Sought::path).weight); }));
    }
    keep_least(fresh, timed([&] {
                 Workshop unused(bassoon());
                 weights.push_back(search(PassageWays(unused, passage, {}), {}, Sought::path).weight);
               }));
    keep_least(kept,
               timed([&] { weights.push_back(search(PassageWays(workshop, passage, {}), {}, Sought::path).weight); }));
    keep_least(plan, timed([&] { weights.push_back(plan_passage(bassoon(), passage, {})[0].summary.weight); }));
  }
  for (int i = 0; i < std::max(1, repeats / 5); ++i) {
    const BoostAnswer answer = stored_boost_graph(graph);
    weights.push_back(answer.weight);
    keep_least(boost, answer.building + answer.search);
    keep_least(boost_search, answer.search);
  }
  return {{"notes", passage.notes.size()},
          {"edges", edges},
          {"weight", weights[0]},
          {"equal", std::ranges::count(weights, weights[0]) == std::ssize(weights)},
          {"yardstick", *yardstick},
          {"own", *own},
          {"fresh", *fresh},
          {"own_kept", *kept},
          {"plan", *plan},
          {"boost", *boost},
          {"boost_search", *boost_search}};
}

/// The libraries alone, as the first thing a process does with the files.
json libraries_alone(const std::string& score, const std::string& instrument) {
  json result;
  result["pugixml"] = timed([&] {
    pugi::xml_document document;
    if (!document.load_file(score.c_str())) std::exit(2);
  });
  result["yaml"] = timed([&] {
    if (!YAML::LoadFile(instrument).IsMap()) std::exit(2);
  });
  return result;
}

/// A process that only reads: the most memory it needs.
json only_read(const std::string& score) {
  const Passage passage = read_musicxml(score, {});
  return {{"notes", passage.notes.size()}, {"peak", memory_bytes("VmHWM")}};
}

/// Time and memory of reading and of planning. What the reader leaves behind is what planning is measured above.
json growth(const std::string& score) {
  Passage passage;
  const double reading = timed([&] { passage = read_musicxml(score, {}); });
  const std::size_t reading_peak = memory_bytes("VmHWM");
  const Played& player = bassoon();
  malloc_trim(0);
  const std::size_t before = memory_bytes("VmRSS");
  if (!forget_peak_memory()) return {{"fault", "cannot reset the peak of memory"}};
  std::vector<Plan> plans;
  const double planning = timed([&] { plans = plan_passage(player, passage, {}); });
  const std::size_t peak = memory_bytes("VmHWM");
  malloc_trim(0);
  // Without a way through, nothing was measured.
  if (plans.empty() || plans[0].summary.weight == 0) return {{"fault", "no plan for " + score}};
  return {{"notes", passage.notes.size()},
          {"reading", reading},
          {"planning", planning},
          {"reading_peak", reading_peak},
          {"passage", before},
          {"planning_peak", peak},
          {"plan_kept", memory_bytes("VmRSS") - before},
          {"weight", plans[0].summary.weight}};
}

/// Plans again after one pin, wherever in the passage it stands, with the planner kept; now and then the answer is held
/// against one that starts from nothing.
json pins(const Passage& passage, std::size_t count) {
  Planner planner(bassoon());
  std::vector<Plan> plans;
  const double first = timed([&] { plans = planner.plans(passage, {}); });
  const PassageGraph graph = passage_graph(bassoon(), passage, {});
  std::vector<double> seconds;
  bool equal = true;
  for (std::size_t k = 0; k < count; ++k) {
    const std::size_t note = k * passage.notes.size() / count;
    const NoteLayer& layer = graph.layers[note];
    const auto other = std::ranges::find_if(layer.candidates, [&](const Candidate& candidate) {
      return candidate.fingering != plans[0].notes[note].candidate->fingering;
    });
    if (other == layer.candidates.end()) continue;
    PlanRequest request;
    request.choices.pins.push_back({.note = note, .fingering = other->fingering, .whole = true});
    std::vector<Plan> pinned;
    seconds.push_back(timed([&] { pinned = planner.plans(passage, request); }));
    if (k % 5 == 0) {
      equal &= plan_passage(bassoon(), passage, request)[0].summary.weight == pinned[0].summary.weight;
    }
  }
  if (seconds.empty()) return {{"fault", "no note has a second fingering"}};
  std::ranges::sort(seconds);
  return {{"notes", passage.notes.size()},         {"pins", seconds.size()}, {"first", first},
          {"median", seconds[seconds.size() / 2]}, {"most", seconds.back()}, {"equal", equal}};
}

json measured(const std::vector<std::string>& asked) {
  const std::string& what = asked.at(0);
  if (what == "search") return search_against_yardsticks(read_musicxml(asked.at(1), {}), std::stoi(asked.at(2)));
  if (what == "libraries") return libraries_alone(asked.at(1), asked.at(2));
  if (what == "read") return only_read(asked.at(1));
  if (what == "growth") return growth(asked.at(1));
  if (what == "pins") return pins(read_musicxml(asked.at(1), {}), std::stoul(asked.at(2)));
  return {{"fault", "no measurement is called " + what}};
}

}  // namespace

int main(int count, char** words) {
  try {
    const json result = measured({words + 1, words + count});
    if (result.contains("fault")) {
      std::cerr << "fingerway_measure: " << result["fault"].get<std::string>() << '\n';
      return 2;
    }
    std::cout << result.dump() << '\n';
    return 0;
  } catch (const std::exception& error) {
    std::cerr << "fingerway_measure: " << error.what() << '\n';
    return 2;
  }
}
