"""Writes longest_paths.json: plans that only lags hold back, with their longest paths.

Run beside the file it writes: python3 longest_paths.py
The drawing uses a fixed seed; networkx works out the paths.
"""

import json
import pathlib
import random

import networkx

random.seed(20)
examples = []
for number in range(24):
    n = random.randint(3, 40)
    minutes = [random.choice([0, 5, 15, 30, 45, 60, 90, 240]) for _ in range(n)]
    lags = [
        [a, b, random.choice([0, 0, 30, 60, 720, 1440])]
        for b in range(n)
        for a in range(b)
        if random.random() < 3 / n
    ]
    shuffled = random.sample(range(n), n)
    minutes = [minutes[shuffled.index(i)] for i in range(n)]
    lags = [[shuffled[a], shuffled[b], wait] for a, b, wait in lags]
    graph = networkx.MultiDiGraph()
    graph.add_nodes_from(range(n))
    for i in range(n):
        graph.add_edge("start", i, weight=0)
        graph.add_edge(i, "finish", weight=minutes[i])
    for a, b, wait in lags:
        graph.add_edge(a, b, weight=minutes[a] + wait)
    earliest = []
    for i in range(n):
        before = networkx.ancestors(graph, i) | {i}
        earliest.append(networkx.dag_longest_path_length(graph.subgraph(before)))
    latest = []
    finish = networkx.dag_longest_path_length(graph)
    for i in range(n):
        after = networkx.descendants(graph, i) | {i}
        latest.append(finish - networkx.dag_longest_path_length(graph.subgraph(after)))
    examples.append(
        {"minutes": minutes, "lags": lags, "finish": finish, "earliest": earliest, "latest": latest}
    )

path = pathlib.Path(__file__).with_suffix(".json")
source = f"networkx {networkx.__version__}, dag_longest_path_length; drawn by longest_paths.py"
rows = ",\n".join(json.dumps(example) for example in examples)
path.write_text(f'{{"source": {json.dumps(source)}, "examples": [\n{rows}\n]}}\n')
