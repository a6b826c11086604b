#include <ostream>

#include "data_folders.hpp"
#include "delivery.hpp"
#include "fingerway/report/search.hpp"
#include "payoff_command.hpp"
#include "workers.hpp"

namespace fingerway {

ExitCode run_search(const PayoffCommand& command, const Console& console) {
  if (!command.work.empty() || !command.shard.empty() || !command.outputs.csv.empty() ||
      !command.outputs.html.empty()) {
    Fault fault;
    fault.what = "--search goes without --work, --shard, --csv and --html";
    fault.hint = "its bounds keep it short; --json writes what it finds";
    throw InputError(std::move(fault));
  }
  const Played stock = load_played(command.request.played, data_folders());
  const Repertoire repertoire = load_repertoire(command.request.repertoire, stock);
  const unsigned threads = thread_count(command.threads);
  const RunJobs run = [&](std::size_t count, const std::function<void(std::size_t)>& job) {
    Progress progress(console.err, "sets tried", count);
    run_on_threads(count, threads, [&](std::size_t i) {
      job(i);
      progress.add(1);
    });
  };
  const SearchResult result = search_conversions(stock, repertoire, {}, run);
  const SearchReport report{.stock = stock, .repertoire = repertoire, .result = result};
  Outputs outputs;
  outputs.add(command.outputs.json, search_json(report));
  deliver(outputs, search_text(report), console);
  for (const Remark& skipped : repertoire.skipped) {
    console.err << skipped.within << ": skipped: " << skipped.what << '\n';
  }
  return ExitCode::done;
}

}  // namespace fingerway
