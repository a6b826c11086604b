// What this part answers: the units of a payoff, each a passage with one set in one world, and the file that keeps
// those that are done, so that work can be stopped, resumed, split over machines and put together again.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "fingerway/decide/payoff.hpp"
#include "payoff_material.hpp"

namespace fingerway {

/// Every K-th of N parts of the units, K from 1.
struct Shard {
  std::size_t part = 1;
  std::size_t of = 1;
};
/// Reads "2/4". Throws InputError.
[[nodiscard]] Shard parse_shard(const std::string& text);

/// All outcomes of a payoff; places are empty until their unit is done.
struct PayoffGrid {
  std::size_t worlds = 1;  ///< world 0, then the sampled ones
  std::size_t variants = 0;
  std::size_t pieces = 0;
  std::vector<std::optional<PassageOutcome>> outcomes;  ///< by world, then piece, then variant
  std::vector<std::uint64_t> keys;                      ///< what each depends on, as a fingerprint

  [[nodiscard]] std::size_t index(std::size_t world, std::size_t piece, std::size_t variant) const {
    return (world * pieces + piece) * variants + variant;
  }
  [[nodiscard]] std::size_t missing() const;
  /// By variant, then piece. Nothing of that world may be missing.
  [[nodiscard]] OutcomeGrid of_world(std::size_t world) const;
};

/// The grid of a payoff with nothing done.
[[nodiscard]] PayoffGrid payoff_grid(const PayoffMaterial& material, Level level, std::size_t samples);

/// Outcomes done before, by key.
using DoneUnits = std::map<std::uint64_t, PassageOutcome>;
/// Takes over those that belong to a unit and fit it.
void fill_in(PayoffGrid& grid, const PayoffMaterial& material, const DoneUnits& done);

/// What is told of each unit as it is done; called by one thread at a time.
using UnitDone = std::function<void(std::uint64_t key, const PassageOutcome& outcome)>;

/// Plans the units of the shard that are not done yet.
void run_units(const PayoffMaterial& material, Level level, Shard shard, unsigned threads, PayoffGrid& grid,
               const UnitDone& unit_done);
/// Units of the shard that are not done.
[[nodiscard]] std::size_t missing_in(const PayoffGrid& grid, Shard shard);

/// A file of done units: a line that says for which payoff, then a line a unit.
class WorkFile {
 public:
  /// Opens or starts the file, for this process alone; a last line that was not written whole is dropped. Throws
  /// InputError where it was started for another payoff, FileError.
  WorkFile(const std::string& path, const PayoffRequest& request);
  ~WorkFile();
  WorkFile(const WorkFile&) = delete;
  WorkFile& operator=(const WorkFile&) = delete;

  [[nodiscard]] const DoneUnits& done() const { return done_; }
  void append(std::uint64_t key, const PassageOutcome& outcome);

 private:
  std::string path_;
  int file_ = -1;
  DoneUnits done_;
};

/// What a work file holds.
struct ReadWork {
  PayoffRequest request;
  DoneUnits done;
};
/// Reads one without opening it for work. Throws InputError, FileError.
[[nodiscard]] ReadWork read_work(const std::string& path);

}  // namespace fingerway
