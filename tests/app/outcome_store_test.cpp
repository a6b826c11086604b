// Outcomes laid aside and taken up again.
#include "app/outcome_store.hpp"

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "support/scratch_folder.hpp"
#include "support/temporary_files.hpp"

using namespace fingerway;

namespace {

Fingering fingering(std::uint64_t pressed, std::uint64_t half, std::uint64_t flicked) {
  return {.pressed = TouchSet::from_bits(pressed),
          .half = TouchSet::from_bits(half),
          .flicked = TouchSet::from_bits(flicked)};
}

PassageOutcome with_everything() {
  PassageOutcome outcome;
  outcome.micro_points = -7;
  outcome.awkwardness = 0.1;
  outcome.worst_load = 1.0 / 3.0;
  outcome.complete = false;
  outcome.fits = false;
  outcome.ceiling = 5e-324;
  outcome.best_ceiling = 1e300;
  outcome.verdicts = {Verdict::out_of_reach, Verdict::fluent, Verdict::laborious};
  outcome.notes.resize(3);
  outcome.notes[0].fingering = fingering(~std::uint64_t{0}, 1, std::uint64_t{1} << 63U);
  outcome.notes[0].other = fingering(0, 0, 0);
  outcome.notes[0].rate = 7.5;
  outcome.notes[2].fingering = fingering(5, 0, 2);
  outcome.notes[2].arrive = OutcomeChange{.time_ms = 80.25, .available_ms = 0.0, .possible = false};
  return outcome;
}

}  // namespace

TEST_CASE("an outcome comes back as it was laid aside, whatever it has or lacks") {
  PassageOutcome figures_only = with_everything();
  figures_only.notes.clear();
  const std::vector<PassageOutcome> outcomes = {with_everything(), PassageOutcome(), figures_only};
  OutcomeStore first(4);
  first.put(3, outcomes[0]);
  first.put(0, outcomes[1]);
  OutcomeStore store(std::move(first));
  store.put(2, outcomes[2]);
  CHECK(store.size() == 4);
  CHECK(store.holds(0));
  CHECK_FALSE(store.holds(1));
  CHECK(store.get(3) == outcomes[0]);
  CHECK(store.get(0) == outcomes[1]);
  CHECK(store.get(2) == outcomes[2]);
}

TEST_CASE("outcomes leave nothing behind, and want a folder for temporary files") {
  const ScratchFolder scratch;
  {
    const TemporaryFilesIn there(scratch.path());
    OutcomeStore store(1);
    store.put(0, with_everything());
    CHECK(std::filesystem::is_empty(scratch.path()));
  }
  const TemporaryFilesIn nowhere(scratch.path() / "nowhere");
  try {
    const OutcomeStore store(1);
    FAIL("a store without a place");
  } catch (const FileError& error) {
    CHECK(message(error.fault()).find("TMPDIR") != std::string::npos);
  }
}
