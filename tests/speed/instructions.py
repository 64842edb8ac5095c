#!/usr/bin/env python3
"""Instructions of each problem, counted by valgrind, against the stored ones.

    python3 tests/speed/instructions.py            compares; fails above 5 % more
    python3 tests/speed/instructions.py --write    stores what was counted
    python3 tests/speed/instructions.py --growth   only how cost grows, over a hundredfold each way

The count of a run is half the difference between three runs and one, so that neither start-up nor reading
counts. Stored counts hold for the compiler of the line at the top of the file; another one is not compared.
With ten times the slats or the positions a grillage may cost ten times to the power of GROWTH, whoever compiled.
"""
import json, math, os, pathlib, shutil, subprocess, sys, tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
STORED = ROOT / "tests/speed/instructions.json"
MORE = 1.05
GROWTH = 1.05
# Threads that wait for work count too, and never twice the same.
ONE_THREAD = {"RAYON_NUM_THREADS": "1"}
COUNTED = ROOT / "target/release/examples/counted"


def size(slats, positions):
    return f"{slats} slats, {positions} positions"


def of_one_run(name):
    return (count([COUNTED, name, 3]) - count([COUNTED, name, 1])) // 2


def exponent(costs):
    """The slope of a straight line through the logarithms of (size, cost)."""
    points = [(math.log(n), math.log(c)) for n, c in costs]
    x, y = (sum(p[i] for p in points) / len(points) for i in range(2))
    return sum((a - x) * (b - y) for a, b in points) / sum((a - x) ** 2 for a, _ in points)


def grows_too_fast(now):
    """Prints how cost grows where it was counted at two sizes."""
    bad = 0
    for what, more in (("slats", size(200, 12)), ("positions", size(20, 120))):
        slope = exponent([(1, now[size(20, 12)]), (10, now[more])])
        bad += slope > GROWTH
        print(f"{slope:14.3f} growth with {what}{'  TOO FAST' if slope > GROWTH else ''}")
    return bad


def growth():
    for what, sizes in (("slats", [(n, 12) for n in (20, 60, 200, 600, 2000)]),
                        ("positions", [(20, n) for n in (12, 36, 120, 360, 1200)])):
        print(f"| slats | positions | instructions | µs |\n|---|---|---|---|")
        counts, times = [], []
        for slats, positions in sizes:
            n = slats if what == "slats" else positions
            instructions = of_one_run(size(slats, positions))
            runs = max(5, 40000 * 240 // (slats * positions) // 40)
            out = subprocess.run([COUNTED, size(slats, positions), str(runs)], check=True, capture_output=True, text=True)
            # The least: other work takes turns with the longer ones.
            seconds = float(out.stdout.split()[1])
            counts.append((n, instructions)), times.append((n, seconds))
            print(f"| {slats} | {positions} | {instructions:,} | {seconds * 1e6:,.1f} |", flush=True)
        print(f"exponent with {what}: {exponent(counts):.3f} by instructions, {exponent(times):.3f} by time\n")


def count(args):
    with tempfile.NamedTemporaryFile() as out:
        run = subprocess.run(["valgrind", "--tool=callgrind", f"--callgrind-out-file={out.name}", *map(str, args)],
                             capture_output=True, env=os.environ | ONE_THREAD)
        # A brief that fails is a result: exit status 1.
        if run.returncode not in (0, 1):
            raise subprocess.CalledProcessError(run.returncode, run.args, run.stdout, run.stderr)
        text = pathlib.Path(out.name).read_text()
    return next(int(line.split()[1]) for line in text.splitlines() if line.startswith("totals:"))


def main():
    if not shutil.which("valgrind"):
        print("instructions: skipped, no valgrind here")
        return 0
    if "--growth" in sys.argv:
        subprocess.run(["cargo", "build", "-q", "--release", "--examples"], cwd=ROOT, check=True)
        growth()
        return 0
    compiler = subprocess.run(["rustc", "--version"], check=True, capture_output=True, text=True).stdout.strip()
    stored = json.loads(STORED.read_text()) if STORED.exists() else {}
    write = "--write" in sys.argv
    comparable = write or stored.get("compiler") == compiler
    subprocess.run(["cargo", "build", "-q", "--release", "--bins", "--examples"], cwd=ROOT, check=True)
    if not comparable:
        print(f"instructions: counted with {stored.get('compiler')}, here is {compiler}: only growth is looked at")
        return 1 if grows_too_fast({name: of_one_run(name) for name in (size(20, 12), size(200, 12), size(20, 120))}) else 0
    names = subprocess.run([COUNTED], check=True, capture_output=True, text=True).stdout.split("\n")
    now = {name: of_one_run(name) for name in names if name}
    for demo in ("child", "two"):
        now[f"process, check {demo}"] = count([ROOT / "target/release/slatwright", "check", ROOT / f"demo/{demo}.toml"])
    now["process, read and print"] = count([ROOT / "target/release/examples/reads", ROOT / "demo/two.toml"])
    if write:
        STORED.write_text(json.dumps({"compiler": compiler, "counts": now}, indent=2) + "\n")
    worse = 0
    for name, n in now.items():
        before = stored.get("counts", {}).get(name)
        change = "" if not before else f" {100 * (n / before - 1):+.1f} %"
        bad = bool(before) and not write and n > MORE * before
        worse += bad
        print(f"{n:14,} {name}{change}{'  TOO MANY' if bad else ''}")
    return 1 if worse + grows_too_fast(now) else 0


if __name__ == "__main__":
    sys.exit(main())
