// What this part answers: where the outcomes of a payoff lie while it runs: in a temporary file, as there may be more
// of them than memory should hold. What outlives the run is the work file (payoff_work.hpp).
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "fingerway/decide/outcome.hpp"

namespace fingerway {

/// Outcomes by number. The file has no name and is gone with the store, whatever stops the program.
class OutcomeStore {
 public:
  /// Room for so many. Throws FileError where there is no place for temporary files.
  explicit OutcomeStore(std::size_t count);
  ~OutcomeStore();
  OutcomeStore(OutcomeStore&& other) noexcept;
  OutcomeStore(const OutcomeStore&) = delete;
  OutcomeStore& operator=(const OutcomeStore&) = delete;
  OutcomeStore& operator=(OutcomeStore&&) = delete;

  [[nodiscard]] std::size_t size() const { return places_.size(); }
  [[nodiscard]] bool holds(std::size_t number) const { return places_[number].bytes > 0; }
  /// By one thread at a time, once for each number. Throws FileError (a full disk).
  void put(std::size_t number, const PassageOutcome& outcome);
  /// One that it holds. Throws FileError.
  [[nodiscard]] PassageOutcome get(std::size_t number) const;

 private:
  struct Place {
    std::uint64_t start = 0;
    std::uint32_t bytes = 0;  ///< 0: nothing is there
  };

  std::string folder_;  ///< for messages
  int file_ = -1;
  std::uint64_t end_ = 0;
  std::vector<Place> places_;
};

}  // namespace fingerway
