#!/usr/bin/env python3
"""What two Eurocode libraries answer to the same questions as the rules; stored beside this file.

    tests/limit_state/libraries/make.py            writes the stored results anew
    tests/limit_state/libraries/make.py --check    says whether they still are what the libraries answer

Needs Python 3.12 and pip. The libraries go into an environment of their own in a temporary folder
(`--environment DIR` keeps it), in the versions pinned here and without the dependencies that they do not use for this.
They are needed to make the results, not to test against them.

Where a library is known to be wrong its answer is kept out: `KEPT_OUT` says when and why, and
`kept_out.csv` how many answers that were and what the first of them is.
"""

import argparse
import csv
import io
import itertools
import os
import pathlib
import random
import subprocess
import sys
import tempfile
import venv

HERE = pathlib.Path(__file__).resolve().parent
PINNED = ["desssign==0.0.14", "framesss==0.0.17", "aenum==3.1.17", "eurocodepy==2027.0.12", "numpy==1.26.4",
          "scipy==1.13.1"]
DURATIONS = ["permanent", "long", "medium", "short", "instantaneous"]

# library, table, when its answer is kept out, why.
KEPT_OUT = [
    ("eurocodepy", "", lambda q: q.get("class") in ("C30", "D40", "GL24h"),
     "its values of C30, D40 and GL24h are not those of EN 338:2016 and EN 14080"),
    ("eurocodepy", "kdef", lambda q: q["material"] == "plywood",
     "kdef of plywood is that of solid timber there; Table 3.2 has 0.80, 1.00 and 2.50"),
    ("eurocodepy", "size", lambda q: q["material"] == "glued laminated",
     "exponent 0.04 and limits 0.5 and 2 on kh of glued laminated timber, where (3.2) has 0.1 and 1.0 to 1.1"),
    ("eurocodepy", "size", lambda q: q["density"] > 700,
     "kh also above 700 kg/m3, where (3.1) stops"),
    ("eurocodepy", "combined", lambda q: q["density"] > 700 and min(q["b"], q["h"]) < 150,
     "kh also above 700 kg/m3, where (3.1) stops"),
    ("eurocodepy", "lateral", lambda q: q["h"] < 5 * q["b"],
     "0.052 for 0.0525 in the torsion constant of a rectangle; under a part in ten million from h = 5 b on"),
    ("eurocodepy", "combined", lambda q: q["equation"] == "6.33" and q["Mz"] != 0,
     "adds km times the bending about z to (6.33), which is for bending about y alone"),
    ("desssign", "size", lambda q: q["h"] > 150,
     "kh falls below 1 above 150 mm, where (3.1) stops"),
    ("desssign", "column", lambda q: q["λrel"] <= 0.3,
     "kc above 1 below a relative slenderness of 0.3, where 6.3.2(2) has no buckling"),
    ("desssign", "combined", lambda q: q["equation"] == "6.23/6.24",
     "squares the compression in (6.23) and (6.24)"),
    ("desssign", "combined", lambda q: q["equation"] == "6.35" and q["λrel"] <= 0.3,
     "kc above 1 below a relative slenderness of 0.3, where 6.3.2(2) has no buckling"),
]
EQUATIONS = "6.11/6.12", "6.17/6.18", "6.19/6.20", "6.23/6.24", "6.33", "6.35"


