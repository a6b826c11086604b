// What may run at once: plans of one instrument, readers of one file, outputs to one folder. Each gives what it gives
// alone; the thread checks (preset tsan) watch how.
#include <atomic>
#include <chrono>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

#include <catch2/catch.hpp>

#include "app/files.hpp"
#include "app/program_run.hpp"
#include "app/workers.hpp"
#include "fingerway/plan/plan.hpp"
#include "fingerway/report/json.hpp"
#include "fingerway/report/page.hpp"
#include "fingerway/report/text.hpp"
#include "support/passages.hpp"

using namespace fingerway;

TEST_CASE("one instrument is planned for by many threads at once") {
  const Played& played = own_played("treble-recorder");
  const std::vector<std::vector<std::string>> passages = {
      {"C5", "D5", "E5", "F5"}, {"G5", "A5", "Bb5", "C6"}, {"F#5", "G#5", "B4"}, {"C5", "Eb5", "D5"}};
  const auto shown = [&](std::size_t i) {
    const Passage passage = passage_of(passages[i % passages.size()]);
    const std::vector<Plan> plans = plan_passage(played, passage, {});
    return plan_text(played, passage, plans) + plan_json(played, passage, plans) + plan_page(played, passage, plans);
  };
  std::vector<std::string> alone;
  for (std::size_t i = 0; i < passages.size(); ++i) alone.push_back(shown(i));
  std::vector<std::string> at_once(16);
  run_on_threads(at_once.size(), 4, [&](std::size_t i) { at_once[i] = shown(i); });
  for (std::size_t i = 0; i < at_once.size(); ++i) CHECK(at_once[i] == alone[i % passages.size()]);
}

TEST_CASE("commands run at once in one process do not disturb each other") {
  const ScratchFolder scratch;
  const auto command = [&](std::size_t i) {
    const std::string file = (scratch.path() / (std::to_string(i) + ".json")).string();
    const std::vector<std::vector<std::string>> commands = {
        {"plan", "scores/rosters/alder-air.musicxml", "-i", "flute", "--bars", "1-2", "--json", file},
        {"chart", "-i", "treble-recorder", "--json", file},
        {"trills", "-i", "treble-recorder", "--between", "C5", "D5", "--json", file},
        {"check", "instruments/conversions/split-e.yaml", "--json", file}};
    const Run done = run(commands[i % commands.size()]);
    CHECK(done.code <= 1);
    return text_of(file);
  };
  std::vector<std::string> alone;
  for (std::size_t i = 0; i < 4; ++i) alone.push_back(command(i));
  std::vector<std::string> at_once(12);
  run_on_threads(at_once.size(), 4, [&](std::size_t i) { at_once[i] = command(i); });
  for (std::size_t i = 0; i < at_once.size(); ++i) CHECK(at_once[i] == alone[i % 4]);
}

TEST_CASE("after a fault no more work is begun, and the fault is told") {
  std::atomic<int> first = 0;
  std::atomic<int> begun = 0;
  const auto work = [&](std::size_t i) {
    ++begun;
    if (i == 0) {
      ++first;
      throw std::runtime_error("no luck");
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
  };
  CHECK_THROWS_WITH(run_on_threads(1000, 2, work), "no luck");
  CHECK(first == 1);
  CHECK(begun < 1000);
}
