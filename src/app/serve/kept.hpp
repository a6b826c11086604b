// What this part answers: what the server keeps between two requests: scores that were brought, passages made ready,
// plans. Only what a planner remembers ever changes.
#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "fingerway/decide/compare.hpp"
#include "fingerway/plan/planner.hpp"
#include "fingerway/read/musicxml.hpp"
#include "fingerway/read/score_bytes.hpp"

namespace fingerway {

/// A token that is not, or no longer, kept; the page sends again what it was made of.
class Gone : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

struct KeptScore {
  std::string token;
  std::string name;
  ScoreFile file;
  std::vector<PartInfo> parts;
};

/// A passage with everyone who plays it, before any choice: what stays the same while a player pins and unpins.
struct PreparedPassage {
  /// A player with a planner that remembers what earlier plans worked out; one request at a time.
  struct Desk {
    explicit Desk(std::shared_ptr<const Played> who) : played(std::move(who)), planner(*played) {}

    std::shared_ptr<const Played> played;
    std::mutex busy;
    Planner planner;
  };

  Passage passage;
  std::vector<std::unique_ptr<Desk>> desks;
};

struct KeptSide {
  std::shared_ptr<const Played> played;
  Choices choices;
  Plan plan;
  std::vector<std::size_t> hardest;
};

struct KeptPlan {
  std::shared_ptr<const KeptScore> score;
  std::shared_ptr<const PreparedPassage> prepared;
  std::vector<KeptSide> sides;
  std::optional<Comparison> comparison;  ///< of two sides
  std::vector<std::size_t> differing;

  [[nodiscard]] const Passage& passage() const { return prepared->passage; }
};

/// About how many bytes they take, for the bounds.
[[nodiscard]] std::size_t bytes_of(const KeptScore& score);
[[nodiscard]] std::size_t bytes_of(const PreparedPassage& prepared);
[[nodiscard]] std::size_t bytes_of(const KeptPlan& plan);

/// The best plan under these choices.
[[nodiscard]] Plan plan_under(const PreparedPassage& prepared, std::size_t side, const Choices& choices,
                              Objective objective);
/// What each fingering of a note would cost there.
[[nodiscard]] Explanation explain_under(const PreparedPassage& prepared, std::size_t side, const Choices& choices,
                                        std::size_t note, std::size_t most);

}  // namespace fingerway