def questions():
    """Every question, by table, whoever may answer it. Drawn, but always the same."""
    draw = random.Random(1995)
    soft = ["C14", "C16", "C18", "C20", "C22", "C24", "C27", "C30", "C35", "C40", "C45", "C50"]
    hard = ["D18", "D24", "D27", "D30", "D35", "D40", "D45", "D50", "D55", "D60", "D65", "D70", "D75", "D80"]
    breadth = lambda: draw.choice([20, 22, 25, 28, 32, 38, 45, 48, 60, 63, 70, 75, 80, 90, 100, 120, 140])
    depth = lambda: draw.choice([18, 20, 25, 38, 45, 60, 70, 90, 95, 98, 120, 140, 145, 149, 150, 151, 170, 195, 220, 240])
    made = {
        "design": [dict(zip(("class", "service", "duration"), q)) for q in itertools.product(soft + hard, [1, 3], DURATIONS)],
        "kmod": [dict(zip(("material", "service", "duration"), q)) for q in itertools.product(
            ["solid timber", "glued laminated", "veneer lumber", "plywood"], [1, 2, 3], DURATIONS)],
        "kdef": [dict(zip(("material", "service"), q)) for q in itertools.product(
            ["solid timber", "glued laminated", "veneer lumber", "plywood"], [1, 2, 3])],
        "size": [{"material": "solid timber", "class": c, "h": h} for c in ("C16", "C24", "D30", "D60", "D70")
                 for h in [*range(12, 40, 3), 40, 40.3, 40.4, 41, *range(45, 150, 8), 149, 150, 151, *range(160, 260, 20)]]
        + [{"material": "glued laminated", "class": "GL28h", "h": h} for h in range(80, 700, 40)],
        "column": [], "lateral": [], "combined": [], "shear": [],
    }
    for c in soft + hard:
        for _ in range(14):
            b, h = breadth(), depth()
            made["column"].append({"class": c, "b": b, "h": h, "ℓ": round(draw.uniform(2, 190) * h / 12**0.5)})
        for _ in range(14):
            made["shear"].append({"class": c, "service": draw.choice([1, 2, 3]), "duration": draw.choice(DURATIONS),
                                  "b": breadth(), "h": depth(), "V": round(draw.uniform(0.2, 8), 2)})
    for c in soft + hard:
        for _ in range(20):
            b = breadth()
            made["lateral"].append({"class": c, "b": b, "h": draw.choice([2, 3, 5, 6, 8]) * b, "ℓef": draw.randrange(400, 9000, 50)})
        for equation in EQUATIONS:
            for turn in range(6):
                b, h = breadth(), depth()
                alone = equation in ("6.33", "6.35") and turn % 3 != 0
                made["combined"].append({
                    "equation": equation, "class": c, "service": draw.choice([1, 2, 3]), "duration": draw.choice(DURATIONS),
                    "b": b, "h": h, "ℓ": round(draw.uniform(2, 120) * min(b, h) / 12**0.5),
                    "N": 0 if equation in ("6.11/6.12", "6.33") else round(draw.uniform(0.5, 30), 1),
                    "My": round(b * h * h * draw.uniform(0.1, 2) / 1e6, 4),
                    "Mz": 0 if alone or equation == "6.35" else round(h * b * b * draw.uniform(0.1, 2) / 1e6, 4)})
    return made


