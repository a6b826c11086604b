"""Solves the layered graphs of a JSON file with networkx and prints one line of JSON a graph.

Input:  [{"vertices": N, "edges": [[from, to, weight, load], ...], "k": K}, ...]; vertex 0 is the start, N - 1 the end.
Output: {"weight": W, "weights": [the K least], "largest_load": L, "smoothest_weight": S}, or null without any path.
"""

import itertools
import json
import sys

import networkx as nx


def shortest(graph, end):
    return nx.bellman_ford_path_length(graph, 0, end, weight="weight")


def up_to(edges, load):
    graph = nx.DiGraph()
    graph.add_weighted_edges_from((a, b, w) for a, b, w, edge_load in edges if edge_load <= load)
    return graph


def answer(problem):
    end = problem["vertices"] - 1
    edges = problem["edges"]
    graph = up_to(edges, float("inf"))
    if 0 not in graph or end not in graph or not nx.has_path(graph, 0, end):
        return None
    paths = nx.shortest_simple_paths(graph, 0, end, weight="weight")
    weights = [nx.path_weight(graph, path, "weight") for path in itertools.islice(paths, problem["k"])]
    for load in sorted({edge[3] for edge in edges}):
        smooth = up_to(edges, load)
        if 0 in smooth and end in smooth and nx.has_path(smooth, 0, end):
            break
    return {
        "weight": shortest(graph, end),
        "weights": weights,
        "largest_load": load,
        "smoothest_weight": shortest(smooth, end),
    }


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        for problem in json.load(file):
            print(json.dumps(answer(problem)))


if __name__ == "__main__":
    main()
