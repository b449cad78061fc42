"""Band along a line of tests in series, recomputed with matrices and the noncentral t law.

Written from the docstring of lineBySeries: generalised least squares at each correlation with V = (1 - rho) I + rho Z Z', the law of
a + m x - z sigma behind the exact factor, P(a + m x - z sigma >= L) = F_nct(sqrt(n') (fit - L) / s; n - 2, z sqrt(n')), mixed over t = ln(1 + n0 rho / (1 - rho))
uniform above 0 with a weight sqrt(pi / 2) sqrt(2 / between + 2 / within) at t = 0; between = rank [X Z] - 2, within = n - rank [X Z],
n0 = tr(Z' M Z) / between with M the projection off the columns of X (Henderson's third method).
Run: python3 line-by-series.py (numpy, scipy); prints the numbers of line-by-series.test.ts.
"""
import numpy as np
from scipy.optimize import brentq
from scipy.stats import nct, norm

Y = [[-0.02, 0.05, -0.11], [0.08, 0.15], [-0.14, -0.05, -0.1, -0.02], [0.01], [0.12, 0.2, 0.09], [0.02, -0.07]]
X = {"same": [[10] * 3, [10] * 2, [16] * 4, [16], [25] * 3, [25] * 2], "mixed": [[10, 12, 16], [10, 25], [16, 16, 20, 25], [12], [25, 20, 10], [25, 12]]}


def band(y, x, grid, fractile, confidence):
    series = np.array([j for j, one in enumerate(y) for _ in one])
    y, x = np.array([v for one in y for v in one]), np.log([v for one in x for v in one])
    n, k = len(y), series.max() + 1
    z_series = (series[:, None] == np.arange(k)).astype(float)
    design = np.column_stack([np.ones(n), x])
    both = np.linalg.matrix_rank(np.column_stack([design, z_series]))
    residual_maker = np.eye(n) - design @ np.linalg.pinv(design)
    n0 = np.trace(z_series.T @ residual_maker @ z_series) / (both - 2)
    at = np.column_stack([np.ones(len(grid)), np.log(grid)])
    z = -norm.ppf(fractile)

    def fit(t):
        ratio = np.expm1(t) / n0
        rho = ratio / (1 + ratio)
        v = (1 - rho) * np.eye(n) + rho * z_series @ z_series.T
        inverse = np.linalg.inv(v)
        information = design.T @ inverse @ design
        b = np.linalg.solve(information, design.T @ inverse @ y)
        r = y - design @ b
        q = r @ inverse @ r
        log = -0.5 * (np.linalg.slogdet(v)[1] + np.linalg.slogdet(information)[1] + (n - 2) * np.log(q))
        return log, at @ b, np.sqrt(q / (n - 2)), 1 / np.einsum("ij,jk,ik->i", at, np.linalg.inv(information), at)

    t = np.linspace(0, 20, 8001)
    step = t[1] - t[0]
    fits = [fit(one) for one in t]
    log = np.array([one[0] for one in fits])
    weight = np.exp(log - log.max()) * np.r_[step / 2, np.full(len(t) - 2, step), step / 2]
    weight[0] += np.exp(log[0] - log.max()) * np.sqrt(np.pi / 2) * np.sqrt(2 / (both - 2) + 2 / (n - both))
    weight /= weight.sum()
    keep = weight > 1e-9
    out = []
    for g in range(len(grid)):
        def excess(low):
            return sum(w * nct.cdf(np.sqrt(m[g]) * (f[g] - low) / s, n - 2, z * np.sqrt(m[g])) for w, (_, f, s, m) in zip(weight[keep], [one for one, k_ in zip(fits, keep) if k_])) - confidence
        out.append(brentq(excess, -3, 0.5, xtol=1e-10))
    return out


for name, x in X.items():
    print(name, " ".join(f"{v:.8f}" for v in band(Y, x, [10, 16, 25], 0.05, 0.9)))
