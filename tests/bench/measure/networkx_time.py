"""Times networkx on the layered graph of a plan (fingerway plan --dump): building it, and the lightest path through it.

Prints one line of JSON with the weight found. Vertices are numbers, an edge carries the weight of the node it leads to.
"""

import json
import sys
import time

import networkx as nx


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        dump = json.load(file)
    nodes = dump["nodes"]
    start = time.process_time()
    first = [0]
    for layer in nodes:
        first.append(first[-1] + len(layer))
    begin, end = first[-1], first[-1] + 1
    graph = nx.DiGraph()
    graph.add_weighted_edges_from((begin, i, weight) for i, weight in enumerate(nodes[0]))
    for layer, rows in enumerate(dump["steps"]):
        ahead = nodes[layer + 1]
        graph.add_weighted_edges_from(
            (first[layer] + i, first[layer + 1] + j, step + ahead[j])
            for i, row in enumerate(rows)
            for j, step in enumerate(row)
            if step is not None
        )
    graph.add_weighted_edges_from((v, end, 0) for v in range(first[-2], first[-1]))
    built = time.process_time()
    weight = nx.bellman_ford_path_length(graph, begin, end)
    searched = time.process_time()
    print(json.dumps({"weight": weight, "building": built - start, "search": searched - built}))


if __name__ == "__main__":
    main()
