// What this part answers: the units of a payoff, each a passage with one set in one world, and the file that keeps
// those that are done, so that work can be stopped, resumed, split over machines and put together again.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "fingerway/decide/payoff.hpp"
#include "outcome_store.hpp"
#include "payoff_material.hpp"

namespace fingerway {

/// Every K-th of N parts of the units, K from 1.
struct Shard {
  std::size_t part = 1;
  std::size_t of = 1;
};
/// Reads "2/4". Throws InputError.
[[nodiscard]] Shard parse_shard(const std::string& text);

/// All units of a payoff, and the outcomes of those that are done.
struct PayoffGrid {
  std::size_t worlds = 1;  ///< world 0, then the sampled ones
  std::size_t variants = 0;
  std::size_t pieces = 0;
  std::vector<std::uint64_t> keys;  ///< what each depends on, as a fingerprint; by world, then piece, then variant
  OutcomeStore done;                ///< in the same order

  [[nodiscard]] std::size_t index(std::size_t world, std::size_t piece, std::size_t variant) const {
    return (world * pieces + piece) * variants + variant;
  }
  [[nodiscard]] std::size_t missing() const;
  /// By piece. Nothing of that world and variant may be missing.
  [[nodiscard]] std::vector<PassageOutcome> outcomes(std::size_t world, std::size_t variant) const;
};

/// The grid of a payoff with nothing done.
[[nodiscard]] PayoffGrid payoff_grid(const PayoffMaterial& material, Level level, std::size_t samples);

/// What is told of each unit as it is done, or read; called by one thread at a time.
using UnitDone = std::function<void(std::uint64_t key, const PassageOutcome& outcome)>;

/// Takes outcomes done before over into a grid.
class DoneBefore {
 public:
  DoneBefore(PayoffGrid& grid, const PayoffMaterial& material);
  /// One that belongs to a unit and fits it is taken, any other left out.
  void take(std::uint64_t key, const PassageOutcome& outcome);

 private:
  PayoffGrid& grid_;
  const PayoffMaterial& material_;
  std::vector<std::size_t> by_key_;  ///< units that were missing
};

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

  /// Tells every unit it holds, before the first is appended. Throws InputError, FileError.
  void read(const UnitDone& unit) const;
  void append(std::uint64_t key, const PassageOutcome& outcome);

 private:
  std::string path_;
  int file_ = -1;
};

/// For which payoff a work file is. Throws InputError, FileError.
[[nodiscard]] PayoffRequest read_request(const std::string& path);
/// Tells every unit of a work file without opening it for work; returns the bytes of the lines that were written whole.
/// Throws InputError, FileError.
std::size_t read_units(const std::string& path, const UnitDone& unit);

}  // namespace fingerway
