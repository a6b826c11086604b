#include "payoff_command.hpp"

#include <algorithm>
#include <atomic>
#include <ostream>

#include "data_folders.hpp"
#include "delivery.hpp"
#include "fingerway/base/errors.hpp"
#include "fingerway/report/payoff.hpp"
#include "payoff_json.hpp"
#include "payoff_work.hpp"
#include "workers.hpp"

namespace fingerway {
namespace {

/// Calls `use` with the report on a grid that is filled.
template <class Use>
void with_report(const PayoffRequest& request, const PayoffMaterial& material, const PayoffGrid& grid, const Use& use) {
  const PayoffInput input{
      .repertoire = material.repertoire,
      .variants = material.variants,
      .outcomes = [&](std::size_t world, std::size_t variant) { return grid.outcomes(world, variant); },
      .worlds = grid.worlds - 1,
      .budget = request.budget};
  const Payoff result = payoff(input);
  use(PayoffReport{.repertoire = material.repertoire,
                   .conversions = material.conversions,
                   .variants = material.variants,
                   .refused = material.refused,
                   .payoff = result,
                   .in_full = [&](std::size_t variant) { return set_in_full(input, result.stock, variant); }});
}

ExitCode report_on(const PayoffRequest& request, const PayoffMaterial& material, const PayoffGrid& grid,
                   const PayoffOutputs& wanted, const Console& console) {
  with_report(request, material, grid, [&](const PayoffReport& report) {
    Outputs outputs;
    outputs.add(wanted.json, [&](const TextSink& sink) { payoff_json(report, sink); });
    outputs.add(wanted.csv, [&](const TextSink& sink) { payoff_csv(report, sink); });
    if (!wanted.html.empty()) outputs.add(wanted.html, payoff_page(report));
    deliver(outputs, payoff_text(report), console);
  });
  for (const Remark& skipped : material.repertoire.skipped) {
    console.err << skipped.within << ": skipped: " << skipped.what << '\n';
  }
  return ExitCode::done;
}

}  // namespace

PayoffTexts payoff_texts(const PayoffRequest& request, unsigned threads, const std::function<void(double)>& done) {
  const PayoffMaterial material = load_payoff(request, data_folders());
  const Level level = material.variants.front().played.hand.level();
  PayoffGrid grid = payoff_grid(material, level, request.samples);
  const std::size_t all = missing_in(grid, Shard{});
  std::atomic<std::size_t> made = 0;
  run_units(material, level, Shard{}, threads, grid, [&](std::uint64_t, const PassageOutcome&) {
    done(static_cast<double>(++made) / static_cast<double>(std::max<std::size_t>(1, all)));
  });
  PayoffTexts texts;
  with_report(request, material, grid, [&](const PayoffReport& report) {
    payoff_json(report, [&](std::string_view part) { texts.json += part; });
    texts.html = payoff_page(report);
  });
  return texts;
}

ExitCode run(const PayoffCommand& command, const Console& console) {
  if (command.search) return run_search(command, console);
  if (!command.shard.empty() && command.work.empty()) {
    Fault fault;
    fault.what = "a shard needs a file to leave its work in";
    fault.hint = "add --work FILE, one for each shard";
    throw InputError(std::move(fault));
  }
  const Shard shard = command.shard.empty() ? Shard{} : parse_shard(command.shard);
  const PayoffRequest& request = command.request;
  const PayoffMaterial material = load_payoff(request, data_folders());
  // A player file may say another level than the request.
  const Level level = material.variants.front().played.hand.level();
  PayoffGrid grid = payoff_grid(material, level, request.samples);
  std::optional<WorkFile> work;
  if (!command.work.empty()) {
    work.emplace(command.work, request);
    DoneBefore before(grid, material);
    work->read([&](std::uint64_t key, const PassageOutcome& outcome) { before.take(key, outcome); });
  }
  {
    Progress progress(console.err, "plans", missing_in(grid, shard));
    run_units(material, level, shard, thread_count(command.threads), grid,
              [&](std::uint64_t key, const PassageOutcome& outcome) {
                if (work) work->append(key, outcome);
                progress.add(1);
              });
  }
  if (shard.of > 1) {
    const std::size_t all = grid.keys.size();
    console.out << "shard " << command.shard << " is done: " << (all + shard.of - shard.part) / shard.of << " of "
                << all << " plans, in " << command.work
                << "\nput the shards together with fingerway payoff merge FILES\n";
    return ExitCode::done;
  }
  return report_on(request, material, grid, command.outputs, console);
}

ExitCode run(const PayoffMergeCommand& command, const Console& console) {
  std::optional<PayoffRequest> request;
  for (const std::string& file : command.files) {
    const PayoffRequest here = read_request(file);
    if (request && request_line(*request) != request_line(here)) {
      Fault fault;
      fault.place.file = file;
      fault.what = "is work for another payoff than " + command.files.front();
      fault.hint = "merge only shards of one command";
      throw InputError(std::move(fault));
    }
    request = here;
  }
  if (command.budget) {
    // Sets are planned within the budget of the shards; a smaller one may choose among them, a larger one may not.
    if (request->budget && *command.budget > *request->budget) {
      Fault fault;
      fault.what = "the shards were made within a smaller budget";
      fault.hint = "leave --budget out, or run them again";
      throw InputError(std::move(fault));
    }
  }
  const PayoffMaterial material = load_payoff(*request, data_folders());
  if (command.budget) request->budget = command.budget;
  PayoffGrid grid = payoff_grid(material, material.variants.front().played.hand.level(), request->samples);
  DoneBefore before(grid, material);
  for (const std::string& file : command.files) {
    read_units(file, [&](std::uint64_t key, const PassageOutcome& outcome) { before.take(key, outcome); });
  }
  if (const std::size_t missing = grid.missing(); missing > 0) {
    Fault fault;
    fault.place.file = command.files.front();
    fault.what = std::to_string(missing) + " of " + std::to_string(grid.keys.size()) +
                 " plans are missing, or were made from other scores, instruments or numbers";
    fault.hint = "name the work files of all shards, and let each run to its end";
    throw InputError(std::move(fault));
  }
  return report_on(*request, material, grid, command.outputs, console);
}

}  // namespace fingerway
