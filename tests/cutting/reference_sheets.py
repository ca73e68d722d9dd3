#!/usr/bin/env python3
"""Writes medium_sheets.json: random jobs of sheets with least costs found by HiGHS.

The model here shares nothing with the crate's. For every kind of sheet a table over all sizes of panel
tells which numbers of pieces can be sawn from it edge to edge (each number of pieces a bit, each cut at a
sum of sides); HiGHS then solves the integer program over the fullest of them with no gap allowed. Sides
are counted with the kerf, as a cut may fall off the edge.

    pip install highspy numpy
    python3 tests/cutting/reference_sheets.py
"""
import json
import random
import sys
from pathlib import Path

import highspy
import numpy as np


class Panels:
    """What can be sawn from panels of any size."""

    def __init__(self, kinds, demand):
        self.kinds = kinds
        self.demand = demand
        self.step = []
        size = 1
        for most in demand:
            self.step.append(size)
            size *= most + 1
        self.size = size
        # For each kind and each number of it that is added: the numbers that it may be added to.
        self.room = {}
        self.known = {}
        self.sides = [sorted(self.sums(0)), sorted(self.sums(1))]

    def sums(self, axis):
        found = {0}
        longest = 4000
        for (w, h, turn), most in zip(self.kinds, self.demand):
            own = {(w, h)[axis]} | ({(h, w)[axis]} if turn else set())
            for _ in range(most):
                found |= {a + b for a in found for b in own if a + b <= longest}
        return found

    def counts(self, index):
        return tuple(index // s % (d + 1) for s, d in zip(self.step, self.demand))

    def allowed(self, index):
        """Bits of all numbers to which these may be added without passing the demand."""
        if index not in self.room:
            own = self.counts(index)
            bits = 0
            for other in range(self.size):
                if all(a + b <= d for a, b, d in zip(own, self.counts(other), self.demand)):
                    bits |= 1 << other
            self.room[index] = bits
        return self.room[index]

    def closed(self, bits):
        """With every smaller number."""
        for step, most in zip(self.step, self.demand):
            ones = 0
            for index in range(self.size):
                if index // step % (most + 1) > 0:
                    ones |= 1 << index
            for _ in range(most):
                bits |= (bits & ones) >> step
        return bits

    def fullest(self, bits):
        found = []
        for index in range(self.size):
            if not bits >> index & 1:
                continue
            own = self.counts(index)
            more = (index + s for s, n, d in zip(self.step, own, self.demand) if n < d)
            if not any(bits >> m & 1 for m in more):
                found.append(index)
        return found

    def down(self, axis, side):
        low = 0
        for own in self.sides[axis]:
            if own > side:
                break
            low = own
        return low

    def sawn(self, w, h):
        w, h = self.down(0, w), self.down(1, h)
        if (w, h) in self.known:
            return self.known[(w, h)][0]
        bits = 1
        for (pw, ph, turn), step in zip(self.kinds, self.step):
            if pw <= w and ph <= h or turn and ph <= w and pw <= h:
                bits |= 1 << step
        for axis, side in ((0, w), (1, h)):
            for at in self.sides[axis]:
                if at == 0:
                    continue
                if at >= side:
                    break
                first = self.sawn(*((at, h) if axis == 0 else (w, at)))
                rest = self.down(axis, side - at)
                if rest == 0:
                    continue
                key = (rest, h) if axis == 0 else (w, rest)
                self.sawn(*key)
                for index in self.known[self.key(*key)][1]:
                    bits |= (first & self.allowed(index)) << index
        bits = self.closed(bits)
        self.known[(w, h)] = (bits, self.fullest(bits))
        return bits

    def key(self, w, h):
        return self.down(0, w), self.down(1, h)


def least_cost(panels, stock, kerf):
    columns, costs, group = [], [], []
    for k, s in enumerate(stock):
        w, h = s["width"] - 2 * s["trim"] + kerf, s["height"] - 2 * s["trim"] + kerf
        panels.sawn(w, h)
        for index in panels.known[panels.key(w, h)][1]:
            if index:
                columns.append(panels.counts(index))
                costs.append(s["price"])
                group.append(k)
    rows = [(d, None) for d in panels.demand]
    limited = [k for k, s in enumerate(stock) if s["limit"] is not None]
    rows += [(0, stock[k]["limit"]) for k in limited]
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
    for counts, cost, k in zip(columns, costs, group):
        index = [i for i, n in enumerate(counts) if n]
        value = [counts[i] for i in index]
        if k in limited:
            index.append(len(panels.demand) + limited.index(k))
            value.append(1)
        h.addCol(cost, 0, inf, len(index), np.array(index, dtype=np.int32), np.array(value, dtype=float))
    for j in range(len(columns)):
        h.changeColIntegrality(j, highspy.HighsVarType.kInteger)
    h.run()
    if h.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    return round(h.getInfo().objective_function_value)


def job(dice):
    """Sizes in mm, sides with the kerf mostly on a grid so that the table stays small."""
    kerf = dice.choice([0, 2, 3, 4])
    grid = dice.choice([20, 25, 50, 50])
    stock = []
    for _ in range(dice.randint(1, 3)):
        w, h = dice.choice([(500, 250), (600, 400), (800, 500), (1000, 500), (600, 600)])
        slack = dice.randint(0, 9)
        limit = dice.choice([None, None, None, 1, 2])
        price = 0 if limit and dice.random() < 0.6 else dice.randint(w * h // 9000, w * h // 5000)
        stock.append({"width": w + slack, "height": h + dice.randint(0, 9),
                      "trim": dice.choice([0, 0, 2]), "price": price, "limit": limit})
    if all(s["limit"] is not None for s in stock):
        stock[0]["limit"] = None
        stock[0]["price"] = max(stock[0]["price"], 10)
    whole = [s for s in stock if s["limit"] is None]
    w, h = whole[0]["width"] - 10, whole[0]["height"] - 10
    parts = []
    for _ in range(dice.randint(3, 5)):
        a = dice.randint(2, max(2, int(w * 0.7) // grid)) * grid - kerf
        b = dice.randint(2, max(2, int(h * 0.7) // grid)) * grid - kerf
        parts.append([a, b, dice.randint(1, 3), dice.random() < 0.6])
    return {"kerf": kerf, "parts": parts, "stock": stock}


def main():
    jobs = []
    seed = 0
    while len(jobs) < 200:
        seed += 1
        dice = random.Random(seed)
        made = job(dice)
        kerf = made["kerf"]
        kinds = [(w + kerf, h + kerf, turn) for w, h, _, turn in made["parts"]]
        panels = Panels(kinds, [count for _, _, count, _ in made["parts"]])
        cost = least_cost(panels, made["stock"], kerf)
        if cost is None:
            continue
        jobs.append({**made, "cost": cost})
        if len(jobs) % 20 == 0:
            print(len(jobs), file=sys.stderr)
    version = highspy.Highs().version()
    head = {"reference": f"HiGHS {version}", "generator": "tests/cutting/reference_sheets.py"}
    lines = ",\n".join(json.dumps(j) for j in jobs)
    text = json.dumps(head)[:-1] + ', "jobs": [\n' + lines + "\n]}\n"
    Path(__file__).with_name("medium_sheets.json").write_text(text)


if __name__ == "__main__":
    main()
