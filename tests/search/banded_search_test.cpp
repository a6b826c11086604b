// Searching through bands that are spelled out only where the best path leads, held to the searches over all steps
// written out.
#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>

#include "fingerway/search/banded_search.hpp"
#include "fingerway/search/paths.hpp"
#include "search/graphs.hpp"

using namespace fingerway;

namespace {

/// What a graph written out tells of its nodes and steps: weights, or loads.
struct Weights {
  static Weight node(const LayeredGraph& graph, std::size_t l, std::uint32_t i) { return graph.nodes[l][i]; }
  static Weight step(const Steps& steps, std::uint32_t i, std::uint32_t j) { return steps.weight_at(i, j); }
};
struct Loads {
  static Load node(const LayeredGraph&, std::size_t, std::uint32_t) { return 0; }
  static Load step(const Steps& steps, std::uint32_t i, std::uint32_t j) {
    return is_forbidden(steps.weight_at(i, j)) ? forbidden : steps.load_at(i, j);
  }
};

/// A graph written out, in bands of up to `widest` nodes. Counts what it is asked, and answers as loosely as it may.
template <class Told>
class WrittenBands {
 public:
  WrittenBands(const LayeredGraph& graph, std::uint32_t widest, Weight loose)
      : graph_(graph), loose_(loose), firsts_(graph.layer_count()) {
    for (std::size_t l = 0; l < graph.layer_count(); ++l) {
      const auto nodes = static_cast<std::uint32_t>(graph.nodes[l].size());
      for (std::uint32_t first = 0; first < nodes; first += 1 + (first + static_cast<std::uint32_t>(l)) % widest) {
        firsts_[l].push_back(first);
      }
      firsts_[l].push_back(nodes);
    }
  }

  [[nodiscard]] std::size_t bands(std::size_t l) const { return firsts_[l].size() - 1; }
  template <class Visit>
  void each_band(std::size_t l, const Visit& visit) const {
    for (std::uint32_t b = 0; b < bands(l); ++b) {
      const bool single = firsts_[l][b + 1] == firsts_[l][b] + 1;
      visit(firsts_[l][b], firsts_[l][b + 1], place(l, b, single ? firsts_[l][b] : BandPlace::any));
    }
  }
  [[nodiscard]] static BandPlace place(std::size_t, std::uint32_t band, std::uint32_t node) {
    return {.band = band, .node = node, .mark = {band + 7, node}};
  }
  [[nodiscard]] Weight own(std::size_t l, const BandPlace& at) const {
    REQUIRE(at.mark == place(l, at.band, at.node).mark);
    Weight least = forbidden;
    for (const std::uint32_t i : nodes(l, at)) least = std::min(least, Told::node(graph_, l, i));
    return least;
  }

  class From {
   public:
    From(WrittenBands& bands, std::size_t l, const BandPlace& from, Look look)
        : bands_(&bands), l_(l), from_(from), look_(look) {}
    /// Of every other band nothing is known yet.
    [[nodiscard]] Weight glance(const BandMark& mark) const {
      const std::uint32_t band = mark[0] - 7;
      return band % 2 == 0 ? -bands_->loose_ : least(place(l_ + 1, band, mark[1])) - 2 * bands_->loose_;
    }
    [[nodiscard]] Weight bound(const BandPlace& to, Weight enough) const {
      const Weight loose = least(to) - bands_->loose_;
      return loose > enough ? loose + bands_->loose_ : loose;
    }
    [[nodiscard]] Weight cost(const BandPlace& to, Weight enough) const {
      ++bands_->asked;
      const bool exact = look_ == Look::close && !from_.is_band() && !to.is_band();
      if (!exact) return least(to) - bands_->loose_ / 2;
      return least(to) > enough && !is_forbidden(least(to)) ? least(to) + 7 : least(to);
    }

   private:
    [[nodiscard]] Weight least(const BandPlace& to) const {
      Weight least = forbidden;
      for (const std::uint32_t i : bands_->nodes(l_, from_)) {
        for (const std::uint32_t j : bands_->nodes(l_ + 1, to)) {
          least = std::min(least, Told::step(*bands_->graph_.steps[l_], i, j));
        }
      }
      return least;
    }

    WrittenBands* bands_;
    std::size_t l_;
    BandPlace from_;
    Look look_;
  };
  [[nodiscard]] From steps(std::size_t l, const BandPlace& from, Look look) { return From(*this, l, from, look); }

