"""Verdicts of invented bond campaigns, recomputed without the library.

Capacity in bond of a single bar far from edges, ACI 318-19 17.6.5.2.1 (from memory):
N_ba = tau pi d h. Lower and upper bound of the 5 % fractile, each one-sided at 90 %, of a normal
sample: mean - K s with the exact factor K = t'(p; n - 1, z sqrt(n)) / sqrt(n), t' noncentral
(Owen 1968, from memory). Reads campaigns as JSON, writes n, mean, lower, upper, verdict by material.
"""
import json
import math
import sys

from scipy.stats import nct, norm


def group(tests):
    ratios = [
        1000 * t["load_kN"] / (math.pi * t["diameter_mm"] * t["embedment_mm"] * t["bond_MPa"])
        for t in tests
    ]
    n = len(ratios)
    mean = sum(ratios) / n
    s = math.sqrt(sum((r - mean) ** 2 for r in ratios) / (n - 1))

    def bound(confidence):
        delta = norm.ppf(0.95) * math.sqrt(n)
        return mean - float(nct.ppf(confidence, n - 1, delta)) / math.sqrt(n) * s

    lower, upper = bound(0.9), bound(0.1)
    verdict = "meets" if lower >= 1 else "falls short" if upper < 1 else "undecided"
    return {"n": n, "mean": mean, "lower": lower, "upper": upper, "verdict": verdict}


answers = []
for campaign in json.load(sys.stdin):
    materials = sorted({t["material"] for t in campaign})
    answers.append(
        {m: group([t for t in campaign if t["material"] == m]) for m in materials}
    )
json.dump(answers, sys.stdout)
