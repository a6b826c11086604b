// What this part answers: long work (a repertoire's payoff, a class's sheets) done once on a thread of its own while
// the page is already there, and how far it is.
#pragma once

#include <atomic>
#include <functional>
#include <mutex>
#include <string>
#include <thread>

namespace fingerway {

/// Told the share that is done, from 0 to 1; throws when the work is to be given up.
using ShareDone = std::function<void(double)>;

class Background {
 public:
  /// `work` gives the answer's JSON.
  explicit Background(std::function<std::string(const ShareDone&)> work);
  /// Gives the work up at its next word.
  ~Background();
  Background(const Background&) = delete;
  Background& operator=(const Background&) = delete;

  /// {"state":"working","share":0.4}, {"state":"failed","messages":[...]}, or what the work gave.
  [[nodiscard]] std::string answer() const;

 private:
  void run(const std::function<std::string(const ShareDone&)>& work);

  mutable std::mutex mutex_;
  std::string answer_;  ///< empty while it is being worked out
  std::atomic<double> share_ = 0;
  std::atomic<bool> given_up_ = false;
  std::thread thread_;
};

}  // namespace fingerway
