// What this part answers: what `payoff` and `payoff merge` were asked for.
// It parses no command line (command_line.hpp).
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "commands.hpp"
#include "payoff_material.hpp"

namespace fingerway {

struct PayoffOutputs {
  std::string json, csv, html;
};

struct PayoffCommand {
  PayoffRequest request;
  std::string work;      ///< file of units that are done
  std::string shard;     ///< "K/N"; empty: all
  unsigned threads = 0;  ///< 0: one a core
  bool search = false;   ///< for changes of the keywork that would help, instead of known conversions
  PayoffOutputs outputs;
};
[[nodiscard]] ExitCode run(const PayoffCommand& command, const Console& console);

/// A payoff from beginning to end, as JSON and as a page; `done` is told the share of plans that are made.
struct PayoffTexts {
  std::string json, html;
};
[[nodiscard]] PayoffTexts payoff_texts(const PayoffRequest& request, unsigned threads,
                                       const std::function<void(double)>& done);

struct PayoffMergeCommand {
  std::vector<std::string> files;
  std::optional<double> budget;  ///< in place of the one the shards were made with
  PayoffOutputs outputs;
};
[[nodiscard]] ExitCode run(const PayoffMergeCommand& command, const Console& console);

/// `payoff --search`.
[[nodiscard]] ExitCode run_search(const PayoffCommand& command, const Console& console);

}  // namespace fingerway
