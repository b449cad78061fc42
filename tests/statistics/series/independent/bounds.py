"""Seeded data and their bounds with a series effect. Run: python3 bounds.py > bounds.json"""
import json
import sys
import numpy as np
from scipy.stats import nct, norm
from law import bounds, known

rng = np.random.default_rng(1992)
Z = norm.ppf(0.95)


def sizes(pattern, g):
    if pattern == "all 3":
        return [3] * g
    if pattern == "1 or 10":
        drawn = np.where(rng.random(g) < 0.5, 1, 10)
        drawn[:2] = (1, 10)
        return drawn.tolist()
    low, high = (1, 10) if pattern == "1 to 10" else (1, 3)
    drawn = rng.integers(low, high + 1, g)
    drawn[0] = max(2, drawn[0])
    return drawn.tolist()


def draw(counts, icc, mean=10.0):
    return [np.round(mean + np.sqrt(icc) * rng.normal() + np.sqrt(1 - icc) * rng.normal(size=n), 3).tolist() for n in counts]


def line(one):
    return json.dumps(one, separators=(",", ":"))


def numbers(law, found):
    return {"rhoMean": round(law["rho"], 8), "weightAtZero": float(f"{law['zero']:.8g}"), "bounds": [[round(v, 9) for v in row] for row in found]}


def case(name, cells):
    law, found = bounds(cells)
    finer = bounds(cells, panels=1200, reach=75.0)[1] if len(cells[0]) < 60 else found
    assert np.max(np.abs(np.array(found) - finer)) < 1e-9, name
    return {"name": name, "cells": cells, **numbers(law, found), "knownRho": {str(r): round(known(cells, r), 9) for r in (0, 0.5, 0.9)}}


def checks(cells):
    """At rho known as 0 and one cell the bound is the mean less the ordinary factor times the SD."""
    y = np.concatenate(cells[0])
    n = len(y)
    k = nct.ppf(0.9, n - 1, Z * np.sqrt(n)) / np.sqrt(n)
    assert abs(known(cells, 0) - (y.mean() - k * y.std(ddof=1))) < 1e-7, n


PATTERNS = ["all 3", "1 to 10", "1 or 10", "1 to 3"]
cases = []
for i, g in enumerate([3, 5, 8, 12, 20, 40, 88, 100, 154, 200]):
    for j, icc in enumerate([0, 0.3, 0.6, 0.85, 0.95]):
        pattern = PATTERNS[(i + j) % 4]
        cases.append(case(f"1 cell, {g} series of {pattern}, ICC {icc}", [draw(sizes(pattern, g), icc)]))
        checks(cases[-1]["cells"])
for c in (2, 4, 8):
    for icc in (0, 0.3, 0.6, 0.95):
        cells = [draw(sizes(PATTERNS[int(rng.integers(4))], int(rng.integers(3, 13))), icc, 8.0 + k) for k in range(c)]
        cases.append(case(f"{c} cells, ICC {icc}", cells))

base = [draw(sizes("1 to 10", 88), 0.5)]
law, found = bounds(base)
without = []
for left in range(0, 80, 4):
    rest = [base[0][:left] + base[0][left + 1:]]
    law_left, found_left = bounds(rest)
    without.append({"left": left, "bounds": [round(v, 9) for v in found_left[0]]})
moved = np.abs(np.array([w["bounds"] for w in without]) - found[0]).max()
print(f"largest move on leaving one of 88 series out: {moved:.4f}", file=sys.stderr)

print('{"fractile":0.05,"probabilities":[0.1,0.5,0.9],"cases":[\n' + ",\n".join(map(line, cases)) + '\n],"leaveOneOut":{"series":' + line(base[0])
      + ',"bounds":' + line([round(v, 9) for v in found[0]]) + ',"without":[\n' + ",\n".join(map(line, without)) + "\n]}}")
