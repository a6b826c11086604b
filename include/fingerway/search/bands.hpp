// What this part answers: what the search through bands (banded_search.hpp) asks of layers whose nodes stand in bands,
// and what it notes of them.
// A band counts as one node, by what its nodes weigh at least, until the best path goes through it.
#pragma once

#include <algorithm>
#include <array>
#include <concepts>
#include <limits>
#include <vector>

#include "fingerway/search/layers.hpp"

namespace fingerway {

/// By which steps know a place.
using BandMark = std::array<std::uint32_t, 2>;

/// A node of a layer, or all nodes of a band of it.
struct BandPlace {
  static constexpr std::uint32_t any = std::numeric_limits<std::uint32_t>::max();
  std::uint32_t band = 0;
  std::uint32_t node = any;
  BandMark mark{};

  [[nodiscard]] bool is_band() const { return node == any; }
};

/// How closely steps are looked at.
enum class Look : std::uint8_t { rough, close };

/// Steps from a place to those of the next layer. Of bands they tell what no step is below.
template <class S>
concept StepsFrom = requires(S steps, const BandPlace& to, BandMark mark, Weight enough) {
  { steps.glance(mark) } -> std::convertible_to<Weight>;       // no step weighs less, by what is known by now
  { steps.bound(to, enough) } -> std::convertible_to<Weight>;  // no step weighs less; if above `enough`, any such
  { steps.cost(to, enough) } -> std::convertible_to<Weight>;   // the same, closer; between nodes, looked at closely, it
};                                                             // is the weight, or if above `enough` any such

/// Layers of bands, and the steps from each to the next. The nodes of a band have neighbouring numbers.
template <class L>
concept LayersOfBands = requires(L& layers, std::size_t layer, std::uint32_t number, const BandPlace& place) {
  // Tells of every band the first node, the end behind its nodes, and its place; of a single node that node's.
  layers.each_band(layer, [](std::uint32_t, std::uint32_t, const BandPlace&) {});
  { layers.place(layer, number, number) } -> std::same_as<BandPlace>;  // of a band and a node of it
  { layers.own(layer, place) } -> std::convertible_to<Weight>;         // of a node; no node of the band is below it
  // From the layer to the next; they hold until others are asked for.
  { layers.steps(layer, place, Look::rough) } -> StepsFrom;
};

/// What adds up along a path. Of equal paths the first is wanted.
struct Sum {
  static constexpr bool first_of_equals = true;
  static Weight of(Weight step, Weight ahead) { return step + ahead; }
  static Weight left(Weight enough, Weight ahead) { return enough - ahead; }
};
/// What is as bad as its worst step; nodes weigh nothing. Of equal paths any will do, and none is tried before others.
struct Worst {
  static constexpr bool first_of_equals = false;
  static Weight of(Weight step, Weight ahead) { return std::max(step, ahead); }
  static Weight left(Weight enough, Weight /*ahead*/) { return enough; }
};

/// A band, or a node of one that was spelled out, with what is known of the way on from it.
struct BandCell {
  enum State : std::uint8_t { rough, close, exact, spelled };
  static constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();

  Weight ahead = 0;         ///< from here to the end, itself included, at least
  std::uint32_t next = 0;   ///< node of the next layer, where exact
  std::uint32_t by = none;  ///< cell of the next layer that `ahead` goes by; none: not known
  std::uint32_t node = 0;
  BandPlace place;
  std::uint32_t more = 0;  ///< nodes of a band but the first
  State state = rough;

  [[nodiscard]] bool is_exact_node() const { return state == exact && more == 0; }
};

/// A band in the order in which bands are tried.
struct BandTurn {
  Weight ahead = 0;  ///< of its cell when the order was made: no way on is below it, whatever is found out later
  BandMark mark{};
  std::uint32_t cell = 0;
};

struct BandLayer {
  std::vector<BandCell> cells;  ///< bands, and behind them the nodes of those that were spelled out
  std::vector<BandTurn> turns;  ///< of all bands, by `ahead`

  /// By what is known now. Bands that were spelled out come last.
  void put_in_order() {
    for (BandTurn& turn : turns) {
      const BandCell& cell = cells[turn.cell];
      turn.ahead = cell.state == BandCell::spelled ? forbidden : cell.ahead;
    }
    std::ranges::sort(turns, [](const BandTurn& a, const BandTurn& b) {
      return a.ahead != b.ahead ? a.ahead < b.ahead : a.cell < b.cell;
    });
  }
};

/// By the rule, `total` by way of a cell is better than what was found by way of another.
template <class Rule>
[[nodiscard]] bool better(Weight total, const BandCell& cell, Weight found, const BandCell* by) {
  if (by == nullptr || total != found) return total < found;
  if (Rule::first_of_equals) return cell.node < by->node;
  const auto settled = [](const BandCell& c) { return (c.state == BandCell::exact ? 2 : 0) + (c.more == 0 ? 1 : 0); };
  return settled(cell) > settled(*by);
}
/// The cell with the best way on, as far as it is known.
template <class Rule>
[[nodiscard]] std::uint32_t best_of(const BandLayer& layer) {
  const BandCell* found = nullptr;
  for (const BandCell& cell : layer.cells) {
    if (cell.state == BandCell::spelled) continue;
    if (found == nullptr || better<Rule>(cell.ahead, cell, found->ahead, found)) found = &cell;
  }
  return static_cast<std::uint32_t>(found - layer.cells.data());
}

}  // namespace fingerway
