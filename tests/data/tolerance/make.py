"""Writes factors.json: k of the one-sided tolerance limit of a normal distribution.

k = t(confidence; n - 1, z sqrt(n)) / sqrt(n), with the noncentral t of SciPy and z the normal quantile of the proportion.
Confidence 75 %, proportion 95 %.
"""

import json
import math

import scipy
from scipy.stats import nct, norm


def factor(n, confidence=0.75, proportion=0.95):
    return nct.ppf(confidence, n - 1, norm.ppf(proportion) * math.sqrt(n)) / math.sqrt(n)


sizes = [*range(3, 31), 35, 40, 45, 50, 60, 70, 80, 90, 100]
stored = {"scipy": scipy.__version__, "factors": [[n, round(float(factor(n)), 6)] for n in sizes]}
with open("factors.json", "w") as out:
    json.dump(stored, out)
    out.write("\n")
