// What this part answers: which values of the unmeasured numbers agree best with what the trade says, and how well that
// holds for sources that were not looked at. It writes nothing (fit_main.cpp).
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "agreement/score.hpp"

namespace fingerway {

/// A number that may move, within its range.
struct FitNumber {
  std::string name;
  double prior = 0.0;  ///< where it stands without any statement
  double value = 0.0;
  double low = 0.0;
  double high = 0.0;
  /// How much worse the agreement is at the prior, in thousandths of the loss; 0: the statements do not move it.
  double gain = 0.0;
};

/// All statements that count, and the instruments they are judged on; the hand changes with the numbers.
class FitWorld {
 public:
  FitWorld(const std::filesystem::path& project, const std::vector<std::string>& families, Level level);

  [[nodiscard]] const std::vector<ChoiceRule>& choices() const { return choices_; }
  [[nodiscard]] const std::vector<TrillStatement>& trills() const { return trills_; }

  struct Judged {
    std::vector<ChoiceVerdict> choices;  ///< plans left out, margins only
    std::vector<NotesPerSecond> rates;
  };
  /// Judges the statements of the given folds (all where empty) with these numbers. Safe to call from several threads.
  [[nodiscard]] Judged judge_all(const MotionNumbers& numbers,
                                 const std::function<bool(const StatementHead&)>& which) const;

 private:
  Level level_;
  std::vector<ChoiceRule> choices_;
  std::vector<TrillStatement> trills_;
  std::map<std::string, Instrument> instruments_;
};

/// What is made small: for choices the logistic loss of the margin, for trills that of every pair the trade puts in an
/// order and of every rate against the limit of what is playable; each kind averaged, then added, plus the distance of
/// the numbers from their priors, weighed lightly.
[[nodiscard]] double loss(const FitWorld& world, const FitWorld::Judged& judged, const MotionNumbers& numbers,
                          const std::vector<FitNumber>& moved, const std::function<bool(const StatementHead&)>& which);

struct FitResult {
  std::vector<FitNumber> numbers;
  double loss = 0.0;
};

/// Moves one number after the other, up and down its range in ever smaller steps, as long as the loss falls; then puts
/// back to its prior what brought nothing that can be told from noise.
[[nodiscard]] FitResult fit(const FitWorld& world, MotionNumbers numbers, std::vector<FitNumber> start,
                            const std::function<bool(const StatementHead&)>& which);

/// The numbers with the fitted values in place.
void put(MotionNumbers& numbers, const std::vector<FitNumber>& fitted);

/// Sources spread over `count` folds of about equal size; the answer is the fold of a statement's source.
[[nodiscard]] std::map<std::string, int> folds_by_source(const FitWorld& world, int count);

/// Sets the verdict limits to the middle of where most statements fall on the right side, within their ranges.
void fit_limits(const FitWorld& world, const std::vector<NotesPerSecond>& rates, MotionNumbers& numbers,
                const std::function<bool(const StatementHead&)>& which);

}  // namespace fingerway
