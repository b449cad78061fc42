"""The bound where some tests are lower bounds, by brute force over mu, ln s, t and every series' shift.
Run: python3 lower_bounds.py > lower_bounds.json (some minutes)"""
import json
import sys
import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.special import log_ndtr, ndtr, ndtri, sici
from scipy.stats import norm
from law import bounds, composite

Z = -ndtri(0.05)


class Data:
    """Failures and limits of each series."""

    def __init__(self, series):
        self.series = [(np.array([y for y, c in one if not c]), np.array([y for y, c in one if c])) for one in series]
        self.k = np.array([len(f) for f, _ in self.series if len(f)], float)
        g, n = len(self.k), self.k.sum()
        self.n0 = (n - (self.k ** 2).sum() / n) / (g - 1)
        self.mass = np.sqrt(np.pi / 2) * np.sqrt(2 / (g - 1) + 2 / (n - g))
        self.nu = n - 1


def log_chance(limits, mean, sd, rho, rest, s, failures, h):
    """ln E over the series' shift u of the chance that every limit is exceeded; u is normal (mean, sd) given the failures."""
    if len(limits) == 0:
        return 0.0
    spread = s * np.sqrt(rest)
    w = np.sqrt(rest / rho) if rho > 0 else np.inf
    if failures or w > 0.7:
        x = np.arange(-8.5, 8.5 + h / 2, h if failures else h / 4)
        weights = norm.pdf(x) * (x[1] - x[0])
        total = 0.0
        for xi, wi in zip(x, weights):
            at = mean + sd * xi * s
            total = total + wi * np.exp(sum(log_ndtr((at - c) / spread) for c in limits))
        return np.log(total)
    assert np.ptp(limits) == 0        # steep in u: by parts over y = (mean + sqrt(rho) s u - c) / spread
    m, total = len(limits), 0.0
    for y in np.arange(-9, 9 + h / 2, h):
        total = total + h * m * norm.pdf(y) * ndtr(y) ** (m - 1) * ndtr(-((limits[0] - mean) / (s * np.sqrt(rho)) + w * y))
    return np.log(total)


def log_likelihood(data, mu, s, rest, h=0.4):
    """ln likelihood at mu and s (arrays of one shape), 1 - rho = rest."""
    rho, total = 1 - rest, 0.0
    for fails, limits in data.series:
        k, mean, sd = len(fails), mu, np.sqrt(rho)
        if k:
            scale, y = rest + k * rho, fails.mean()
            total = total - k * np.log(s) - 0.5 * ((k - 1) * np.log(rest) + np.log(scale)) - 0.5 / s ** 2 * (((fails - y) ** 2).sum() / rest + k / scale * (y - mu) ** 2)
            mean, sd = mu + k * rho / scale * (y - mu), np.sqrt(rho * rest / scale)
        if rho == 0:
            total = total + sum(log_ndtr((mu - c) / s) for c in limits)
        else:
            total = total + log_chance(limits, mean, sd, rho, rest, s, k > 0, h)
    return total


def centre(data, rest):
    """Mean, s and W from the failures alone, where the grid is laid."""
    k, y = data.k, np.array([f.mean() for f, _ in data.series if len(f)])
    w = k / (rest + k * (1 - rest))
    mean = (w * y).sum() / w.sum()
    q = sum(((f - f.mean()) ** 2).sum() for f, _ in data.series if len(f)) / rest + (w * (y - mean) ** 2).sum()
    return mean, np.sqrt(q / data.nu), w.sum()


def posterior(data, step=1.0, panels=36, reach=26.0):
    """Nodes (mu, width of mu's grid, s) and weights."""
    t, dt = composite(0, reach, panels)
    rests, measures = np.concatenate([[1.0], data.n0 / (np.expm1(t) + data.n0)]), np.concatenate([[data.mass], dt])
    v, x = np.arange(-1.8, 4.2, 0.06 * step), np.arange(-10, 16, 0.3 * step)
    rows = []
    for rest, measure in zip(rests, measures):
        mean, s0, w = centre(data, rest)
        s = (s0 * np.exp(v))[:, None]
        width = s / np.sqrt(w)
        mu = mean + width * x
        rows.append((mu, width * (x[1] - x[0]), s, log_likelihood(data, mu, np.broadcast_to(s, mu.shape), rest) + np.log(measure) + np.log(width)))
    top = max(r[3].max() for r in rows)
    weights = [np.exp(r[3] - top) for r in rows]
    total = sum(w.sum() for w in weights)
    edges = max(max(w[:, 0].sum(), w[:, -1].sum(), w[0].sum(), w[-1].sum()) for w in weights) / total
    assert edges < 1e-7, edges
    assert weights[-1].sum() * reach / total < 1e-6
    flat = [np.concatenate([np.broadcast_to(r[i], r[0].shape).ravel() for r in rows]) for i in range(3)]
    weight = np.concatenate([w.ravel() for w in weights]) / total
    keep = weight > 1e-15
    return [f[keep] for f in flat], weight[keep], weights[0].sum() / total


