#include "agreement/fit.hpp"

#include <algorithm>
#include <cmath>

namespace fingerway {
namespace {

using Which = std::function<bool(const StatementHead&)>;

// Scales at which a difference is felt: ten points are a finger more, a note a second is what players tell apart.
constexpr double margin_scale = 10.0;
constexpr double rate_scale = 1.0;
/// Weight of the distance from the priors: a number at the end of its range costs as much as one choice in twenty.
constexpr double pull = 0.02;
constexpr double first_step = 0.25;
constexpr double last_step = 0.1;
/// A number whose move brings less than this is put back: the statements do not tell it.
constexpr double least_gain = 0.0005;

double logistic(double margin) { return std::log1p(std::exp(-margin)); }

/// Position in the range from 0 to 1, by ratio where the range allows it.
double position(const FitNumber& n, double value) {
  if (n.low <= 0.0) return (value - n.low) / (n.high - n.low);
  return std::log(value / n.low) / std::log(n.high / n.low);
}

double value_at(const FitNumber& n, double at) {
  at = std::clamp(at, 0.0, 1.0);
  const double value = n.low <= 0.0 ? n.low + at * (n.high - n.low) : n.low * std::pow(n.high / n.low, at);
  // Three figures are more than the statements can tell.
  const double unit = std::pow(10.0, std::floor(std::log10(std::max(value, 1e-6))) - 2);
  return std::clamp(std::round(value / unit) * unit, n.low, n.high);
}

double mean(double sum, std::size_t count) { return count == 0 ? 0.0 : sum / static_cast<double>(count); }

bool playable(Said said) { return said == Said::good || said == Said::awkward; }

}  // namespace

FitWorld::FitWorld(const std::filesystem::path& project, const std::vector<std::string>& families, Level level)
    : level_(level) {
  const InstrumentFolders folders{{project / "instruments"}};
  for (const std::string& family : families) {
    Statements all = read_statements(project / "tests" / "reference", family);
    for (ChoiceRule& rule : all.choices) {
      if (counts(rule.head)) choices_.push_back(std::move(rule));
    }
    for (TrillStatement& statement : all.trills) {
      if (counts(statement.head)) trills_.push_back(std::move(statement));
    }
  }
  const auto need = [&](const StatementHead& head) {
    if (!instruments_.contains(head.instrument)) {
      instruments_.emplace(head.instrument, read_instrument(head.instrument, folders));
    }
  };
  for (const ChoiceRule& rule : choices_) need(rule.head);
  for (const TrillStatement& statement : trills_) need(statement.head);
}

FitWorld::Judged FitWorld::judge_all(const MotionNumbers& numbers, const Which& which) const {
  std::map<std::string, Played> hands;
  const auto hand = [&](const StatementHead& head) -> const Played& {
    const auto known = hands.find(head.instrument);
    if (known != hands.end()) return known->second;
    return hands.emplace(head.instrument, played(instruments_.at(head.instrument), numbers, level_)).first->second;
  };
  Judged judged;
  for (const ChoiceRule& rule : choices_) {
    judged.choices.push_back(which(rule.head) ? judge_margin(hand(rule.head), rule) : ChoiceVerdict{});
  }
  for (const TrillStatement& statement : trills_) {
    judged.rates.push_back(which(statement.head) ? judge(hand(statement.head), statement) : NotesPerSecond(0));
  }
  return judged;
}

double loss(const FitWorld& world, const FitWorld::Judged& judged, const MotionNumbers& numbers,
            const std::vector<FitNumber>& moved, const Which& which) {
  double by_choice = 0.0;
  std::size_t choices = 0;
  for (std::size_t i = 0; i < world.choices().size(); ++i) {
    if (!which(world.choices()[i].head) || !judged.choices[i].margin) continue;
    by_choice += logistic(judged.choices[i].margin->value() / margin_scale);
    ++choices;
  }
  double by_side = 0.0;
  std::size_t sides = 0;
  double by_pair = 0.0;
  std::size_t pairs = 0;
  for (std::size_t i = 0; i < world.trills().size(); ++i) {
    const TrillStatement& a = world.trills()[i];
    if (!which(a.head)) continue;
    const double over = (judged.rates[i].value() - numbers.workable_from.value) / rate_scale;
    by_side += logistic(playable(a.said) ? over : -over);
    ++sides;
    for (std::size_t j = 0; j < world.trills().size(); ++j) {
      const TrillStatement& b = world.trills()[j];
      if (!which(b.head) || a.said >= b.said || !comparable(a.kind, b.kind)) continue;
      by_pair += logistic((judged.rates[i].value() - judged.rates[j].value()) / rate_scale);
      ++pairs;
    }
  }
  double distance = 0.0;
  for (const FitNumber& n : moved) {
    const double away = position(n, n.value) - position(n, n.prior);
    distance += away * away;
  }
  return mean(by_choice, choices) + mean(by_side, sides) + mean(by_pair, pairs) + pull * distance;
}

void put(MotionNumbers& numbers, const std::vector<FitNumber>& fitted) {
  for (const NamedNumber& named : named_numbers(numbers)) {
    const auto found = std::ranges::find(fitted, named.name, &FitNumber::name);
    if (found != fitted.end()) named.number->value = found->value;
  }
}

namespace {

/// Puts every number back to its prior that is not worth its move, one after the other, and tells what the others gain.
template <class TryOut>
void put_back(FitResult& best, const TryOut& try_out) {
  bool again = true;
  while (again) {
    again = false;
    for (FitNumber& n : best.numbers) {
      if (n.value == n.prior) continue;
      std::vector<FitNumber> back = best.numbers;
      std::ranges::find(back, n.name, &FitNumber::name)->value = n.prior;
      const double there = try_out(back);
      n.gain = 1000.0 * (there - best.loss);
      if (there > best.loss + least_gain) continue;
      n.value = n.prior;
      n.gain = 0.0;
      best.loss = there;
      again = true;
    }
  }
}

}  // namespace

FitResult fit(const FitWorld& world, MotionNumbers numbers, std::vector<FitNumber> start, const Which& which) {
  const auto try_out = [&](const std::vector<FitNumber>& moved) {
    put(numbers, moved);
    return loss(world, world.judge_all(numbers, which), numbers, moved, which);
  };
  FitResult best{.numbers = std::move(start), .loss = 0.0};
  best.loss = try_out(best.numbers);
  for (double step = first_step; step >= last_step; step /= 2) {
    bool moved = true;
    for (int round = 0; moved && round < 2; ++round) {
      moved = false;
      for (std::size_t i = 0; i < best.numbers.size(); ++i) {
        for (double way : {step, -step}) {
          std::vector<FitNumber> other = best.numbers;
          other[i].value = value_at(other[i], position(other[i], other[i].value) + way);
          if (other[i].value == best.numbers[i].value) continue;
          const double there = try_out(other);
          if (there >= best.loss - 1e-5) continue;
          best = {.numbers = std::move(other), .loss = there};
          moved = true;
          break;
        }
      }
    }
  }
  put_back(best, try_out);
  return best;
}

std::map<std::string, int> folds_by_source(const FitWorld& world, int count) {
  std::map<std::string, std::size_t> sizes;
  for (const ChoiceRule& rule : world.choices()) ++sizes[rule.head.source];
  for (const TrillStatement& statement : world.trills()) ++sizes[statement.head.source];
  std::vector<std::pair<std::string, std::size_t>> sources(sizes.begin(), sizes.end());
  std::ranges::stable_sort(sources, std::greater{}, [](const auto& s) { return s.second; });
  std::vector<std::size_t> filled(static_cast<std::size_t>(count), 0);
  std::map<std::string, int> folds;
  for (const auto& [source, size] : sources) {
    const auto emptiest = std::ranges::min_element(filled);
    *emptiest += size;
    folds[source] = static_cast<int>(emptiest - filled.begin());
  }
  return folds;
}

void fit_limits(const FitWorld& world, const std::vector<NotesPerSecond>& rates, MotionNumbers& numbers,
                const Which& which) {
  /// The limit between statements up to `easy` and harder ones: the middle of the best interval.
  const auto limit = [&](Number& number, Said easy) {
    double best_errors = 1e9;
    double first = number.value;
    double last = number.value;
    for (int tenth = static_cast<int>(std::ceil(number.low * 20)); tenth <= number.high * 20; ++tenth) {
      const double at = tenth / 20.0;
      double errors = 0.0;
      for (std::size_t i = 0; i < rates.size(); ++i) {
        if (!which(world.trills()[i].head)) continue;
        errors += (world.trills()[i].said <= easy) != (rates[i].value() >= at) ? 1.0 : 0.0;
      }
      if (errors < best_errors) {
        best_errors = errors;
        first = at;
      }
      if (errors == best_errors) last = at;
    }
    number.value = std::round((first + last) * 10) / 20;
  };
  limit(numbers.fluent_from, Said::good);
  limit(numbers.workable_from, Said::awkward);
  limit(numbers.laborious_from, Said::very_difficult);
}

}  // namespace fingerway