class Desssign:
    """Lengths in metres, forces in newtons."""

    def __init__(self):
        from desssign.wood import constants, wood_material, wood_member, wood_section
        from desssign.wood.design_checks import design_check
        from desssign.wood.strength_classes import WOOD_STRENGTH_CLASSES
        self.constants, self.checks, self.classes = constants, design_check, WOOD_STRENGTH_CLASSES
        self.material, self.rectangle = wood_material.WoodMaterial, wood_section.WoodRectangularSection

        class Alone(wood_member.WoodMember1D):
            """A member without the frame it usually is part of."""

            length = None

            def __init__(self, section, length):
                self.section, self.length = section, length
                self.is_prevented_lateral_displacement_at_compressive_edge = False

        self.member = Alone

    def knows(self, q):
        return q.get("class", "C24") in self.classes and q.get("material", "solid timber") in self.constants.MODIFICATION_FACTORS

    def wood(self, q):
        return self.material(q["class"], q.get("service", 1))

    def section(self, q):
        return self.rectangle("", q["b"] / 1e3, q["h"] / 1e3, self.wood(q))

    def strength(self, q, wood, symbol):
        return wood.get_design_value(getattr(wood, symbol), self.duration(q))

    @staticmethod
    def duration(q):
        return {"permanent": "permanent", "long": "long-term", "medium": "medium-term", "short": "short-term",
                "instantaneous": "instantaneous"}[q["duration"]]

    def density(self, name):
        return self.classes[name]["rho_k"]

    def design(self, q):
        wood = self.wood(q)
        return {f: self.strength(q, wood, s) / 1e6 for f, s in
                (("fm", "f_mk"), ("ft", "f_t0k"), ("fc", "f_c0k"), ("fc90", "f_c90k"), ("fv", "f_vk"))}

    def kmod(self, q):
        return {"kmod": self.constants.get_modification_factor(q["material"] + " timber" * (q["material"] == "glued laminated"),
                                                               q["service"], self.duration(q))}

    def kdef(self, q):
        return {"kdef": self.constants.get_deformation_factor(q["material"], q["service"])}

    def kh(self, q, h):
        if h > 150:
            return 1.0
        # This one formula of it is in millimetres.
        return self.rectangle("", h, h, self.wood(q)).get_k_h("bending")

    def size(self, q):
        return {"kh": self.rectangle("", q["h"], q["h"], self.wood(q)).get_k_h("bending")}

    def column(self, q):
        m = self.member(self.section(q), q["ℓ"] / 1e3)
        return {"λrel": m.lambda_rel_y, "kc": m.k_cy}

    def relative(self, q):
        """The smaller of both relative slendernesses."""
        m = self.member(self.section(q), q["ℓ"] / 1e3)
        return min(m.lambda_rel_y, m.lambda_rel_z)

    def lateral(self, q):
        # Its length is fixed to 0.9 L + 2 h.
        m = self.member(self.section(q), (q["ℓef"] - 2 * q["h"]) / 0.9 / 1e3)
        return {"σcrit": m.sigma_m_crit / 1e6, "kcrit": m.k_crit}

    def combined(self, q):
        import numpy
        s, wood = self.section(q), self.wood(q)
        axial, my, mz = (numpy.array([v * 1e3]) for v in (q["N"], q["My"], q["Mz"]))
        fm = self.strength(q, wood, "f_mk")
        fy, fz = fm * self.kh(q, q["h"]), fm * self.kh(q, q["b"])
        sy, sz, sx = my / s.W_y, mz / s.W_z, axial / s.area_x
        ft, fc = self.strength(q, wood, "f_t0k"), self.strength(q, wood, "f_c0k")
        m = self.member(s, q["ℓ"] / 1e3)
        check = {
            "6.11/6.12": lambda: self.checks.BendingCheck(sy, sz, fy, fz, s.k_m),
            "6.17/6.18": lambda: self.checks.CombinedBendingAndAxialTensionCheck(sx, sy, sz, ft, fy, fz, s.k_m),
            "6.19/6.20": lambda: self.checks.CombinedBendingAndAxialCompressionCheck(-sx, sy, sz, fc, fy, fz, s.k_m),
            "6.23/6.24": lambda: self.checks.ColumnStabilityCheck(-sx, sy, sz, fc, fy, fz, m.k_cy, m.k_cz, s.k_m),
            "6.33": lambda: None,
            "6.35": lambda: self.checks.BeamStabilityCheck(-sx, sy, fc, fy, 1.0, m.k_cz),
        }[q["equation"]]()
        return check and {"utilisation": float(check.usages[0])}

    def shear(self, q):
        s, wood = self.section(q), self.wood(q)
        tau = 3 * q["V"] * 1e3 / (2 * s.k_cr * s.area_z)
        return {"utilisation": float(self.checks.ShearCheck(tau, self.strength(q, wood, "f_vk")).usages)}


