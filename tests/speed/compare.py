#!/usr/bin/env python3
"""Twenty slats, twelve positions of a body, with and without a centre beam: general-purpose libraries and
slatwright on the same problems in one run. Prints times and ratios.

    python3 tests/speed/compare.py [--bound PROGRAM]

Installs scipy, openseespy and PyNiteFEA into a virtual environment under target/ on the first run. Every
library must come to the same greatest sag, moments and screw force as slatwright, or the run fails.
"""
import json, os, pathlib, statistics, subprocess, sys, time

ROOT = pathlib.Path(__file__).resolve().parents[2]
VENV = ROOT / "target" / "peers"
PACKAGES = ["numpy", "scipy", "openseespy", "PyNiteFEA"]


def enter_venv():
    python = VENV / "bin" / "python"
    if pathlib.Path(sys.prefix) == VENV:
        return
    if not python.exists():
        subprocess.run([sys.executable, "-m", "venv", VENV], check=True)
        subprocess.run([python, "-m", "pip", "install", "-q", *PACKAGES], check=True)
    os.environ["OMP_NUM_THREADS"] = os.environ["OPENBLAS_NUM_THREADS"] = "1"
    os.execv(python, [str(python), __file__, *sys.argv[1:]])


class Problem:
    """A grillage problem as the file has it."""

    def __init__(self, centre):
        b = json.loads((ROOT / "tests/data/peers/B3.json").read_text())
        self.span, self.length, self.e = b["span"], b["length"], b["E"]
        self.slats, self.slat_i = b["slats"]["x"], b["slats"]["I"]
        self.cleat_i, self.screws, self.k = b["cleats"]["I"], b["screws"]["x"], b["screws"]["k"]
        self.cases = [c["loads"] for c in b["cases"]]
        v = b["variant_B3c"]
        self.centre = (v["I"], v["legs"]["x"], v["legs"]["k"]) if centre else None
        legs = self.centre[1] if centre else []
        places = {0.0, self.length, *self.slats, *self.screws, *legs}
        self.x = sorted({round(x, 9) for x in places})
        self.lines = [(0.0, self.cleat_i, self.screws, self.k), (self.span, self.cleat_i, self.screws, self.k)]
        if centre:
            self.lines.append((self.span / 2, self.centre[0], legs, self.centre[2]))

    def station(self, x):
        return self.x.index(round(x, 9))


def patch(h, a, b, q):
    """Nodal forces and moments of an even load over part of a beam element clamped at both ends."""

    def anti(s):
        return [h * (s - s**3 + s**4 / 2), h * h * (s * s / 2 - 2 * s**3 / 3 + s**4 / 4),
                h * (s**3 - s**4 / 2), h * h * (s**4 / 4 - s**3 / 3)]

    return [q * (v - u) for u, v in zip(anti(a / h), anti(b / h))]


def slat_loads(p, load):
    """An even load on a slat cut at midspan, as nodal forces of its halves."""
    _, y1, y2, q = load
    h = p.span / 2
    out = []
    for half in range(2):
        a, b = max(y1 - h * half, 0.0), min(y2 - h * half, h)
        out.append(patch(h, a, b, q) if b > a else [0.0] * 4)
    return out


def beam(ei, h):
    a, b, c = 12 * ei / h**3, 6 * ei / h**2, 2 * ei / h
    return [[a, b, -a, b], [b, 2 * c, -b, c], [-a, -b, a, -b], [b, c, -b, 2 * c]]


def scipy_sparse(p):
    """One sparse LU, all positions at once. Freedoms: w and turn of each line's stations, four of each slat."""
    import numpy as np
    from scipy.sparse import coo_matrix
    from scipy.sparse.linalg import splu

    n, lines = len(p.x), len(p.lines)
    node = lambda line, i: 2 * (line * n + i)
    extra = 2 * n * lines
    rows, cols, values = [], [], []

    def add(dofs, k):
        for i, r in enumerate(dofs):
            for j, c in enumerate(dofs):
                rows.append(r), cols.append(c), values.append(k[i][j])

    for line, (_, inertia, springs, k) in enumerate(p.lines):
        for i in range(n - 1):
            a, b = node(line, i), node(line, i + 1)
            add([a, a + 1, b, b + 1], beam(p.e * inertia, p.x[i + 1] - p.x[i]))
        for x in springs:
            add([node(line, p.station(x))], [[k]])
    slats = []
    for s, x in enumerate(p.slats):
        at, first = p.station(x), extra + 4 * s
        mid = node(2, at) if p.centre else first + 3
        slats.append(([node(0, at), first, mid, first + 1], [mid, first + 1, node(1, at), first + 2]))
        for half in slats[-1]:
            add(half, beam(p.e * p.slat_i, p.span / 2))
        if p.centre:
            add([first + 3], [[1.0]])
    size = extra + 4 * len(p.slats)
    forces = np.zeros((size, len(p.cases)))
    for c, loads in enumerate(p.cases):
        for load in loads:
            for half, f in zip(slats[load[0]], slat_loads(p, load)):
                for d, v in zip(half, f):
                    forces[d, c] += v
    u = splu(coo_matrix((values, (rows, cols)), (size, size)).tocsc()).solve(forces)
    sag = max(u[s[0][2]].max() for s in slats)
    fixed = np.zeros((len(p.slats), len(p.cases)))
    for c, loads in enumerate(p.cases):
        for load in loads:
            fixed[load[0], c] += slat_loads(p, load)[0][3]
    k = np.array(beam(p.e * p.slat_i, p.span / 2))
    moment = max((-(k[3] @ u[s[0]] - fixed[i])).max() for i, s in enumerate(slats))
    cleat = 0.0
    for line in range(2):
        for i in range(n - 1):
            a, b = node(line, i), node(line, i + 1)
            k = np.array(beam(p.e * p.lines[line][1], p.x[i + 1] - p.x[i]))
            cleat = max(cleat, np.abs(k[1] @ u[[a, a + 1, b, b + 1]]).max())
    held = max((k * u[node(line, p.station(x))]).max() for line, (*_, springs, k) in enumerate(p.lines) for x in springs)
    return sag, moment, cleat, held


