// Searching over steps that are priced when asked for, held to the searches over steps written out.
#include <catch2/catch.hpp>

#include <algorithm>

#include "fingerway/search/paths.hpp"
#include "fingerway/search/remembered_ways.hpp"
#include "search/graphs.hpp"

using namespace fingerway;

namespace {

/// The steps of a graph written out, as rows that answer one by one. Counts what it is asked, and answers as loosely as
/// it may: any weight above `enough` comes back larger than it is.
class WrittenRows {
 public:
  explicit WrittenRows(const Steps& steps) : steps_(steps) {
    // Runs of one, two and three columns.
    for (std::uint32_t first = 0; first < steps.to; first += 1 + static_cast<std::uint32_t>(runs_.size()) % 3) {
      runs_.push_back(first);
    }
    runs_.push_back(static_cast<std::uint32_t>(steps.to));
  }

  [[nodiscard]] std::size_t rows() const { return steps_.from; }
  [[nodiscard]] std::span<const std::uint32_t> runs() const { return runs_; }
  void start_row(std::size_t row) { row_ = row; }
  [[nodiscard]] Weight least_of_row() const { return least_between(0, steps_.to); }
  [[nodiscard]] Weight least_of_run(std::size_t run) const { return least_between(runs_[run], runs_[run + 1]); }
  [[nodiscard]] Weight weight(std::size_t run, std::size_t column, Weight enough) {
    ++asked;
    REQUIRE(runs_[run] <= column);
    REQUIRE(column < runs_[run + 1]);
    const Weight exact = steps_.weight_at(row_, column);
    return exact > enough && !is_forbidden(exact) ? exact + 7 : exact;
  }
  [[nodiscard]] std::optional<Load> limiting_load(std::size_t /*run*/, std::size_t column) const {
    if (is_forbidden(steps_.weight_at(row_, column))) return std::nullopt;
    return steps_.load_at(row_, column);
  }

  std::size_t asked = 0;

 private:
  [[nodiscard]] Weight least_between(std::size_t first, std::size_t end) const {
    Weight least = forbidden;
    for (std::size_t j = first; j < end; ++j) least = std::min(least, steps_.weight_at(row_, j));
    return least;
  }

  const Steps& steps_;
  std::vector<std::uint32_t> runs_;
  std::size_t row_ = 0;
};
static_assert(StepRows<WrittenRows>);

struct Ways {
  std::optional<Path> path;
  std::size_t asked = 0;
};

/// The best path, layer by layer from the end. `remembered`, one a step, may have seen other graphs of the same steps.
Ways by_rows(const LayeredGraph& graph, std::vector<RememberedWays>& remembered) {
  static std::size_t held = 0;
  Ways result;
  std::vector<std::vector<std::uint32_t>> next;
  std::vector<Weight> ahead = graph.nodes.back();
  while (remembered.size() < graph.steps.size()) remembered.emplace_back(held);
  for (std::size_t l = graph.steps.size(); l-- > 0;) {
    WrittenRows rows(*graph.steps[l]);
    Weight more = 0;
    const WaysOn on = remembered[l].ways_on([&]() -> WrittenRows& { return rows; }, ahead, more);
    result.asked += rows.asked;
    next.push_back(on.next);
    ahead = graph.nodes[l];
    for (std::size_t i = 0; i < ahead.size(); ++i) {
      const bool shut = is_forbidden(ahead[i]) || is_forbidden(on.weight[i]);
      ahead[i] = shut ? forbidden : ahead[i] + on.weight[i] + more;
    }
  }
  std::ranges::reverse(next);
  const auto best = std::ranges::min_element(ahead);
  if (is_forbidden(*best)) return result;
  std::vector<std::uint32_t> at{static_cast<std::uint32_t>(best - ahead.begin())};
  for (const auto& on : next) at.push_back(on[at.back()]);
  result.path = priced(graph, at);
  return result;
}

std::optional<Load> least_largest_load_by_rows(const LayeredGraph& graph) {
  std::vector<Load> ahead(graph.nodes.back().size(), 0);
  for (std::size_t l = graph.steps.size(); l-- > 0;) {
    WrittenRows rows(*graph.steps[l]);
    ahead = smoothest_on(rows, std::span<const Load>(ahead));
  }
  const Load least = std::ranges::min(ahead);
  return least == std::numeric_limits<Load>::max() ? std::nullopt : std::optional(least);
}

}  // namespace

TEST_CASE("pricing steps when asked finds the very path that steps written out give, ties and all") {
  GraphDrawer draw(71);
  for (int i = 0; i < 600; ++i) {
    const LayeredGraph graph = draw.graph({.most_layers = 7, .most_nodes = 6});
    std::vector<RememberedWays> remembered;
    const Ways found = by_rows(graph, remembered);
    const std::optional<Path> best = best_path(graph);
    REQUIRE(found.path == best);
    REQUIRE(found.path == best_path_by_boost(graph));
  }
}

TEST_CASE("what is remembered of other weights ahead changes no answer") {
  GraphDrawer draw(72);
  for (int i = 0; i < 60; ++i) {
    LayeredGraph graph = draw.graph({.fewest_layers = 3, .most_layers = 6, .fewest_nodes = 2, .most_nodes = 5});
    std::vector<RememberedWays> remembered;
    for (int change = 0; change < 12; ++change) {
      REQUIRE(by_rows(graph, remembered).path == best_path(graph));
      // Only the last layer's weights change, as a pin near the end does; one node may be ruled out, or all made
      // dearer.
      const Weight dearer = draw.between(0, 4);
      for (Weight& weight : graph.nodes.back()) weight = draw.happens(15) ? forbidden : draw.between(0, 3) + dearer;
    }
  }
}

TEST_CASE("most steps of a graph with a few good nodes are never priced") {
  LayeredGraph graph = GraphDrawer(73).graph({.fewest_layers = 20,
                                              .most_layers = 20,
                                              .fewest_nodes = 40,
                                              .most_nodes = 40,
                                              .highest_weight = 100,
                                              .forbidden_steps = 0,
                                              .forbidden_nodes = 0});
  for (auto& layer : graph.nodes) {
    for (std::size_t i = 4; i < layer.size(); ++i) layer[i] += 1000;
  }
  std::vector<RememberedWays> remembered;
  const Ways found = by_rows(graph, remembered);
  CHECK(found.path == best_path(graph));
  CHECK(found.asked < 20 * 40 * 40 / 4);
  // The same again is remembered whole.
  CHECK(by_rows(graph, remembered).asked == 0);
}

TEST_CASE("the smallest largest load is that of the smoothest path") {
  GraphDrawer draw(74);
  for (int i = 0; i < 400; ++i) {
    LayeredGraph graph = draw.graph({.most_layers = 6, .most_nodes = 5, .highest_load = 9, .forbidden_nodes = 0});
    for (auto& loads : graph.node_loads) std::ranges::fill(loads, Load{0});
    const auto smoothest = smoothest_path(graph);
    const auto least = least_largest_load_by_rows(graph);
    REQUIRE(smoothest.has_value() == least.has_value());
    if (least) REQUIRE(*least == smoothest->largest_load);
  }
}
