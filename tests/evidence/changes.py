#!/usr/bin/env python3
"""Makes one small change at a time to the source and says which changes no test notices.

    tests/evidence/changes.py                                    every number of src/rules
    tests/evidence/changes.py --in src/statics --modules statics --kinds all --tests statics_closed_forms,statics_continuous
    tests/evidence/changes.py --every 10 --start 3 --then guard,wall
    tests/evidence/changes.py --again before.txt                 what survived then, against the tests of now

In a copy of the tree every place is put through a function that changes the one named in the environment, so the
tests are built once for all of them, and a change costs no more than a run of the tests:

    numbers      a decimal grows by one percent, a whole number by one, a zero by 0.01
    products     a factor or a divisor grows by one percent
    sums         a term changes its sign
    comparisons  a limit grows by one percent
    conditions   `and` never holds, `or` always does

A place that does not compile so (a constant, a pattern, a value that carries its own derivation) is left as it is,
and counted. With `--constants` numbers among those are changed in the source itself; that is a build each.
What is written to the output are the survivors. No package is needed beside a Rust toolchain with rustfmt.
"""

import argparse
import collections
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
VARIABLE = "CHANGED_PLACE"
# About other things than one value, or slow: the page of the evidence, what is drawn at random, whole platforms.
SKIP = ["every_platform", "the_page_says_what_is_so", "the_page_of_kinds", "properties::", "grillages"]

SWITCH = """
//! Changes the one place that the environment names.
#![allow(dead_code)]
use std::sync::LazyLock;
static ASKED: LazyLock<Option<usize>> = LazyLock::new(|| std::env::var("CHANGED_PLACE").ok()?.parse().ok());
pub(crate) fn is(place: usize) -> bool { *ASKED == Some(place) }
pub(crate) fn decimal(place: usize, value: f64) -> f64 {
    if !is(place) { value } else if value == 0.0 { 0.01 } else { value * 1.01 }
}
pub(crate) fn whole<T: std::ops::Add<Output = T> + From<bool>>(place: usize, value: T) -> T {
    if is(place) { value + T::from(true) } else { value }
}
pub(crate) fn sign(place: usize) -> f64 { if is(place) { -1.0 } else { 1.0 } }
pub(crate) fn more(place: usize) -> f64 { if is(place) { 1.01 } else { 1.0 } }
"""

TOKEN = re.compile(
    r"""(?P<skip>//[^\n]*|/\*.*?\*/|r\#*".*?"\#*|"(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])'|\#!?\[[^\]]*\])
    |(?P<item>\b(?:const|static)\s+[A-Z][A-Z0-9_]*\s*:)
    |(?P<word>[A-Za-z_][A-Za-z0-9_]*(?:\.\d+\b)*)
    |(?P<field>\.\d+(?!\d*\.?\d*e|\d*\.\d))
    |(?P<number>\d[\d_]*(?:\.(?!\.)(?:\d[\d_]*)?)?(?:e[+-]?\d+)?(?P<suffix>_?[fiu](?:8|16|32|64|size))?)
    |(?P<operator>(?<=\s)(?:[-+*/<>]|<=|>=|&&|\|\|)(?=\s))
    |(?P<range>\.\.=?)|(?P<mark>.)""",
    re.X | re.S,
)
# What is put behind an operator, by operator, with the kind of the change.
BEHIND = {
    "*": ("products", "more({}) *"), "/": ("products", "more({}) /"),
    "+": ("sums", "sign({}) *"), "-": ("sums", "sign({}) *"),
    **{o: ("comparisons", "more({}) *") for o in ("<", ">", "<=", ">=")},
    "&&": ("conditions", "is({}) && !"), "||": ("conditions", "is({}) ||"),
}


def places(text):
    """Where a source file can be changed: place, kind, and whether it is in a constant."""
    constant, depth = False, 0
    for token in TOKEN.finditer(text):
        kind = "number" if token.lastgroup == "suffix" else token.lastgroup
        if kind == "item":
            constant, depth = True, 0
        elif kind == "mark" and constant:
            depth += {"(": 1, "[": 1, "{": 1, ")": -1, "]": -1, "}": -1}.get(token[0], 0)
            constant = not (token[0] == ";" and depth == 0)
        elif kind == "number":
            yield token.start(), token.end(), "numbers", constant
        elif kind == "operator" and (token[0] != "||" or text[: token.start()].rstrip()[-1:] not in tuple(",(={")):
            # Elsewhere `||` begins a closure that takes nothing.
            yield token.start(), token.end(), BEHIND[token[0]][0], constant


def is_decimal(literal):
    return bool(re.search(r"[.e]|f64$", literal))


def written_changed(literal):
    """A number as it is written when it is changed."""
    body = re.sub(r"_?[fiu](8|16|32|64|size)$", "", literal)
    suffix, body = literal[len(body):], body.replace("_", "")
    if not is_decimal(literal):
        return f"{int(body) + 1}{suffix}"
    return f"{float(body) * 1.01 if float(body) else 0.01!r}{suffix}"


