"""Nested analysis of variance with unequal series, recomputed from projections instead of sums.

Mean squares are quadratic forms y'Ay, A from the difference of projections on the columns of groups and of series; their expectations
are traces, E y'Ay = σ_e² tr A + σ_b² tr(A Z Z'). Written from the definition of the model, not from the formulas of the library.
Run: python3 nested-analysis.py (numpy, scipy); prints the numbers of nested-analysis.test.ts.
"""
import numpy as np
from scipy.stats import f

UNEQUAL = {
    "a": [[10.1, 10.9, 9.4], [12.0, 11.2, 11.8, 12.5], [9.0, 9.9], [10.4, 11.3, 10.8, 9.7, 10.2]],
    "b": [[8.6, 9.3, 8.9], [11.0], [12.9, 12.2, 13.1, 12.4, 12.6, 12.8]],
    "c": [[8.1, 8.4], [7.2, 8.0, 7.7], [9.9, 9.3], [8.8]],
}
# The large series of a group lies far from its others: the error is extrapolated beyond MS_series (r > 1).
HEAVY = {"a": [[10.2, 9.7, 10.1, 9.9, 10.4, 9.8, 10.0, 10.3], [12.0], [8.5]], "b": [[11.0], [9.2], [13.1, 12.8, 13.0, 12.6, 13.3, 12.9, 13.2]]}


def projection(columns):
    q, r = np.linalg.qr(columns)
    return q @ q.T


def nested(groups):
    y = np.array([v for g in groups.values() for s in g for v in s])
    group = np.array([i for i, g in enumerate(groups.values()) for s in g for _ in s])
    series = np.array([j for j, s in enumerate(s for g in groups.values() for s in g) for _ in s])
    one = np.ones((len(y), 1))
    x = (group[:, None] == np.unique(group)).astype(float)
    z = (series[:, None] == np.unique(series)).astype(float)
    p1, pg, ps = projection(one), projection(x), projection(z)
    between, among, within = pg - p1, ps - pg, np.eye(len(y)) - ps
    ms, coefficient, degrees = [], [], []
    for a in (between, among, within):
        d = np.trace(a)
        ms.append(y @ a @ y / d)
        coefficient.append(np.trace(a @ z @ z.T) / d)
        degrees.append(d)
    r = coefficient[0] / coefficient[1]
    parts = np.array([r * ms[1], (1 - r) * ms[2]])
    error = parts.sum()
    nu = error**2 / (parts[0] ** 2 / degrees[1] + parts[1] ** 2 / degrees[2])
    statistic = ms[0] / error
    return [*ms, r, statistic, nu, f.sf(statistic, degrees[0], nu)]


for name, groups in (("UNEQUAL", UNEQUAL), ("HEAVY", HEAVY)):
    print(name, " ".join(f"{v:.12g}" for v in nested(groups)))
