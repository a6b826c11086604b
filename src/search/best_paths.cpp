// The next best paths. All label sequences form a tree: one label a layer. Every answer found splits what is left of
// its part of the tree into branches that agree with it up to some layer and take another label there; the weights to
// go say at once what the best path in a branch weighs. So the next answer is always the lightest branch, no answer is
// met twice however many paths share its labels, and no branch is opened in vain.
#include <algorithm>
#include <cassert>
#include <set>
#include <unordered_map>

#include "fingerway/search/paths.hpp"
#include "search/relax.hpp"

namespace fingerway {
namespace {

/// A label of one layer, numbered within the layer in the order of its lowest node.
using LabelNumber = std::uint32_t;

/// The nodes of one layer by label.
struct LabelledLayer {
  std::vector<LabelNumber> label_of;                // a node
  std::vector<std::vector<std::uint32_t>> members;  // a label, rising

  LabelledLayer(std::size_t layer, std::size_t nodes, const NodeLabel& label) {
    std::unordered_map<std::uint64_t, LabelNumber> numbers;
    for (std::size_t i = 0; i < nodes; ++i) {
      const auto [known, is_new] = numbers.try_emplace(label(layer, i), static_cast<LabelNumber>(members.size()));
      if (is_new) members.emplace_back();
      members[known->second].push_back(static_cast<std::uint32_t>(i));
      label_of.push_back(known->second);
    }
  }
};

/// A branch not yet opened: the labels of an answer before `layer`, and then `label`. `weight` is its best path's.
struct Branch {
  std::size_t answer = 0;
  std::size_t layer = 0;
  LabelNumber label = 0;
  Weight weight = 0;
};

/// Finds the answers one by one. Invariant: the branches and the answers share no label sequence, and together hold
/// every allowed one that can still be among the k best.
class NextBest {
 public:
  NextBest(const LayeredGraph& graph, std::size_t k, const NodeLabel& label)
      : graph_(graph), k_(k), to_go_(weights_to_go(graph, AnyLoad{})), branches_(Earlier{this}) {
    layers_.reserve(graph.layer_count());
    for (std::size_t l = 0; l < graph.layer_count(); ++l) layers_.emplace_back(l, graph.nodes[l].size(), label);
  }
  NextBest(const NextBest&) = delete;
  NextBest& operator=(const NextBest&) = delete;

  std::vector<Path> find() {
    std::optional<Path> best = first_lightest(graph_, to_go_, AnyLoad{});
    if (!best) return {};
    std::vector<LabelNumber> labels;
    for (std::size_t l = 0; l < layers_.size(); ++l) labels.push_back(layers_[l].label_of[best->at[l]]);
    paths_.push_back(std::move(*best));
    answers_.push_back(std::move(labels));
    agreement_.emplace_back();
    branch_off(0, graph_.layer_count());
    while (paths_.size() < k_ && !branches_.empty()) open_lightest();
    return std::move(paths_);
  }

 private:
  /// The order in which branches are opened. Of equal weights the one with the lower label where they first differ.
  struct Earlier {
    const NextBest* search;
    bool operator()(const Branch& a, const Branch& b) const {
      if (a.weight != b.weight) return a.weight < b.weight;
      std::size_t l = std::min(a.layer, b.layer);
      if (a.answer != b.answer) l = std::min(l, search->agreement(a.answer, b.answer));
      return search->label_at(a, l) < search->label_at(b, l);
    }
  };

  [[nodiscard]] LabelNumber label_at(const Branch& branch, std::size_t l) const {
    return l == branch.layer ? branch.label : answers_[branch.answer][l];
  }

  /// In how many first layers two different answers have the same labels.
  [[nodiscard]] std::size_t agreement(std::size_t a, std::size_t b) const {
    return agreement_[std::max(a, b)][std::min(a, b)];
  }

  void open_lightest() {
    const Branch branch = *branches_.begin();
    branches_.erase(branches_.begin());
    const std::size_t answer = answers_.size();
    std::vector<std::size_t> agreement_row;
    for (std::size_t other = 0; other < answer; ++other) {
      // An earlier answer that agrees with ours up to the branch has another label there, or it would lie in the
      // branch.
      const std::size_t with_parent = other == branch.answer ? branch.layer : agreement(other, branch.answer);
      agreement_row.push_back(std::min(branch.layer, with_parent));
    }
    agreement_.push_back(std::move(agreement_row));
    answers_.push_back(answers_[branch.answer]);
    answers_.back()[branch.layer] = branch.label;
    // One place is ours. The others that are left bound what is worth keeping.
    paths_.emplace_back();
    branch_off(answer, branch.layer + 1);
    paths_.back() = path_of(answers_.back());
    assert(paths_.back().weight == branch.weight);
  }

