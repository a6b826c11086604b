// What this part answers: what the search through bands (banded_search.hpp) knows of each layer, and what it keeps of
// those that are far behind. It weighs nothing.
#pragma once

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <span>
#include <vector>

#include "fingerway/search/bands.hpp"

namespace fingerway {

/// Layers from the last one on. Memory: the exact nodes of each layer, and the `Recent` layers added last.
template <LayersOfBands Layers, std::size_t Recent>
class KnownLayers {
  static_assert(Recent > 1);

 public:
  KnownLayers(Layers& layers, std::size_t count) : layers_(layers), kept_(count + 1), first_(count), count_(count) {}

  /// The layer added last.
  [[nodiscard]] std::size_t first() const { return first_; }
  [[nodiscard]] bool is_last(std::size_t l) const { return l + 1 == count_; }
  /// It was never put away: its cells have kept their places.
  [[nodiscard]] bool is_recent(std::size_t l) const { return l < first_ + Recent; }
  /// Adds the layer before, with nothing known of it but that no node is below `least`.
  BandLayer& add(Weight least) {
    --first_;
    BandLayer& layer = recent_[first_ % Recent];
    if (first_ + Recent < count_) put_away(first_ + Recent, layer);
    lay_out(first_, layer, least);
    return layer;
  }
  [[nodiscard]] BandLayer& at(std::size_t l) {
    if (is_recent(l)) return recent_[l % Recent];
    const auto [entry, is_new] = reopened_.try_emplace(l);
    if (is_new) reopen(l, entry->second);
    return entry->second;
  }

  /// The nodes of a band take its place.
  void spell_out(std::size_t l, BandLayer& layer, BandCell& cell) {
    const BandCell band = cell;
    cell.state = BandCell::spelled;
    // Of a band that was not weighed no more is known than that it is not below the best.
    const bool weighed = band.state != BandCell::rough;
    const Weight onward = weighed ? band.ahead - layers_.own(l, band.place) : 0;
    layer.cells.reserve(layer.cells.size() + band.more + 1);
    for (std::uint32_t node = band.node; node <= band.node + band.more; ++node) {
      const BandPlace place = layers_.place(l, band.place.band, node);
      const Weight own = layers_.own(l, place);
      BandCell& one = layer.cells.emplace_back();
      one.ahead = is_forbidden(own) ? forbidden : weighed ? own + onward : band.ahead;
      one.node = node;
      one.place = place;
      one.by = band.by;
      if (is_last(l) || is_forbidden(own)) one.state = BandCell::exact;
    }
  }

  /// The node that an exact one goes on to.
  [[nodiscard]] std::uint32_t next_of(std::size_t l, std::uint32_t node) const {
    const auto find_in = [&](const auto& cells) {
      const auto same = [&](const auto& cell) { return cell.is_exact_node() && cell.node == node; };
      const auto found = std::ranges::find_if(cells, same);
      return found == cells.end() ? std::nullopt : std::optional(found->next);
    };
    if (is_recent(l)) return *find_in(recent_[l % Recent].cells);
    if (const auto next = find_in(known(l))) return *next;
    return *find_in(reopened_.at(l).cells);
  }

 private:
  /// What remains of a node of a layer that was put away.
  struct Known {
    Weight ahead = 0;
    std::uint32_t node = 0, next = 0;

    [[nodiscard]] static bool is_exact_node() { return true; }
  };

  /// A layer's bands, with nothing known but that none is below `least`.
  void lay_out(std::size_t l, BandLayer& layer, Weight least) {
    layer.cells.clear();
    layer.cells.reserve(enough_cells);
    layer.turns.reserve(enough_cells);
    layer.turns.clear();
    std::uint32_t number = 0;
    layers_.each_band(l, [&](std::uint32_t first, std::uint32_t end, const BandPlace& place) {
      BandCell& cell = layer.cells.emplace_back();
      cell.node = first;
      cell.more = end - first - 1;
      cell.place = place;
      cell.ahead = least;
      if (is_last(l)) {
        cell.ahead = layers_.own(l, place);
        cell.state = cell.more == 0 || is_forbidden(cell.ahead) ? BandCell::exact : BandCell::close;
      }
      layer.turns.push_back({.ahead = least, .mark = place.mark, .cell = number++});
    });
  }

  /// Of a layer that is far behind only the exact nodes are kept.
  void put_away(std::size_t l, const BandLayer& layer) {
    for (const BandCell& cell : layer.cells) {
      if (!cell.is_exact_node() || is_forbidden(cell.ahead)) continue;
      known_.push_back({.ahead = cell.ahead, .node = cell.node, .next = cell.next});
    }
    kept_[l] = known_.size();
  }
  /// Those kept of a layer.
  [[nodiscard]] std::span<const Known> known(std::size_t l) const {
    const std::size_t first = kept_[l + 1];
    return std::span(known_).subspan(first, kept_[l] - first);
  }

  /// Lays out a layer again that was put away. Nothing in it is below the best of its exact nodes.
  void reopen(std::size_t l, BandLayer& layer) {
    Weight least = forbidden;
    for (const Known& node : known(l)) least = std::min(least, node.ahead);
    lay_out(l, layer, least);
    for (const Known& node : known(l)) {
      const auto holds = [&](const BandCell& c) {
        return c.state != BandCell::spelled && c.node <= node.node && node.node <= c.node + c.more;
      };
      auto cell = std::ranges::find_if(layer.cells, holds);
      if (cell->more > 0) {
        spell_out(l, layer, *cell);
        cell = std::ranges::find_if(layer.cells, holds);
      }
      cell->ahead = node.ahead;
      cell->next = node.next;
      cell->state = BandCell::exact;
    }
  }

  static constexpr std::size_t enough_cells = 48;  ///< for most layers; more come at a cost

  Layers& layers_;
  std::array<BandLayer, Recent> recent_;
  std::vector<Known> known_;       ///< of all others, from the last layer on
  std::vector<std::size_t> kept_;  ///< of each layer, how many known_ there are up to it
  std::map<std::size_t, BandLayer> reopened_;
  std::size_t first_, count_;
};

}  // namespace fingerway