def below(nodes, weight, limit):
    """P(mu - z s <= limit); mu's density is the cardinal series through its even grid."""
    mu, width, s = nodes
    return float(weight @ (0.5 + sici(np.pi * (limit + Z * s - mu) / width)[0] / np.pi))


def points(data, **grid):
    nodes, weight, zero = posterior(data, **grid)
    middle, wide = float(weight @ nodes[0]), float(weight @ np.minimum(nodes[2], 50))
    return [brentq(lambda limit: below(nodes, weight, limit) - share, middle - 80 * wide, middle + 5 * wide, xtol=1e-8) for share in (0.1, 0.5, 0.9)], zero


def draw(rng, counts, icc, limit, kind):
    series = []
    for n in counts:
        y = 10 + np.sqrt(icc) * rng.normal() + np.sqrt(1 - icc) * rng.normal(size=n)
        c = np.full(n, limit) if kind == "one limit" else limit + 0.5 * rng.normal(size=n)
        series.append([(round(float(min(a, b)), 3), bool(a > b)) for a, b in zip(y, c)])
    return series


def check_likelihood(data):
    """The sum over series against adaptive quadrature of the plain integrand."""
    for mu, s, rho in ((10.1, 1.2, 0.3), (9.8, 0.8, 0.8), (10.4, 1.6, 0.05)):
        total = 0.0
        for fails, limits in data.series:
            def plain(u):
                at, sd = mu + s * np.sqrt(rho) * u, s * np.sqrt(1 - rho)
                return norm.pdf(u) * np.prod(norm.pdf((fails - at) / sd) / sd) * np.prod(norm.sf((limits - at) / sd))
            total += np.log(quad(plain, -9, 9, epsabs=0, epsrel=1e-11, limit=400)[0]) + len(fails) * 0.5 * np.log(2 * np.pi)
        assert abs(float(log_likelihood(data, np.array(mu), np.array(s), 1 - rho)) - total) < 1e-8


if __name__ == "__main__":
    rng, cases = np.random.default_rng(46), []
    whole = [[(round(float(10 + 0.7 * u + 0.6 * e), 3), False) for e in rng.normal(size=4)] for u in rng.normal(size=4)]
    plain = bounds([[[y for y, _ in one] for one in whole]])[1][0]
    error = np.max(np.abs(np.array(points(Data(whole))[0]) - plain))
    print(f"without lower bounds, against law.py: {error:.1e}", file=sys.stderr)
    assert error < 1e-5
    for counts, icc, limit, kind in (((4, 4, 5), 0.0, 10.4, "one limit"), ((3, 5, 4, 3), 0.3, 10.6, "limits apart"), ((5, 4, 4, 3, 5), 0.6, 10.8, "limits apart"),
                                     ((4, 3, 5, 4, 3, 5), 0.4, 10.5, "one limit"), ((3, 3, 4, 5, 4, 4), 0.85, 10.9, "one limit"), ((5, 5, 5, 5), 0.1, 10.3, "limits apart")):
        while True:
            series = draw(rng, counts, icc, limit, kind)
            share = np.mean([c for one in series for _, c in one])
            with_failures = [sum(not c for _, c in one) for one in series]
            empty = sum(k == 0 for k in with_failures)
            if 0.2 <= share <= 0.4 and empty == (icc == 0.85) and sum(with_failures) - len(series) + empty >= 3:
                break
        data = Data(series)
        check_likelihood(data)
        found, zero = points(data)
        finer = points(data, step=0.7, panels=50, reach=30.0)[0]
        error = np.max(np.abs(np.array(found) - finer))
        print(f"{len(series)} series, {share:.0%} lower bounds: {np.round(found, 5)}, finer grid {error:.1e}", file=sys.stderr, flush=True)
        assert error < 1e-4
        cases.append({"name": f"{len(series)} series, ICC {icc}, {kind}, {round(100 * share)} % lower bounds", "series": [[y for y, _ in one] for one in series],
                      "lowerBound": [[int(c) for _, c in one] for one in series], "n0": round(data.n0, 9), "mass": round(data.mass, 9), "weightAtZero": round(zero, 7), "bounds": [round(b, 5) for b in found]})
    print('{"fractile":0.05,"probabilities":[0.1,0.5,0.9],"cases":[\n' + ",\n".join(json.dumps(c, separators=(",", ":")) for c in cases) + "\n]}")
