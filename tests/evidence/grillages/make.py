#!/usr/bin/env python3
"""Random platforms solved by a general-purpose finite element library, one JSON object a line.

    pip install openseespy==3.7.1.2
    python3 make.py --count 160 > stored.jsonl                     # what is kept here
    python3 make.py --count 5000 --seed 7 > /tmp/live.jsonl         # as many as you like
    GRILLAGES=/tmp/live.jsonl cargo test --test evidence grillages

Slats on two cleats, each cleat screwed to a rail (springs between them), the rails on rigid supports or
springs, sometimes a centre beam on legs. Euler-Bernoulli; a slat shares the deflection of what it rests on
and nothing else. Lengths in m, forces in N; loads and deflections down, reactions up, sagging moments
positive. Places lie on a grid of 20 mm, so that no element is much stiffer than its neighbours. Twelve
digits are printed.
"""

import argparse
import json
import math
import random

import openseespy.opensees as ops

GRID = 0.02


def snap(value):
    return round(round(value / GRID) * GRID, 2)


def log_uniform(draw, low, high):
    return float(f"{math.exp(draw.uniform(math.log(low), math.log(high))):.4g}")


def places(draw, count, low, high, least):
    """So many places between two, at least so far apart."""
    room = (high - low) - least * (count - 1)
    cuts = sorted(draw.uniform(0, room) for _ in range(count))
    return sorted({snap(low + cut + least * i) for i, cut in enumerate(cuts)})


def supports(draw, between, length):
    """Near both ends, as a bed is held, and so many between. Rails that hang out far are what double precision is worst
    at: there this library's displacement method loses the tenth digit (compared with 40 digits)."""
    first, last = snap(draw.uniform(0, 0.15)), snap(length - draw.uniform(0, 0.15))
    return sorted({first, last, *places(draw, between, first + 0.2, last - 0.2, 0.1)} if between else {first, last})


def platform(draw):
    length, width = snap(draw.uniform(1.0, 2.4)), snap(draw.uniform(0.6, 1.8))
    cleat, rail = log_uniform(draw, 2e3, 3e4), log_uniform(draw, 1e4, 3e5)
    lines = [[0.0, cleat, 0.0, length], [width, cleat, 0.0, length]]
    lines += [[0.0, rail, 0.0, length], [width, rail, 0.0, length]]
    springs, links = [], []
    for side in (0, 1):
        screws = places(draw, draw.randint(3, 8), 0.0, length, 0.06)
        stiffness = log_uniform(draw, 2e5, 3e7)
        links += [[side, side + 2, x, stiffness] for x in screws]
        held = supports(draw, draw.randint(0, 3), length)
        rigid = draw.random() < 0.5
        springs += [[side + 2, x, None if rigid else log_uniform(draw, 1e6, 1e8)] for x in held]
    centre = draw.random() < 0.35
    if centre:
        lines.append([snap(width / 2), log_uniform(draw, 1e4, 1e5), 0.0, length])
        springs += [[4, x, log_uniform(draw, 1e5, 1e8)] for x in supports(draw, draw.randint(0, 1), length)]
    beyond = draw.choice([0.0, GRID, 2 * GRID])
    slat = log_uniform(draw, 200, 2e4)
    rests = [0, 1, 4] if centre else [0, 1]
    slats = [
        [x, slat, round(-beyond, 2), round(width + beyond, 2), rests]
        for x in places(draw, draw.randint(4, 16), 0.0, length, 0.06)
    ]
    loads = []
    for _ in range(draw.randint(1, 6)):
        i = draw.randrange(len(slats))
        a, b = sorted(snap(draw.uniform(slats[i][2], slats[i][3])) for _ in range(2))
        if b - a < GRID / 2:
            loads.append(["slat", i, a, None, float(draw.randint(50, 2000))])
        else:
            loads.append(["slat", i, a, b, float(draw.randint(50, 3000))])
    if draw.random() < 0.5:
        loads.append(["line", draw.randrange(2, 4), 0.0, length, float(draw.randint(10, 100))])
    return {"lines": lines, "slats": slats, "springs": springs, "links": links, "loads": loads}


class Beam:
    """A chain of elements through the places where something happens."""

    def __init__(self, model, ei, stops):
        self.stops = sorted(set(round(s, 2) for s in stops))
        self.nodes = [model.node(x) for x in self.stops]
        self.elements = [model.element(a, b, ei) for a, b in zip(self.nodes, self.nodes[1:])]
        self.point = dict.fromkeys(self.nodes, 0.0)

    def at(self, x):
        return self.nodes[self.stops.index(round(x, 2))]

    def load(self, start, end, size):
        if end is None:
            ops.load(self.at(start), 0.0, -size, 0.0)
            self.point[self.at(start)] += size
            return
        for (a, b), element in zip(zip(self.stops, self.stops[1:]), self.elements):
            if a >= start - 1e-9 and b <= end + 1e-9:
                ops.eleLoad("-ele", element, "-type", "-beamUniform", -size)

    def sag(self, x):
        return -ops.nodeDisp(self.at(x), 2)

    def moment(self, x):
        i = self.stops.index(round(x, 2))
        if i < len(self.elements):
            return -ops.eleResponse(self.elements[i], "force")[2]
        return ops.eleResponse(self.elements[i - 1], "force")[5]

    def reaction(self, x):
        """Upward force on the beam at a place, beside the load that acts there."""
        i = self.stops.index(round(x, 2))
        total = self.point[self.nodes[i]]
        if i > 0:
            total += ops.eleResponse(self.elements[i - 1], "force")[4]
        if i < len(self.elements):
            total += ops.eleResponse(self.elements[i], "force")[1]
        return total


