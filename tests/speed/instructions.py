#!/usr/bin/env python3
"""Instructions of each problem, counted by valgrind, against the stored ones.

    python3 tests/speed/instructions.py            compares; fails above 5 % more
    python3 tests/speed/instructions.py --write    stores what was counted

The count of a run is half the difference between three runs and one, so that neither start-up nor reading
counts. Stored counts hold for the compiler of the line at the top of the file; another one is not compared.
"""
import json, pathlib, shutil, subprocess, sys, tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
STORED = ROOT / "tests/speed/instructions.json"
MORE = 1.05


def count(args):
    with tempfile.NamedTemporaryFile() as out:
        run = subprocess.run(["valgrind", "--tool=callgrind", f"--callgrind-out-file={out.name}", *map(str, args)],
                             capture_output=True)
        # A brief that fails is a result: exit status 1.
        if run.returncode not in (0, 1):
            raise subprocess.CalledProcessError(run.returncode, run.args, run.stdout, run.stderr)
        text = pathlib.Path(out.name).read_text()
    return next(int(line.split()[1]) for line in text.splitlines() if line.startswith("totals:"))


def main():
    if not shutil.which("valgrind"):
        print("instructions: skipped, no valgrind here")
        return 0
    compiler = subprocess.run(["rustc", "--version"], check=True, capture_output=True, text=True).stdout.strip()
    stored = json.loads(STORED.read_text()) if STORED.exists() else {}
    write = "--write" in sys.argv
    if not write and stored.get("compiler") != compiler:
        print(f"instructions: skipped, counted with {stored.get('compiler')}, here is {compiler}")
        return 0
    subprocess.run(["cargo", "build", "-q", "--release", "--bins", "--examples"], cwd=ROOT, check=True)
    counted = ROOT / "target/release/examples/counted"
    names = subprocess.run([counted], check=True, capture_output=True, text=True).stdout.split("\n")
    names = [name for name in names if name]
    now = {name: (count([counted, name, 3]) - count([counted, name, 1])) // 2 for name in names}
    now["process, check two"] = count([ROOT / "target/release/slatwright", "check", ROOT / "demo/two.toml"])
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
    return 1 if worse else 0


if __name__ == "__main__":
    sys.exit(main())
