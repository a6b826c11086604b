// What this part answers: the best path through layers whose nodes stand in bands, priced only where it may lead.
// Equal in its answers to `best_path` (paths.hpp) over the same steps written out; the tests hold it to that.
#pragma once

#include <algorithm>
#include <vector>

#include "fingerway/search/known_layers.hpp"

namespace fingerway {

/// Takes in layers from the last to the first. Nodes of one layer are mostly followed by the same few of the next, so
/// that most of them are never looked at.
template <LayersOfBands Layers, class Rule, std::size_t Recent = 16>
class BandedSearch {
 public:
  /// Through so many layers, which must outlive it.
  BandedSearch(Layers& layers, std::size_t count) : layers_(layers), known_(layers, count), count_(count) {}

  /// Takes in the layer before those taken in so far.
  void take() {
    hint_ = 0;
    const bool is_first = known_.first() == count_;
    const Weight behind = is_first ? 0 : best_cell().ahead;
    BandLayer& layer = known_.add(behind);
    const std::size_t l = known_.first();
    // Where the worst step counts, it mostly lies further on, and the first place tried will do.
    if (Rule::first_of_equals && !is_first) {
      // What is much worse than the best is hardly ever gone on to: that it is will do.
      const Weight much = std::max(behind / static_cast<Weight>(count_ - l), dearest_ / 4);
      Weight enough = forbidden;
      for (BandCell& cell : layer.cells) {
        weigh(l, cell, Look::rough, enough);
        enough = std::min(enough, cell.ahead + much);
      }
    }
    // Nothing in the layer is below its best way on. When that is known, what is only bounded is bounded well enough.
    for (best_ = best_of<Rule>(layer); layer.cells[best_].state != exact; best_ = best_of<Rule>(layer)) settle(best_);
    if (Rule::first_of_equals) layer.put_in_order();
    if (!is_forbidden(best_cell().ahead)) dearest_ = std::max(dearest_, best_cell().ahead - behind);
  }

  /// Of the best path through the layers taken in; `forbidden` where there is none.
  [[nodiscard]] Weight weight() { return best_cell().ahead; }
  /// Its nodes; there must be one.
  [[nodiscard]] std::vector<std::uint32_t> path() {
    std::vector<std::uint32_t> nodes{best_cell().node};
    for (std::size_t l = known_.first(); !known_.is_last(l); ++l) nodes.push_back(known_.next_of(l, nodes.back()));
    return nodes;
  }

 private:
  using enum BandCell::State;

  [[nodiscard]] const BandCell& best_cell() { return known_.at(known_.first()).cells[best_]; }

  /// What is ahead of a cell, from what is known of the next layer, or no more than that it is not below `enough`; the
  /// cell there that it goes on to.
  std::uint32_t weigh(std::size_t l, BandCell& cell, Look look, Weight enough = forbidden) {
    const BandLayer& next = known_.at(l + 1);
    const Weight own = layers_.own(l, cell.place);
    Weight least = is_forbidden(enough) ? forbidden : enough - own;
    const BandCell* by = nullptr;
    if (!is_forbidden(own) && (look == Look::close || cell.ahead < least)) {
      const auto steps = layers_.steps(l, cell.place, look);
      const auto offer = [&](const BandCell& to) {
        if (to.ahead > least || to.state == spelled) return;
        const Weight left = Rule::left(least, to.ahead);
        if (!better<Rule>(Rule::of(steps.bound(to.place, left), to.ahead), to, least, by)) return;
        const Weight total = Rule::of(steps.cost(to.place, left), to.ahead);
        if (is_forbidden(total) || !better<Rule>(total, to, least, by)) return;
        least = total;
        by = &to;
      };
      // Mostly a cell goes on as it did before, or as its neighbours do.
      const bool again = cell.by != BandCell::none && known_.is_recent(l + 1);
      if (again || l == known_.first()) offer(next.cells[again ? cell.by : hint_]);
      // Nothing was below it then, and of equals it was the first: so it is, if it is no worse by now.
      if (!again || by == nullptr || least + own != cell.ahead) {
        for (const BandTurn& turn : next.turns) {
          if (turn.ahead > least) break;  // so are those behind it
          if (Rule::of(steps.glance(turn.mark), turn.ahead) <= least) offer(next.cells[turn.cell]);
        }
        for (std::size_t to = next.turns.size(); to < next.cells.size(); ++to) {
          const BandCell& node = next.cells[to];
          if (Rule::of(steps.glance(node.place.mark), node.ahead) <= least) offer(node);
        }
      }
    }
    if (by == nullptr) {
      const bool none = is_forbidden(own) || is_forbidden(enough);
      cell.ahead = none ? forbidden : enough;
      if (none) cell.state = exact;
      return 0;
    }
    cell.ahead = least + own;
    cell.next = by->node;
    if (look == Look::close) cell.state = by->state == exact && cell.more == 0 ? exact : close;
    cell.by = static_cast<std::uint32_t>(by - next.cells.data());
    if (l == known_.first()) hint_ = cell.by;
    return cell.by;
  }

  /// Makes a node of the first layer exact; looks at a band of it more closely, or spells it out.
  void settle(std::uint32_t c) {
    pending_.push_back({.layer = known_.first(), .cell = c});
    while (!pending_.empty()) {
      Pending& now = pending_.back();
      BandLayer& layer = known_.at(now.layer);
      BandCell& cell = layer.cells[now.cell];
      const bool is_band = cell.more > 0;
      // It must be known now, and be as good as it was when it was chosen.
      const BandCell* awaited = now.waits ? &known_.at(now.layer + 1).cells[now.next] : nullptr;
      if (awaited != nullptr && awaited->state == exact && awaited->ahead == now.seen) {
        cell.state = exact;
      } else if (is_band && cell.state == close) {
        known_.spell_out(now.layer, layer, cell);
      } else {
        now.next = weigh(now.layer, cell, Look::close);
      }
      if (is_band || layer.cells[now.cell].state == exact) {
        pending_.pop_back();
        continue;
      }
      now.waits = true;
      now.seen = known_.at(now.layer + 1).cells[now.next].ahead;
      pending_.push_back({.layer = now.layer + 1, .cell = now.next});
    }
  }

  struct Pending {
    std::size_t layer = 0;
    std::uint32_t cell = 0;
    std::uint32_t next = 0;  ///< the cell of the next layer that it waits for, once it does
    Weight seen = 0;         ///< ahead of that when it was chosen
    bool waits = false;
  };

  Layers& layers_;
  KnownLayers<Layers, Recent> known_;
  std::size_t count_;
  std::uint32_t best_ = 0;        ///< cell of the first layer
  Weight dearest_ = 0;            ///< most that one layer and the way on from it weigh on the best path
  std::uint32_t hint_ = 0;        ///< a cell of the second layer that some cell of the first goes on to
  std::vector<Pending> pending_;  ///< each waits for the one behind it
};

}  // namespace fingerway