class Eurocodepy:
    """Lengths of sections in metres, of members in millimetres; kilonewtons."""

    KINDS = {"solid timber": "timber", "glued laminated": "glulam", "veneer lumber": "lvl", "plywood": "plywood_3"}

    def __init__(self):
        import eurocodepy
        from eurocodepy.ec5 import materials
        from eurocodepy.ec5.uls import bending, shear
        from eurocodepy.utils.crosssection import RectangularCrossSection
        self.materials, self.bending, self.sheared, self.rectangle = materials, bending, shear, RectangularCrossSection
        self.parameters = eurocodepy.TimberParams

    def knows(self, q):
        kinds = self.parameters["kmod"] if "duration" in q else self.parameters["kdef"]
        return q.get("class", "C24") in self.materials.dbase.TimberGrades and self.KINDS[q.get("material", "solid timber")] in kinds

    def wood(self, q):
        return self.materials.Timber(q["class"])

    def section(self, q):
        return self.rectangle(q["b"] / 1e3, q["h"] / 1e3)

    def place(self, q):
        return {"service_class": self.materials.ServiceClass[f"SC{q['service']}"],
                "load_duration": self.materials.LoadDuration(DURATIONS.index(q["duration"]))}

    def density(self, name):
        return self.materials.Timber(name).rhok

    def design(self, q):
        d = self.wood(q).design_values(**self.place(q))
        return {"fm": d["fmd"], "ft": d["ft0d"], "fc": d["fc0d"], "fc90": d["fc90d"], "fv": d["fvd"]}

    def kmod(self, q):
        return {"kmod": self.parameters["kmod"][self.KINDS[q["material"]]][f"SC{q['service']}"][DURATIONS.index(q["duration"])]}

    def kdef(self, q):
        return {"kdef": self.parameters["kdef"][self.KINDS[q["material"]]][f"SC{q['service']}"]}

    def size(self, q):
        return {"kh": self.wood(q).k_h(q["h"] / 1e3)}

    def column(self, q):
        y, _ = self.bending.calc_k_c(q["ℓ"], q["ℓ"], self.section(q), self.wood(q))
        return {"λrel": None, "kc": y}

    def relative(self, q):
        return None

    def lateral(self, q):
        section, wood = self.section(q), self.wood(q)
        # MPa times m3 is MN m.
        critical = self.bending.calc_mcr(q["ℓef"], section, wood) / section.bend_mod_y
        return {"σcrit": critical, "kcrit": self.bending.calc_k_m(q["ℓef"], section, wood)}

    def combined(self, q):
        pull = q["equation"] in ("6.11/6.12", "6.17/6.18", "6.33")
        found = self.bending.check_bending_with_normal(
            q["N"] if pull else -q["N"], q["My"], q["Mz"], self.section(q), self.wood(q), q["ℓ"], q["ℓ"], 0.0, **self.place(q))
        c = found["checks"]
        return {"utilisation": {"6.23/6.24": c["check3"], "6.33": c["check4"], "6.35": c["check4"]}.get(
            q["equation"], max(c["check1"], c["check2"]))}

    def shear(self, q):
        found = self.sheared.check_shear_with_torsion(0.0, q["V"], 0.0, self.section(q), self.wood(q), **self.place(q))
        return {"utilisation": found["checks"]["check_vz"]}


def answered():
    """Every table as text, by file name, and what was kept out."""
    files, out = {}, {}
    libraries = [("desssign", Desssign()), ("eurocodepy", Eurocodepy())]
    for table, asked in questions().items():
        rows = []
        for by, library in libraries:
            for q in asked:
                answer = getattr(library, table)(q) if library.knows(q) else None
                if not answer:
                    continue
                known = dict(q)
                if "class" in q:
                    known["density"] = library.density(q["class"])
                if table in ("column", "combined"):
                    known["λrel"] = answer["λrel"] if table == "column" else library.relative(q)
                reason = next((why for who, where, when, why in KEPT_OUT
                               if who == by and where in ("", table) and when(known)), None)
                if reason:
                    said = ", ".join(f"{k} {v}" for k, v in q.items()) + ": " + ", ".join(
                        f"{k} = {v:.6g}" for k, v in answer.items() if v is not None)
                    out.setdefault((by, table, reason), []).append(said)
                else:
                    digits = 6 if table == "lateral" and by == "eurocodepy" else 10
                    rows.append([by, *q.values(), *("" if v is None else f"{v:#.{digits}g}" for v in answer.values())])
                    heads = ["by", *q, *(f"= {k}" for k in answer)]
        files[table + ".csv"] = written(heads, rows)
    files["kept_out.csv"] = written(["by", "table", "why", "answers", "the first"],
                                    [[*key, len(said), said[0]] for key, said in out.items()])
    return files


def written(heads, rows):
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows([heads, *rows])
    return text.getvalue()


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true", help="compare, and write nothing")
    parser.add_argument("--environment", help="where the libraries are, or are to be put")
    parser.add_argument("--inside", action="store_true", help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if not asked.inside:
        with tempfile.TemporaryDirectory() as temporary:
            place = pathlib.Path(asked.environment or temporary)
            python = place / "bin" / "python"
            if not python.exists():
                venv.create(place, with_pip=True)
                subprocess.run([python, "-m", "pip", "install", "--quiet", "--no-deps", *PINNED], check=True)
            again = [a for a in sys.argv[1:] if a == "--check"]
            sys.exit(subprocess.run([python, __file__, "--inside", *again], env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"}).returncode)
    differing = 0
    for name, text in answered().items():
        place = HERE / name
        if asked.check:
            same = place.exists() and place.read_text() == text
            differing += not same
            print(f"{name}: {text.count(chr(10)) - 1} rows, {'as stored' if same else 'NOT as stored'}")
        else:
            place.write_text(text)
            print(f"{name}: {text.count(chr(10)) - 1} rows")
    sys.exit(bool(differing))


if __name__ == "__main__":
    main()