class Tree:
    """A copy of the source in which places can be changed one at a time."""

    def __init__(self, work, part, kinds, target, modules):
        self.work, self.target = pathlib.Path(work), target
        self.sources, self.places, self.fixed = {}, [], set()
        listed = subprocess.run(["git", "ls-files", "-co", "--exclude-standard"], cwd=ROOT, check=True,
                                capture_output=True, text=True).stdout
        for name in listed.splitlines():
            if (ROOT / name).exists():
                (self.work / name).parent.mkdir(parents=True, exist_ok=True)
                shutil.copy2(ROOT / name, self.work / name)
        for path in sorted((self.work / "src").rglob("*.rs")):
            name = str(path.relative_to(self.work))
            if not name.startswith(tuple(part.split(","))):
                continue
            whole = path.read_text()
            self.sources[name] = whole
            text = whole.split("#[cfg(test)]")[0]
            for start, end, kind, constant in places(text):
                if kind in kinds or "all" in kinds:
                    line = text.count("\n", 0, start)
                    self.places.append((name, line + 1, start, end, kind, text.splitlines()[line].strip()))
                    if constant:
                        self.fixed.add(len(self.places) - 1)
        library = self.work / "src/lib.rs"
        text = library.read_text()
        if modules:
            # Less to build: only the modules that the tests need, and a program that does nothing.
            text = "//! Part of the library.\n" + "".join(f"#[allow(dead_code)]\npub mod {m};\n" for m in modules)
            (self.work / "src/main.rs").write_text("fn main() {}\n")
        library.write_text(text + "\nmod changed;\n")
        (self.work / "src/changed.rs").write_text(SWITCH)

    def write(self, names=None):
        """Writes the source with every place that compiles so put through its function."""
        for name in names or self.sources:
            text, out, last = self.sources[name], [], 0
            for i, (file, _, start, end, kind, _) in enumerate(self.places):
                if file != name or i in self.fixed:
                    continue
                old = text[start:end]
                if kind == "numbers":
                    call = f"crate::changed::{'decimal' if is_decimal(old) else 'whole'}({i}, {old})"
                elif old == "&&":
                    call = f"&& !crate::changed::is({i}) &&"
                else:
                    call = f"{old} crate::changed::" + BEHIND[old][1].format(i)
                out += [text[last:start], call]
                last = end
            (self.work / name).write_text("".join(out) + text[last:])

    def cargo(self, *arguments):
        return subprocess.run(["cargo", *arguments], cwd=self.work, capture_output=True, text=True,
                              env={**os.environ, "CARGO_TARGET_DIR": self.target, "RUSTC_WRAPPER": ""})

    def settle(self):
        """Takes back what does not compile, until all of it does: first what is no Rust, file by file."""
        self.write()
        for name in self.sources:
            while True:
                read = subprocess.run(["rustfmt", "--edition", "2024", "--config", "skip_children=true", "--emit",
                                       "stdout", name], cwd=self.work, capture_output=True, text=True)
                found = re.findall(r"^ *--> .*?:(\d+):(\d+)", read.stderr, re.M)
                if read.returncode == 0 or not found or not sum(self.take_back(name, int(n), int(c)) for n, c in found):
                    break
                self.write([name])
        for _ in range(40):
            found = self.cargo("check", "--lib", "--message-format=json")
            if found.returncode == 0:
                return
            taken = 0
            for line in found.stdout.splitlines():
                message = json.loads(line).get("message") or {}
                for s in message.get("spans", []) if message.get("level") == "error" else []:
                    if s["is_primary"]:
                        taken += self.take_back(s["file_name"], s["line_start"], s["column_start"], s["column_end"])
            if not taken:
                said = [json.loads(line).get("message") or {} for line in found.stdout.splitlines()]
                sys.exit("the changed source does not compile:\n" + "\n".join(m.get("rendered") or "" for m in said))
            self.write()
        sys.exit("the changed source still does not compile")

    def take_back(self, name, line, column, end=None):
        """Leaves alone the place an error names; else the nearest before it; else all of its line."""
        if name not in self.sources:
            return 0
        lines = (self.work / name).read_text().splitlines()
        text = lines[line - 1] if line <= len(lines) else ""
        calls = [(m.start() + 1, m.end() + 1, int(m[1])) for m in re.finditer(r"crate::changed::\w+\((\d+)[,)]", text)]
        within = [i for a, b, i in calls if a < (end or column + 1) + 2 and b > column - 2]
        before = [i for a, _, i in calls if a <= column][-1:]
        chosen = set(within or before or [i for *_, i in calls]) - self.fixed
        if not chosen:
            # An expression of several lines: what lies on the line above and below.
            for other in (line - 2, line):
                if 0 <= other < len(lines):
                    chosen |= {int(i) for i in re.findall(r"crate::changed::\w+\((\d+)[,)]", lines[other])} - self.fixed
        self.fixed |= chosen
        return len(chosen)

    def said(self, place):
        """How a survivor is written."""
        name, line, start, end, kind, text = self.places[place]
        return f"survived  {name}:{line}  {kind}  {self.sources[name][start:end]}  in  {text}"

    def programs(self, tests):
        """The test programs, built."""
        built = self.cargo("test", "--no-run", "--message-format=json", *[a for t in tests for a in ("--test", t)])
        if built.returncode != 0:
            self.why = built.stderr[-3000:]
            return None
        artifacts = [json.loads(line) for line in built.stdout.splitlines()]
        found = {a["target"]["name"]: a["executable"] for a in artifacts if a.get("executable") and a["profile"]["test"]}
        return {t: found[t] for t in tests}

    def notices(self, programs, skip, place=None):
        """The first test program that fails, if one does."""
        env = {**os.environ, "CARGO_MANIFEST_DIR": str(self.work), "PROPTEST_RNG_SEED": "1", "PROPTEST_CASES": "16"}
        if place is not None:
            env[VARIABLE] = str(place)
        skipped = [a for s in skip for a in ("--skip", s)]
        for name, program in programs.items():
            try:
                run = subprocess.run([program, "-q", *skipped], cwd=self.work, env=env, capture_output=True, timeout=120)
            except subprocess.TimeoutExpired:
                return name
            if run.returncode != 0:
                return name
        return None

    def rebuilt(self, place, tests, skip):
        """What notices a number that is changed in the source itself."""
        name, _, start, end, *_ = self.places[place]
        text = self.sources[name]
        (self.work / name).write_text(text[:start] + written_changed(text[start:end]) + text[end:])
        programs = self.programs(tests)
        by = "the compiler" if programs is None else self.notices(programs, skip)
        self.write([name])
        return by


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--in", dest="part", default="src/rules", help="files whose path begins so, with commas")
    parser.add_argument("--kinds", default="numbers", help="kinds of change, with commas, or all")
    parser.add_argument("--tests", default="rules,limit_state,evidence", help="tests, by name, with commas")
    parser.add_argument("--then", default="", help="more tests for what those let through")
    parser.add_argument("--skip", default="", help="tests left out because they are slow, by part of their name")
    parser.add_argument("--every", type=int, default=1, help="only every so many places")
    parser.add_argument("--start", type=int, default=0, help="from this one on")
    parser.add_argument("--again", help="only what survived in an output of this script, wherever its lines are now")
    parser.add_argument("--minutes", type=float, default=1e9, help="ends after so long, and says how far it came")
    parser.add_argument("--constants", action="store_true", help="numbers in constants too: a build each")
    parser.add_argument("--modules", default="", help="only these of the library are built, with commas")
    parser.add_argument("--target", default=str(ROOT / "target"), help="where it is built")
    asked = parser.parse_args()
    tests = [t for t in (asked.tests + "," + asked.then).split(",") if t]
    skip = SKIP + [s for s in asked.skip.split(",") if s]
    with tempfile.TemporaryDirectory(prefix="changes-") as work:
        tree = Tree(work, asked.part, asked.kinds.split(","), asked.target,
                    [m for m in asked.modules.split(",") if m])
        tree.settle()
        programs = tree.programs(tests)
        if programs is None:
            sys.exit("the tests do not build:\n" + tree.why)
        begun = time.monotonic()
        if broken := tree.notices(programs, skip):
            sys.exit(f"{broken} fails before anything is changed")
        tree_places, once = len(tree.places), time.monotonic() - begun
        chosen = range(tree_places)[asked.start::asked.every]
        if asked.again:
            before = {re.sub(r":\d+  ", "  ", line, count=1) for line in open(asked.again) if line.startswith("survived")}
            chosen = [i for i in chosen if re.sub(r":\d+  ", "  ", tree.said(i), count=1) + "\n" in before]
        print(f"{tree_places} places, {len(chosen)} chosen; {once:.1f} s for the tests", flush=True)
        counts = collections.defaultdict(collections.Counter)
        for done, i in enumerate(chosen):
            if time.monotonic() - begun > 60 * asked.minutes:
                print(f"ended after {done} of {len(chosen)}")
                break
            name, kind = tree.places[i][0], tree.places[i][4]
            if i not in tree.fixed:
                by = tree.notices(programs, skip, i)
            elif asked.constants and kind == "numbers":
                by = tree.rebuilt(i, tests, skip)
            else:
                counts[name][kind, "left alone"] += 1
                continue
            counts[name][kind, "noticed" if by else "survived"] += 1
            if not by:
                print(tree.said(i), flush=True)
        for name, found in sorted(counts.items()):
            print(name, dict(collections.Counter({f"{k} {w}": n for (k, w), n in found.items()})))
        for what in ("noticed", "survived", "left alone"):
            print(what, sum(n for found in counts.values() for (_, w), n in found.items() if w == what))


if __name__ == "__main__":
    main()
