"""Reads the layered graph of a plan (fingerway plan --dump) and searches it with networkx.

Prints one line of JSON: the number of layers, the weight of the lightest path, and the smallest load that the worst
moment of a path can have.
"""

import json
import sys

import networkx as nx


def edges(dump):
    """Edges (from, to, weight, load); a node is two vertices with what it weighs between them."""
    layers = dump["nodes"]
    for layer, weights in enumerate(layers):
        for i, weight in enumerate(weights):
            if layer == 0:
                yield "start", (0, i, "in"), 0, 0
            yield (layer, i, "in"), (layer, i, "out"), weight, dump["node_loads"][layer][i]
            if layer + 1 == len(layers):
                yield (layer, i, "out"), "end", 0, 0
                continue
            for j, step in enumerate(dump["steps"][layer][i]):
                if step is not None:
                    yield (layer, i, "out"), (layer + 1, j, "in"), step, dump["step_loads"][layer][i][j]


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        dump = json.load(file)
    everything = list(edges(dump))
    graph = nx.DiGraph()
    graph.add_weighted_edges_from((a, b, weight) for a, b, weight, _ in everything)
    lightest = nx.bellman_ford_path_length(graph, "start", "end")
    loads = sorted({load for *_, load in everything})
    low, high = 0, len(loads) - 1
    while low < high:
        middle = (low + high) // 2
        smooth = nx.DiGraph((a, b) for a, b, _, load in everything if load <= loads[middle])
        if "start" in smooth and "end" in smooth and nx.has_path(smooth, "start", "end"):
            high = middle
        else:
            low = middle + 1
    print(json.dumps({"layers": len(dump["nodes"]), "weight": lightest, "worst_load": loads[low]}))


if __name__ == "__main__":
    main()