def opensees(p):
    """Compiled; one analysis a position."""
    import openseespy.opensees as ops

    ops.wipe()
    ops.model("basic", "-ndm", 3, "-ndf", 6)
    ops.geomTransf("Linear", 1, 0.0, 0.0, 1.0)
    n, element = len(p.x), 0
    node = lambda line, i: 1 + line * n + i
    for line, (y, inertia, springs, k) in enumerate(p.lines):
        for i, x in enumerate(p.x):
            ops.node(node(line, i), x, y, 0.0)
            ops.fix(node(line, i), 1, 1, 0, 1, 0, 1)
        for i in range(n - 1):
            element += 1
            ops.element("elasticBeamColumn", element, node(line, i), node(line, i + 1), 1.0, p.e, p.e, 1.0, inertia, inertia, 1)
        ops.uniaxialMaterial("Elastic", 1 + line, k)
        for x in springs:
            element += 1
            ground = 100000 + element
            ops.node(ground, x, y, 0.0)
            ops.fix(ground, 1, 1, 1, 1, 1, 1)
            ops.element("zeroLength", element, ground, node(line, p.station(x)), "-mat", 1 + line, "-dir", 3)
    slats = []
    for s, x in enumerate(p.slats):
        own = [10000 + 3 * s + j for j in range(3)]
        for j, tag in enumerate(own):
            ops.node(tag, x, p.span * j / 2, 0.0)
            ops.fix(tag, 1, 1, 0, 0, 1, 1)
        at = p.station(x)
        under = [(0, 0), (1, 2)] + ([(2, 1)] if p.centre else [])
        for line, j in under:
            ops.equalDOF(node(line, at), own[j], 3)
        halves = []
        for j in range(2):
            element += 1
            halves.append(element)
            ops.element("elasticBeamColumn", element, own[j], own[j + 1], 1.0, p.e, p.e, 1.0, p.slat_i, p.slat_i, 1)
        slats.append((own, halves))
    ops.timeSeries("Constant", 1)
    ops.constraints("Transformation")
    ops.numberer("RCM")
    ops.system("BandGeneral")
    ops.test("NormUnbalance", 1e-6, 2)
    ops.algorithm("Linear")
    ops.integrator("LoadControl", 1.0)
    ops.analysis("Static")
    sag = moment = cleat = held = 0.0
    for c, loads in enumerate(p.cases):
        ops.pattern("Plain", c + 1, 1)
        fixed = [0.0] * len(p.slats)
        for load in loads:
            own, _ = slats[load[0]]
            for half, f in enumerate(slat_loads(p, load)):
                # Down is -z; dw/dy positive down is a negative turn about x.
                ops.load(own[half], 0.0, 0.0, -f[0], -f[1], 0.0, 0.0)
                ops.load(own[half + 1], 0.0, 0.0, -f[2], -f[3], 0.0, 0.0)
                if half == 0:
                    fixed[load[0]] += f[3]
        if ops.analyze(1) != 0:
            raise SystemExit("opensees did not converge")
        for i, (own, halves) in enumerate(slats):
            sag = max(sag, -ops.nodeDisp(own[1], 3))
            moment = max(moment, abs(ops.eleResponse(halves[0], "forces")[9]) + fixed[i])
        for line, (*_, springs, k) in enumerate(p.lines):
            for x in springs:
                held = max(held, -k * ops.nodeDisp(node(line, p.station(x)), 3))
        for e in range(1, n):
            cleat = max(cleat, abs(ops.eleResponse(e, "forces")[4]))
        ops.remove("loadPattern", c + 1)
    return sag, moment, cleat, held


