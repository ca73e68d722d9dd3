#!/usr/bin/env python3
"""Writes medium.json: random jobs with optima found by HiGHS.

The model here shares nothing with the crate's: every full pattern of every kind of bar is listed, and
HiGHS solves the integer program over them with no gap allowed (least cost). A second program takes one
marked bar with any content, at that cost, for the longest leftover of one bar.

    pip install highspy
    python3 tests/cutting/reference.py
"""
import json
import random
import sys
from pathlib import Path

import highspy
import numpy as np


def patterns(weights, demand, cap, full):
    out = []
    now = [0] * len(weights)

    def go(i, room):
        if i == len(weights):
            if not any(now):
                return
            if full and any(n < d and w <= room for n, d, w in zip(now, demand, weights)):
                return
            out.append(tuple(now))
            return
        for n in range(min(demand[i], room // weights[i]), -1, -1):
            now[i] = n
            go(i + 1, room - n * weights[i])
        now[i] = 0

    go(0, cap)
    return out


def solve(columns, costs, lower, upper, rows):
    h = highspy.Highs()
    h.setOptionValue("output_flag", False)
    h.setOptionValue("threads", 1)
    h.setOptionValue("random_seed", 1)
    h.setOptionValue("mip_rel_gap", 0.0)
    h.setOptionValue("mip_abs_gap", 0.5)
    h.setOptionValue("time_limit", 60.0)
    inf = h.getInfinity()
    for low, high in rows:
        h.addRow(low, inf if high is None else high, 0, np.array([], dtype=np.int32), np.array([]))
    for (index, value), cost in zip(columns, costs):
        h.addCol(cost, lower, inf if upper is None else upper, len(index),
                 np.array(index, dtype=np.int32), np.array(value, dtype=float))
    for j in range(len(columns)):
        h.changeColIntegrality(j, highspy.HighsVarType.kInteger)
    h.run()
    if h.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    return round(h.getInfo().objective_function_value)


def reference(job):
    kerf = job["kerf"]
    demand = [n for _, n in job["parts"]]
    weights = [l + kerf for l, _ in job["parts"]]
    n = len(demand)
    columns, costs, marked, gains = [], [], [], []
    rows = [(d, None) for d in demand]
    limit_row = {}
    for k, s in enumerate(job["stock"]):
        if s["limit"] is not None:
            limit_row[k] = len(rows)
            rows.append((0, s["limit"]))
    for k, s in enumerate(job["stock"]):
        usable = s["length"] - s["trim_start"] - s["trim_end"]
        listed = patterns(weights, demand, usable + kerf, True)
        if len(listed) > 4000:
            return None
        for p in listed:
            index = [i for i in range(n) if p[i]]
            value = [p[i] for i in index]
            if k in limit_row:
                index, value = index + [limit_row[k]], value + [1]
            columns.append((index, value))
            costs.append(s["price"])
        listed = patterns(weights, demand, usable + kerf, False)
        if len(listed) > 6000:
            return None
        for p in listed:
            index = [i for i in range(n) if p[i]]
            value = [p[i] for i in index]
            if k in limit_row:
                index, value = index + [limit_row[k]], value + [1]
            marked.append((index, value, s["price"]))
            gains.append(max(0, usable - sum(a * w for a, w in zip(p, weights))))
    cost = solve(columns, costs, 0, None, rows)
    if cost is None:
        return None
    paid, one = len(rows), len(rows) + 1
    rows = rows + [(0, cost), (1, 1)]
    both = [(i + [paid], v + [c]) for (i, v), c in zip(columns, costs)]
    both += [(i + [paid, one], v + [c, 1]) for i, v, c in marked]
    worth = [0] * len(columns) + [-g for g in gains]
    leftover = solve(both, worth, 0, None, rows)
    if leftover is None:
        return None
    return cost, -leftover


def generate(rng):
    kerf = rng.choice([0, 100, 150, 200, 300])
    stock = []
    for length in sorted(rng.sample([200000, 250000, 300000, 400000, 600000], rng.randint(1, 3))):
        trim = rng.choice([0, 0, 500, 1000])
        price = round(length / 1000 * rng.uniform(2, 6))
        stock.append(dict(length=length, trim_start=trim, trim_end=trim, price=price, limit=None))
    for _ in range(rng.randint(0, 3)):
        stock.append(dict(length=rng.randint(30000, 240000), trim_start=rng.choice([0, 500]), trim_end=0,
                          price=rng.choice([0, 0, 120, 300]), limit=rng.randint(1, 2)))
    longest = max(s["length"] - s["trim_start"] - s["trim_end"] for s in stock if s["limit"] is None)
    parts = []
    for _ in range(rng.randint(2, 9)):
        length = rng.randint(longest // 14, longest * 2 // 3)
        parts.append([length - length % rng.choice([1, 100, 1000, 5000]), rng.randint(1, 5)])
    # One in three jobs holds a piece that fits only because its last cut falls off the end.
    if rng.random() < 1 / 3:
        half = (longest - kerf) // 2
        parts.append([half, 2])
    return dict(kerf=kerf, parts=parts, stock=stock)


def main():
    rng = random.Random(20250301)
    jobs = []
    while len(jobs) < 200:
        job = generate(rng)
        answer = reference(job)
        if answer is None:
            continue
        job["cost"], job["leftover"] = answer
        jobs.append(job)
        print(len(jobs), file=sys.stderr, end="\r")
    version = highspy.Highs().version()
    with open(Path(__file__).with_name("medium.json"), "w") as out:
        print('{"reference": "HiGHS %s", "generator": "tests/cutting/reference.py", "jobs": [' % version, file=out)
        print(",\n".join(json.dumps(j) for j in jobs), file=out)
        print("]}", file=out)


main()
