// Fits the numbers that no paper gives on the statements of tests/reference, leaving out one fifth of the sources at a
// time to see how well it holds for the others; prints what moved and the agreement; writes instruments/motion.yaml
// when asked. Started by tools/fit-weights.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <future>
#include <iostream>

#include "agreement/fit.hpp"
#include "agreement/motion_text.hpp"

using namespace fingerway;

namespace {

const std::vector<std::string> every_family = {"bassoon", "clarinet", "saxophone", "flute", "oboe"};

/// Few and general: no number belongs to a note, an instrument or a rule. Ranges and priors stand in motion.yaml.
const std::vector<std::string> fitted_names = {"sideways-ratio",
                                               "slide-friction",
                                               "roll-share",
                                               "contrary-two-hands",
                                               "same-way-share",
                                               "straddle-points",
                                               "jump-points",
                                               "independence-points",
                                               "effort-floor",
                                               "gap-points",
                                               "alternate-points-per-second",
                                               "trait-points-per-second",
                                               "trill-only-points",
                                               "shade-points-per-second"};

constexpr int fold_count = 5;

const auto everything = [](const StatementHead&) { return true; };

struct Figures {
  Share choices;
  std::vector<JudgedTrill> trills;

  void add(const FitWorld& world, const FitWorld::Judged& judged, const MotionNumbers& numbers,
           const std::function<bool(const StatementHead&)>& which) {
    for (std::size_t i = 0; i < world.choices().size(); ++i) {
      if (which(world.choices()[i].head)) choices.add(judged.choices[i].met);
    }
    for (std::size_t i = 0; i < world.trills().size(); ++i) {
      const TrillStatement& statement = world.trills()[i];
      if (!which(statement.head)) continue;
      trills.push_back(
          {.statement = &statement, .rate = judged.rates[i], .verdict = verdict(numbers, judged.rates[i])});
    }
  }

  [[nodiscard]] std::string text() const {
    Share sides;
    for (const JudgedTrill& t : trills) sides.add(right_side(t.statement->said, t.verdict));
    return fmt::format("choices {} of {} ({:.1f} %), trills on the right side {} of {} ({:.1f} %), rank {:.3f}",
                       choices.met, choices.all, 100 * choices.value(), sides.met, sides.all, 100 * sides.value(),
                       rank_agreement(trills).value());
  }
};

std::vector<FitNumber> priors(MotionNumbers& numbers) {
  std::vector<FitNumber> start;
  const auto named = named_numbers(numbers);
  for (const std::string& name : fitted_names) {
    const auto found = std::ranges::find(named, name, &NamedNumber::name);
    if (found == named.end()) throw std::runtime_error("no number " + name);
    const Number& n = *found->number;
    start.push_back({.name = name, .prior = n.prior, .value = n.prior, .low = n.low, .high = n.high});
  }
  return start;
}

/// A fit on what `used` lets through, and the limits with it.
struct Fitted {
  FitResult result;
  MotionNumbers numbers;
};

Fitted fit_on(const FitWorld& world, MotionNumbers numbers, const std::function<bool(const StatementHead&)>& used) {
  Fitted fitted{.result = fit(world, numbers, priors(numbers), used), .numbers = numbers};
  put(fitted.numbers, fitted.result.numbers);
  fit_limits(world, world.judge_all(fitted.numbers, used).rates, fitted.numbers, used);
  return fitted;
}

Figures held_out(const FitWorld& world, const MotionNumbers& numbers) {
  const auto folds = folds_by_source(world, fold_count);
  std::vector<std::future<std::pair<int, Fitted>>> running;
  Figures figures;
  const auto finish = [&](std::future<std::pair<int, Fitted>>& done) {
    const auto [fold, fitted] = done.get();
    const auto left_out = [&, fold = fold](const StatementHead& head) { return folds.at(head.source) == fold; };
    figures.add(world, world.judge_all(fitted.numbers, left_out), fitted.numbers, left_out);
    std::cerr << "  fold " << fold + 1 << " of " << fold_count << " done\n";
  };
  // In the order of the folds, so that the answer does not depend on which is ready first.
  for (int fold = 0; fold < fold_count; ++fold) {
    running.push_back(std::async(std::launch::async, [&world, &numbers, &folds, fold] {
      const auto used = [&](const StatementHead& head) { return folds.at(head.source) != fold; };
      return std::pair(fold, fit_on(world, numbers, used));
    }));
    if (fold % 2 == 1) {
      for (auto& each : running) finish(each);
      running.clear();
    }
  }
  for (auto& each : running) finish(each);
  return figures;
}

void run(const std::string& project, bool write) {
  const auto file = std::filesystem::path(project) / "instruments" / "motion.yaml";
  const MotionNumbers numbers = read_motion_numbers(file);
  const FitWorld world(project, every_family, Level::amateur);
  MotionNumbers start = numbers;
  put(start, priors(start));
  Figures before;
  before.add(world, world.judge_all(start, everything), start, everything);
  std::cout << "Before, every number at its prior: " << before.text() << '\n' << std::flush;

  const Fitted fitted = fit_on(world, numbers, everything);
  Figures on_all;
  on_all.add(world, world.judge_all(fitted.numbers, everything), fitted.numbers, everything);
  std::cout << "Fitted on all statements:          " << on_all.text() << '\n' << std::flush;
  const Figures outside = held_out(world, numbers);
  std::cout << "Held out, five folds by source:    " << outside.text() << "\n\n";
  std::cout << fmt::format("{:30} {:>9} {:>9} {:>17} {:>9}\n", "number", "prior", "fitted", "range", "gain");
  for (const FitNumber& n : fitted.result.numbers) {
    std::cout << fmt::format("{:30} {:9g} {:9g} {:>8g} - {:<6g} {:>9}\n", n.name, n.prior, n.value, n.low, n.high,
                             n.value == n.prior ? "unmoved" : fmt::format("{:.1f}", n.gain));
  }
  std::cout << fmt::format("limits: fluent from {:g}, workable from {:g}, laborious from {:g} notes a second\n",
                           fitted.numbers.fluent_from.value, fitted.numbers.workable_from.value,
                           fitted.numbers.laborious_from.value);
  if (!write) return;
  write_fitted(file, fitted.numbers, fitted.result.numbers,
               "fitted by tools/fit-weights on tests/reference. Fitted: " + on_all.text() +
                   ". Held out by source: " + outside.text());
  std::cout << "written: " << file.string() << '\n';
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app("Fits the numbers that no paper gives on what the trade says.");
  std::string project = ".";
  bool write = false;
  app.add_option("--project", project, "The project's folder");
  app.add_flag("--write", write, "Write the fitted values into instruments/motion.yaml");
  CLI11_PARSE(app, argc, argv);
  try {
    run(project, write);
  } catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
    return 2;
  }
  return 0;
}
