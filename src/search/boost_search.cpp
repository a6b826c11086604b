// How Boost.Graph sees a layered graph, and its search. Boost stays inside this file, as the rooms demand.
#include <algorithm>
#include <boost/concept/assert.hpp>
#include <boost/graph/dag_shortest_paths.hpp>
#include <boost/graph/graph_concepts.hpp>
#include <boost/graph/graph_traits.hpp>
#include <boost/iterator/counting_iterator.hpp>
#include <boost/iterator/iterator_facade.hpp>
#include <boost/property_map/function_property_map.hpp>
#include <cassert>
#include <utility>

#include "fingerway/search/paths.hpp"
#include "search/relax.hpp"

namespace fingerway {
namespace {

/// A layered graph turned round, so that distances are weights to go: vertices are numbers, edges are made when asked
/// for and none is stored. One vertex stands before all others (`source`, after the last layer) and one behind them
/// (`sink`, before the first). Models Boost's VertexListGraph and IncidenceGraph. No layer may be empty.
class BackwardLayers {
 public:
  /// An edge: its two vertices, and the layer of the one it leads to (the number of layers, for the sink).
  struct Edge {
    std::size_t source = 0;
    std::size_t target = 0;
    std::size_t layer = 0;

    friend bool operator==(const Edge&, const Edge&) = default;
  };

  /// Walks the edges out of one vertex; they lead to neighbouring numbers.
  class OutEdgeIterator : public boost::iterator_facade<OutEdgeIterator, Edge, boost::forward_traversal_tag, Edge> {
   public:
    OutEdgeIterator() = default;
    explicit OutEdgeIterator(Edge edge) : edge_(edge) {}

   private:
    friend class boost::iterator_core_access;
    void increment() { ++edge_.target; }
    [[nodiscard]] bool equal(const OutEdgeIterator& other) const { return edge_.target == other.edge_.target; }
    [[nodiscard]] Edge dereference() const { return edge_; }

    Edge edge_;
  };

  struct traversal_category : boost::vertex_list_graph_tag, boost::incidence_graph_tag {};
  using vertex_descriptor = std::size_t;
  using edge_descriptor = Edge;
  using directed_category = boost::directed_tag;
  using edge_parallel_category = boost::disallow_parallel_edge_tag;
  using vertex_iterator = boost::counting_iterator<std::size_t>;
  using vertices_size_type = std::size_t;
  using out_edge_iterator = OutEdgeIterator;
  using degree_size_type = std::size_t;
  static vertex_descriptor null_vertex() { return static_cast<std::size_t>(-1); }

  /// The graph must outlive this view of it.
  explicit BackwardLayers(const LayeredGraph& graph) : graph_(&graph) {
    first_.push_back(0);
    for (const std::vector<Weight>& layer : graph.nodes) first_.push_back(first_.back() + layer.size());
  }

  [[nodiscard]] std::size_t node_count() const { return first_.back(); }
  [[nodiscard]] vertex_descriptor source() const { return node_count(); }
  [[nodiscard]] vertex_descriptor sink() const { return node_count() + 1; }

  /// The weight an edge adds: of the step, and of the node it leads to.
  [[nodiscard]] Weight weight(const Edge& edge) const {
    if (edge.layer == graph_->layer_count()) return 0;
    const std::size_t i = edge.target - first_[edge.layer];
    const Weight own = graph_->nodes[edge.layer][i];
    if (edge.source == source()) return saturated(own);
    return saturated(own + graph_->steps[edge.layer]->weight_at(i, edge.source - first_[edge.layer + 1]));
  }

  [[nodiscard]] std::pair<OutEdgeIterator, OutEdgeIterator> edges_out_of(std::size_t v) const {
    const std::size_t layers = graph_->layer_count();
    if (v == sink()) return edge_range(v, v, v, layers);
    if (v < first_[1]) return edge_range(v, sink(), sink() + 1, layers);
    // The source stands where a node of a further layer would, so its layer is found like any other.
    const auto behind = std::upper_bound(first_.begin(), first_.end(), v);
    const auto layer = static_cast<std::size_t>(behind - first_.begin()) - 2;
    return edge_range(v, first_[layer], first_[layer + 1], layer);
  }

 private:
  static std::pair<OutEdgeIterator, OutEdgeIterator> edge_range(std::size_t from, std::size_t begin, std::size_t end,
                                                                std::size_t layer) {
    return {OutEdgeIterator({.source = from, .target = begin, .layer = layer}),
            OutEdgeIterator({.source = from, .target = end, .layer = layer})};
  }

  const LayeredGraph* graph_;
  std::vector<std::size_t> first_;  // the number of each layer's first vertex; one more than layers
};

// The functions that Boost's concepts ask for, found by argument-dependent lookup.
std::size_t source(const BackwardLayers::Edge& edge, const BackwardLayers&) { return edge.source; }
std::size_t target(const BackwardLayers::Edge& edge, const BackwardLayers&) { return edge.target; }
std::size_t num_vertices(const BackwardLayers& graph) { return graph.node_count() + 2; }
std::pair<BackwardLayers::vertex_iterator, BackwardLayers::vertex_iterator> vertices(const BackwardLayers& graph) {
  return {BackwardLayers::vertex_iterator(0), BackwardLayers::vertex_iterator(num_vertices(graph))};
}
std::pair<BackwardLayers::out_edge_iterator, BackwardLayers::out_edge_iterator> out_edges(std::size_t v,
                                                                                          const BackwardLayers& graph) {
  return graph.edges_out_of(v);
}
std::size_t out_degree(std::size_t v, const BackwardLayers& graph) {
  const auto range = graph.edges_out_of(v);
  return (*range.second).target - (*range.first).target;
}

BOOST_CONCEPT_ASSERT((boost::VertexListGraphConcept<BackwardLayers>));
BOOST_CONCEPT_ASSERT((boost::IncidenceGraphConcept<BackwardLayers>));

}  // namespace

std::optional<Path> best_path_by_boost(const LayeredGraph& graph) {
  assert(is_well_formed(graph));
  if (has_empty_layer(graph)) return std::nullopt;
  if (graph.layer_count() == 0) return Path{};

  const BackwardLayers layers(graph);
  const auto weight_of = [&layers](const BackwardLayers::Edge& edge) { return layers.weight(edge); };
  const auto sum = [](Weight a, Weight b) { return saturated(a + b); };
  std::vector<Weight> distance(num_vertices(layers));
  // Which vertex came before does not depend on ties alone but on the order of the sort as well, so it is not used:
  // the distances say enough.
  boost::dag_shortest_paths(
      layers, layers.source(),
      boost::weight_map(boost::make_function_property_map<BackwardLayers::Edge>(weight_of))
          .distance_map(boost::make_iterator_property_map(distance.begin(), boost::identity_property_map()))
          .vertex_index_map(boost::identity_property_map())
          .distance_inf(forbidden)
          .distance_combine(sum));

  NodeWeights to_go(graph);
  auto next = distance.begin();
  for (std::size_t l = 0; l < graph.layer_count(); ++l) {
    for (Weight& weight : to_go.layer(l)) weight = *next++;
  }
  std::optional<Path> path = first_lightest(graph, to_go, AnyLoad{});
  assert(!path || path->weight == distance[layers.sink()]);
  return path;
}

}  // namespace fingerway