class Model:
    def __init__(self):
        ops.wipe()
        ops.model("basic", "-ndm", 2, "-ndf", 3)
        ops.geomTransf("Linear", 1)
        self.tag = 0

    def next(self):
        self.tag += 1
        return self.tag

    def node(self, x):
        tag = self.next()
        ops.node(tag, x, 0.0)
        ops.fix(tag, 1, 0, 0)
        return tag

    def element(self, a, b, ei):
        tag = self.next()
        ops.element("elasticBeamColumn", tag, a, b, 1.0, 1.0, ei, 1)
        return tag

    def spring(self, a, b, stiffness):
        tag = self.next()
        ops.uniaxialMaterial("Elastic", tag, stiffness)
        ops.element("zeroLength", tag, a, b, "-mat", tag, "-dir", 2)

    def ground(self, x):
        tag = self.next()
        ops.node(tag, x, 0.0)
        ops.fix(tag, 1, 1, 1)
        return tag


def solve(p):
    model = Model()
    stops = [[a, b] for _, _, a, b in p["lines"]]
    for x, *_ in p["slats"]:
        for stop in stops:
            stop.append(x)
    for line, x, _ in p["springs"]:
        stops[line].append(x)
    for a, b, x, _ in p["links"]:
        stops[a].append(x)
        stops[b].append(x)
    lines = [Beam(model, ei, s) for (_, ei, _, _), s in zip(p["lines"], stops)]
    slats = []
    for i, (_, ei, start, end, rests) in enumerate(p["slats"]):
        s = [start, end, middle(p)] + [p["lines"][line][0] for line in rests]
        for kind, at, a, b, _ in p["loads"]:
            if kind == "slat" and at == i:
                s += [a] if b is None else [a, b]
        slats.append(Beam(model, ei, s))
    for slat, (x, _, _, _, rests) in zip(slats, p["slats"]):
        for line in rests:
            ops.equalDOF(lines[line].at(x), slat.at(p["lines"][line][0]), 2)
    for line, x, stiffness in p["springs"]:
        if stiffness is None:
            ops.fix(lines[line].at(x), 0, 1, 0)
        else:
            model.spring(model.ground(x), lines[line].at(x), stiffness)
    for a, b, x, stiffness in p["links"]:
        model.spring(lines[b].at(x), lines[a].at(x), stiffness)
    ops.timeSeries("Linear", 1)
    ops.pattern("Plain", 1, 1)
    for kind, i, a, b, size in p["loads"]:
        (slats if kind == "slat" else lines)[i].load(a, b, size)
    ops.constraints("Transformation")
    ops.numberer("RCM")
    ops.system("UmfPack")
    ops.integrator("LoadControl", 1.0)
    ops.algorithm("Linear")
    ops.analysis("Static")
    if ops.analyze(1) != 0:
        return None
    ops.reactions()
    spring = lambda line, x, k: ops.nodeReaction(lines[line].at(x), 2) if k is None else k * lines[line].sag(x)
    return {
        "spring": [spring(*s) for s in p["springs"]],
        "link": [k * (lines[a].sag(x) - lines[b].sag(x)) for a, b, x, k in p["links"]],
        "reaction": [[s.reaction(p["lines"][n][0]) for n in row[4]] for s, row in zip(slats, p["slats"])],
        "slat_moment": [s.moment(middle(p)) for s in slats],
        "slat_sag": [s.sag(middle(p)) for s in slats],
        "line_moment": [[line.moment(row[0]) for row in p["slats"]] for line in lines[:4]],
        "line_sag": [[line.sag(row[0]) for row in p["slats"]] for line in lines[:4]],
    }


def middle(p):
    return snap(p["lines"][1][0] / 2 + 2 * GRID)


def rounded(value):
    if isinstance(value, dict):
        return {k: rounded(v) for k, v in value.items()}
    if isinstance(value, list):
        return [rounded(v) for v in value]
    return float(f"{value:.12g}")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    draw = random.Random(arguments.seed)
    done = 0
    while done < arguments.count:
        p = platform(draw)
        result = solve(p)
        if result is not None:
            print(json.dumps({**p, "answer": rounded(result)}, separators=(",", ":")))
            done += 1


if __name__ == "__main__":
    main()