def pynite(p):
    """Python; one load combination a position."""
    from Pynite import FEModel3D

    m = FEModel3D()
    m.add_material("wood", p.e, p.e, 0.3, 1.0)
    # Slats turn freely over the lines and carry no twist from one to another: neither resists twisting.
    m.add_section("slat", 1.0, p.slat_i, p.slat_i, 1e-15)
    for line, (y, inertia, springs, k) in enumerate(p.lines):
        m.add_section(f"line {line}", 1.0, inertia, inertia, 1e-15)
        for i, x in enumerate(p.x):
            m.add_node(f"{line}-{i}", x, 0.0, y)
            m.def_support(f"{line}-{i}", True, False, True, False, True, False)
        m.add_member(f"line {line}", f"{line}-0", f"{line}-{len(p.x) - 1}", "wood", f"line {line}")
        for x in springs:
            m.def_support_spring(f"{line}-{p.station(x)}", "DY", k)
    for s, x in enumerate(p.slats):
        at = p.station(x)
        m.add_member(f"slat {s}", f"0-{at}", f"1-{at}", "wood", "slat")
    for c, loads in enumerate(p.cases):
        for s, y1, y2, q in loads:
            m.add_member_dist_load(f"slat {s}", "FY", -q, -q, y1, y2, f"case {c}")
        m.add_load_combo(f"case {c}", {f"case {c}": 1.0})
    m.analyze_linear()
    sag = moment = cleat = held = 0.0
    for c in range(len(p.cases)):
        combo = f"case {c}"
        for s in range(len(p.slats)):
            member = m.members[f"slat {s}"]
            sag = max(sag, -member.deflection("dy", p.span / 2, combo))
            moment = max(moment, member.max_moment("Mz", combo), -member.min_moment("Mz", combo))
        for line, (*_, springs, k) in enumerate(p.lines):
            for x in springs:
                held = max(held, -k * m.nodes[f"{line}-{p.station(x)}"].DY[combo])
        for line in range(2):
            member = m.members[f"line {line}"]
            cleat = max(cleat, member.max_moment("Mz", combo), -member.min_moment("Mz", combo))
    return sag, moment, cleat, held


def timed(work, p, least=3, seconds=4.0):
    """Processor time: one thread, and other work on the machine does not count."""
    work(p)
    runs, start = [], time.perf_counter()
    while len(runs) < least or (time.perf_counter() - start < seconds and len(runs) < 200):
        t = time.process_time()
        got = work(p)
        runs.append(time.process_time() - t)
    return statistics.median(runs), got


def counted(name, times):
    out = subprocess.run([ROOT / "target/release/examples/counted", name, str(times)], check=True, capture_output=True, text=True)
    seconds, _, total = out.stdout.split()
    return float(seconds), float(total)


def processes(commands, times=100):
    """Median seconds of each command, run in turn."""
    runs = [[] for _ in commands]
    for _ in range(times):
        for own, args in zip(runs, commands):
            t = time.perf_counter()
            subprocess.run(args, stdout=subprocess.DEVNULL)
            own.append(time.perf_counter() - t)
    return map(statistics.median, runs)


def main():
    subprocess.run(["cargo", "build", "-q", "--release", "--bins", "--examples"], cwd=ROOT, check=True)
    print("| problem | by | seconds | slatwright is faster by |\n|---|---|---|---|")
    for name, centre in (("b3", False), ("b3c", True)):
        p = Problem(centre)
        own, total = counted(name, 4000)
        print(f"| {name} | slatwright | {own:.3g} | |", flush=True)
        known = None
        for work in (scipy_sparse, opensees, pynite):
            seconds, got = timed(work, p)
            # Over a centre beam a slat's greatest moment is not at midspan, where two of them know it: there
            # they are compared with each other, without it.
            own_sum = total if not centre else known
            known = sum(got) if not centre else got[0] + got[2] + got[3]
            if own_sum is not None and abs(known - own_sum) > 1e-6 * abs(own_sum):
                raise SystemExit(f"{work.__name__} comes to {got}, which is not {own_sum}")
            print(f"| {name} | {work.__name__} | {seconds:.3g} | {seconds / own:,.0f} |", flush=True)
    if "--bound" in sys.argv:
        print(subprocess.run([sys.argv[sys.argv.index("--bound") + 1]], capture_output=True, text=True).stdout)
    print("| a whole process | median, ms | read and print, ms | times |\n|---|---|---|---|")
    for demo in ("child", "two"):
        brief = str(ROOT / f"demo/{demo}.toml")
        whole, least = processes([[ROOT / "target/release/slatwright", "check", brief],
                                  [ROOT / "target/release/examples/reads", brief]])
        print(f"| check {demo} | {whole * 1e3:.2f} | {least * 1e3:.2f} | {whole / least:.1f} |")


if __name__ == "__main__":
    enter_venv()
    main()