  /// Walks an answer from the start. Its labels before `open` stand. From there on the lightest are chosen, and what is
  /// not chosen branches off; for the first answer everything stands and branches off everywhere.
  void branch_off(std::size_t answer, std::size_t open) {
    const std::size_t first_branch = answer == 0 ? 0 : open;
    std::vector<Weight> so_far;  // of the members of the label before
    std::vector<Weight>
        arrival;  // a node of this layer: least weight to it along the answer's labels, its own left out
    std::vector<Weight> through;  // a label of this layer: least weight of a path through it
    for (std::size_t l = 0; l < layers_.size(); ++l) {
      const LabelledLayer& layer = layers_[l];
      if (l < first_branch) {
        arrive(answer, l, so_far, layer.members[answers_[answer][l]], arrival);
      } else {
        arrive(answer, l, so_far, {}, arrival);
        weigh(l, arrival, through);
        if (l >= open) {
          const auto least = std::min_element(through.begin(), through.end());
          answers_[answer][l] = static_cast<LabelNumber>(least - through.begin());
        }
        for (LabelNumber label = 0; label < through.size(); ++label) {
          if (label != answers_[answer][l]) keep({answer, l, label, through[label]});
        }
      }
      so_far.clear();
      for (const std::uint32_t j : layer.members[answers_[answer][l]]) {
        so_far.push_back(saturated(arrival[j] + graph_.nodes[l][j]));
      }
    }
  }

  /// Fills `arrival` for the nodes of `only` (all nodes when empty).
  void arrive(std::size_t answer, std::size_t l, const std::vector<Weight>& so_far,
              const std::vector<std::uint32_t>& only, std::vector<Weight>& arrival) const {
    arrival.assign(graph_.nodes[l].size(), l == 0 ? 0 : 2 * forbidden);
    if (l == 0) return;
    const Steps& steps = *graph_.steps[l - 1];
    const std::vector<std::uint32_t>& members = layers_[l - 1].members[answers_[answer][l - 1]];
    for (std::size_t m = 0; m < members.size(); ++m) {
      const Weight* row = steps.weight.data() + members[m] * steps.to;
      if (only.empty()) {
        for (std::size_t j = 0; j < steps.to; ++j) arrival[j] = std::min(arrival[j], so_far[m] + row[j]);
      } else {
        for (const std::uint32_t j : only) arrival[j] = std::min(arrival[j], so_far[m] + row[j]);
      }
    }
    for (Weight& weight : arrival) weight = saturated(weight);
  }

  /// The least weight through each label of a layer, given the weights of arrival.
  void weigh(std::size_t l, const std::vector<Weight>& arrival, std::vector<Weight>& through) const {
    through.assign(layers_[l].members.size(), forbidden);
    const std::span<const Weight> to_go = to_go_.layer(l);
    for (std::size_t j = 0; j < arrival.size(); ++j) {
      Weight& least = through[layers_[l].label_of[j]];
      least = std::min(least, saturated(arrival[j] + to_go[j]));
    }
  }

  /// Keeps a branch if it can still be among the k best; never more of them than answers are wanted.
  void keep(const Branch& branch) {
    const std::size_t wanted = k_ - paths_.size();
    if (is_forbidden(branch.weight) || wanted == 0) return;
    if (branches_.size() >= wanted) {
      const auto last = std::prev(branches_.end());
      if (!Earlier{this}(branch, *last)) return;
      branches_.erase(last);
    }
    branches_.insert(branch);
  }

  /// The first of the lightest paths with these labels.
  [[nodiscard]] Path path_of(const std::vector<LabelNumber>& labels) const {
    std::vector<std::vector<std::uint32_t>> allowed;
    allowed.reserve(labels.size());
    for (std::size_t l = 0; l < labels.size(); ++l) allowed.push_back(layers_[l].members[labels[l]]);
    std::optional<Path> path = best_path(restricted(graph_, allowed));
    assert(path);
    for (std::size_t l = 0; l < labels.size(); ++l) path->at[l] = allowed[l][path->at[l]];
    return std::move(*path);
  }

  const LayeredGraph& graph_;
  std::size_t k_;
  NodeWeights to_go_;
  std::vector<LabelledLayer> layers_;
  std::vector<Path> paths_;
  std::vector<std::vector<LabelNumber>> answers_;    // the labels of each path
  std::vector<std::vector<std::size_t>> agreement_;  // [answer][an earlier one]
  std::set<Branch, Earlier> branches_;
};

}  // namespace

std::vector<Path> best_paths(const LayeredGraph& graph, std::size_t k, const NodeLabel& label) {
  assert(is_well_formed(graph));
  if (k == 0 || has_empty_layer(graph)) return {};
  return NextBest(graph, k, label).find();
}

}  // namespace fingerway