  std::size_t asked = 0;

 private:
  [[nodiscard]] std::vector<std::uint32_t> nodes(std::size_t l, const BandPlace& at) const {
    if (!at.is_band()) return {at.node};
    std::vector<std::uint32_t> all(firsts_[l][at.band + 1] - firsts_[l][at.band]);
    std::iota(all.begin(), all.end(), firsts_[l][at.band]);
    return all;
  }

  const LayeredGraph& graph_;
  Weight loose_;
  std::vector<std::vector<std::uint32_t>> firsts_;
};

/// The best path, and how many steps were priced for it.
template <std::size_t Recent>
std::pair<std::optional<Path>, std::size_t> by_bands(const LayeredGraph& graph, std::uint32_t widest, Weight loose) {
  WrittenBands<Weights> bands(graph, widest, loose);
  BandedSearch<WrittenBands<Weights>, Sum, Recent> search(bands, graph.layer_count());
  for (std::size_t l = 0; l < graph.layer_count(); ++l) search.take();
  if (is_forbidden(search.weight())) return {std::nullopt, bands.asked};
  const std::optional<Path> path = priced(graph, search.path());
  REQUIRE(path.has_value());
  REQUIRE(path->weight == search.weight());
  return {path, bands.asked};
}

template <std::size_t Recent>
std::optional<Load> least_largest_load(const LayeredGraph& graph, std::uint32_t widest) {
  WrittenBands<Loads> bands(graph, widest, 0);
  BandedSearch<WrittenBands<Loads>, Worst, Recent> search(bands, graph.layer_count());
  for (std::size_t l = 0; l < graph.layer_count(); ++l) search.take();
  return is_forbidden(search.weight()) ? std::nullopt : std::optional(search.weight());
}

}  // namespace

TEST_CASE("spelling bands out where the best path leads finds the very path of steps written out") {
  GraphDrawer draw(71);
  for (int i = 0; i < 600; ++i) {
    const LayeredGraph graph = draw.graph({.most_layers = 7, .most_nodes = 7});
    const std::optional<Path> best = best_path(graph);
    REQUIRE(best == best_path_by_boost(graph));
    const auto widest = static_cast<std::uint32_t>(draw.between(1, 4));
    const Weight loose = draw.between(0, 3);
    CAPTURE(i, widest, loose);
    REQUIRE(by_bands<16>(graph, widest, loose).first == best);
  }
}

TEST_CASE("layers that were put away and are needed again change no path") {
  GraphDrawer draw(72);
  for (int i = 0; i < 600; ++i) {
    const LayeredGraph graph = draw.graph({.fewest_layers = 4,
                                           .most_layers = 12,
                                           .fewest_nodes = 2,
                                           .most_nodes = 7,
                                           .highest_weight = i % 2 == 0 ? 3 : 40});
    const auto widest = static_cast<std::uint32_t>(draw.between(1, 4));
    // The looser the bounds, the later it comes out that the best path is another.
    const Weight loose = draw.between(0, 30);
    CAPTURE(i, widest, loose);
    REQUIRE(by_bands<2>(graph, widest, loose).first == best_path(graph));
    REQUIRE(by_bands<3>(graph, widest, loose).first == best_path(graph));
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
  const auto [path, asked] = by_bands<16>(graph, 4, 0);
  CHECK(path == best_path(graph));
  CHECK(asked < 20 * 40 * 40 / 10);
}

TEST_CASE("the smallest largest load is that of the smoothest path") {
  GraphDrawer draw(74);
  for (int i = 0; i < 600; ++i) {
    LayeredGraph graph = draw.graph({.most_layers = 8, .most_nodes = 6, .highest_load = 9, .forbidden_nodes = 0});
    for (auto& loads : graph.node_loads) std::ranges::fill(loads, Load{0});
    const auto smoothest = smoothest_path(graph);
    const auto widest = static_cast<std::uint32_t>(draw.between(1, 4));
    CAPTURE(i, widest);
    for (const std::optional<Load> least :
         {least_largest_load<16>(graph, widest), least_largest_load<2>(graph, widest)}) {
      REQUIRE(smoothest.has_value() == least.has_value());
      if (least) REQUIRE(*least == smoothest->largest_load);
    }
  }
}
