#include "fingerway/search/paths.hpp"

#include <algorithm>
#include <cassert>
#include <map>
#include <tuple>

#include "search/relax.hpp"

namespace fingerway {
namespace {

/// The smallest largest load that any allowed path can have; nothing when there is no path.
std::optional<Load> least_largest_load(const LayeredGraph& graph) {
  constexpr Load no_way = std::numeric_limits<Load>::max();
  std::vector<Load> onward;  // of the layer after this one
  std::vector<Load> here;
  for (std::size_t l = graph.layer_count(); l-- > 0;) {
    const bool last = l + 1 == graph.layer_count();
    here.assign(graph.nodes[l].size(), no_way);
    for (std::size_t i = 0; i < here.size(); ++i) {
      if (is_forbidden(graph.nodes[l][i])) continue;
      Load least = last ? 0 : no_way;
      for (std::size_t j = 0; !last && j < onward.size(); ++j) {
        const Steps& steps = *graph.steps[l];
        if (!is_forbidden(steps.weight_at(i, j))) least = std::min(least, std::max(steps.load_at(i, j), onward[j]));
      }
      here[i] = std::max(least, graph.node_loads[l][i]);
    }
    std::swap(here, onward);
  }
  const auto least = std::min_element(onward.begin(), onward.end());
  if (least == onward.end()) return 0;  // no layers: the empty path
  return *least == no_way ? std::nullopt : std::optional<Load>(*least);
}

/// Gives equal lists of kept nodes equal numbers, so that shared steps can be found again cheaply.
class KeptNodes {
 public:
  std::size_t number(const std::vector<std::uint32_t>& kept) {
    return numbers_.try_emplace(kept, numbers_.size()).first->second;
  }

 private:
  std::map<std::vector<std::uint32_t>, std::size_t> numbers_;
};

std::shared_ptr<const Steps> restricted_steps(const std::shared_ptr<const Steps>& steps,
                                              const std::vector<std::uint32_t>& rows,
                                              const std::vector<std::uint32_t>& columns) {
  if (rows.empty() || columns.empty()) return nullptr;
  if (rows.size() == steps->from && columns.size() == steps->to) return steps;
  Steps kept{.from = rows.size(), .to = columns.size(), .weight = {}, .load = {}};
  kept.weight.reserve(rows.size() * columns.size());
  kept.load.reserve(rows.size() * columns.size());
  for (const std::uint32_t i : rows) {
    for (const std::uint32_t j : columns) {
      kept.weight.push_back(steps->weight_at(i, j));
      kept.load.push_back(steps->load_at(i, j));
    }
  }
  return std::make_shared<const Steps>(std::move(kept));
}

/// The least weight through each node of a layer, from the weights on both sides of it.
std::vector<Weight> joined(std::span<const Weight> so_far, std::span<const Weight> to_go,
                           const std::vector<Weight>& own) {
  std::vector<Weight> through(own.size(), forbidden);
  for (std::size_t i = 0; i < own.size(); ++i) {
    // Both sides hold the node's own weight, so it comes off once; a forbidden side may not be brought back by that.
    if (is_forbidden(so_far[i]) || is_forbidden(to_go[i])) continue;
    through[i] = saturated(so_far[i] - own[i] + to_go[i]);
  }
  return through;
}

}  // namespace

std::optional<Path> best_path(const LayeredGraph& graph) {
  assert(is_well_formed(graph));
  if (has_empty_layer(graph)) return std::nullopt;
  return first_lightest(graph, weights_to_go(graph, AnyLoad{}), AnyLoad{});
}

std::optional<Path> smoothest_path(const LayeredGraph& graph) {
  assert(is_well_formed(graph));
  if (has_empty_layer(graph)) return std::nullopt;
  const std::optional<Load> limit = least_largest_load(graph);
  if (!limit) return std::nullopt;
  const UpToLoad rule{*limit};
  return first_lightest(graph, weights_to_go(graph, rule), rule);
}

std::optional<Path> priced(const LayeredGraph& graph, const std::vector<std::uint32_t>& at) {
  assert(is_well_formed(graph));
  if (at.size() != graph.layer_count()) return std::nullopt;
  Path path{.at = at, .weight = 0, .largest_load = 0};
  for (std::size_t l = 0; l < at.size(); ++l) {
    if (at[l] >= graph.nodes[l].size()) return std::nullopt;
    if (l > 0) {
      const Weight step = graph.steps[l - 1]->weight_at(at[l - 1], at[l]);
      if (is_forbidden(step)) return std::nullopt;
      path.weight += step;
      path.largest_load = std::max(path.largest_load, graph.steps[l - 1]->load_at(at[l - 1], at[l]));
    }
    const Weight own = graph.nodes[l][at[l]];
    if (is_forbidden(own)) return std::nullopt;
    path.weight += own;
    path.largest_load = std::max(path.largest_load, graph.node_loads[l][at[l]]);
    if (is_forbidden(path.weight)) return std::nullopt;
  }
  return path;
}

LayeredGraph restricted(const LayeredGraph& graph, const std::vector<std::vector<std::uint32_t>>& allowed) {
  assert(is_well_formed(graph) && allowed.size() == graph.layer_count());
  LayeredGraph result;
  result.nodes.resize(allowed.size());
  result.node_loads.resize(allowed.size());
  KeptNodes kept;
  std::vector<std::size_t> number;
  number.reserve(allowed.size());
  for (std::size_t l = 0; l < allowed.size(); ++l) {
    for (const std::uint32_t i : allowed[l]) {
      assert(i < graph.nodes[l].size());
      result.nodes[l].push_back(graph.nodes[l][i]);
      result.node_loads[l].push_back(graph.node_loads[l][i]);
    }
    number.push_back(kept.number(allowed[l]));
  }
  std::map<std::tuple<const Steps*, std::size_t, std::size_t>, std::shared_ptr<const Steps>> done;
  for (std::size_t l = 0; l < graph.steps.size(); ++l) {
    std::shared_ptr<const Steps>& steps = done[{graph.steps[l].get(), number[l], number[l + 1]}];
    if (!steps) steps = restricted_steps(graph.steps[l], allowed[l], allowed[l + 1]);
    result.steps.push_back(steps);
  }
  return result;
}

std::vector<Weight> weights_through(const LayeredGraph& graph, std::size_t layer) {
  std::vector<std::vector<Weight>> all = weights_through(graph);
  return layer < all.size() ? std::move(all[layer]) : std::vector<Weight>{};
}

std::vector<std::vector<Weight>> weights_through(const LayeredGraph& graph) {
  assert(is_well_formed(graph));
  std::vector<std::vector<Weight>> through;
  through.reserve(graph.layer_count());
  if (has_empty_layer(graph)) {
    for (const std::vector<Weight>& layer : graph.nodes) through.emplace_back(layer.size(), forbidden);
    return through;
  }
  const NodeWeights so_far = weights_so_far(graph);
  const NodeWeights to_go = weights_to_go(graph, AnyLoad{});
  for (std::size_t l = 0; l < graph.layer_count(); ++l) {
    through.push_back(joined(so_far.layer(l), to_go.layer(l), graph.nodes[l]));
  }
  return through;
}

}  // namespace fingerway
