"""Law of mu_c - z s with a series effect, by dense quadrature; written from the formulas in README.md, not from the library."""
import numpy as np
from scipy.optimize import brentq
from scipy.special import gammaln, ndtr, ndtri

PANEL, WEIGHTS = np.polynomial.legendre.leggauss(12)


def composite(low, high, panels):
    """Nodes and weights of Gauss-Legendre rules of 12 points on equal panels."""
    edges = np.linspace(low, high, panels + 1)
    half = np.diff(edges)[:, None] / 2
    nodes = (edges[:-1, None] + half) + half * PANEL
    return nodes.ravel(), np.broadcast_to(half * WEIGHTS, nodes.shape).ravel()


def summaries(cells):
    """Of each cell: sizes, means and squares within, by series."""
    return [(np.array([len(s) for s in cell], float), np.array([np.mean(s) for s in cell]),
             np.array([np.sum((np.array(s) - np.mean(s)) ** 2) for s in cell])) for cell in cells]


def prior(sums):
    """n0 and the measure of the point mass at rho = 0."""
    c, g, n = len(sums), sum(len(s[0]) for s in sums), sum(s[0].sum() for s in sums)
    n0 = sum(s[0].sum() - (s[0] ** 2).sum() / s[0].sum() for s in sums) / (g - c)
    return n0, np.sqrt(np.pi / 2) * np.sqrt(2 / (g - c) + 2 / (n - g))


def at_correlation(sums, rest):
    """At 1 - rho = rest (array): log likelihood, s estimate, degrees of freedom, and mean and W of each cell."""
    rest = np.asarray(rest, float)[:, None]
    degrees = sum(s[0].sum() for s in sums) - len(sums)
    q, log_det, log_w, means, ws = 0.0, 0.0, 0.0, [], []
    for n, y, within in sums:
        scale = rest + n * (1 - rest)                      # 1 + (n - 1) rho
        w = n / scale
        total = w.sum(1)
        mean = (w * y).sum(1) / total
        q = q + within.sum() / rest[:, 0] + (w * (y - mean[:, None]) ** 2).sum(1)
        log_det = log_det + ((n - 1) * np.log(rest) + np.log(scale)).sum(1)
        log_w = log_w + np.log(total)
        means.append(mean)
        ws.append(total)
    return -0.5 * (log_det + degrees * np.log(q) + log_w), np.sqrt(q / degrees), degrees, means, ws


def mixture(sums, panels=600, reach=60.0):
    """Weights over 1 - rho, the first of them of rho = 0, and what belongs to each."""
    n0, mass = prior(sums)
    t, dt = composite(0, reach, panels)
    rest = np.concatenate([[1.0], n0 / (np.expm1(t) + n0)])
    found = at_correlation(sums, rest)
    weight = np.exp(found[0] - found[0].max()) * np.concatenate([[mass], dt])
    weight /= weight.sum()
    keep = weight > 1e-20
    log_l, s, degrees, means, ws = found
    return {"weight": weight[keep], "s": s[keep], "degrees": degrees, "means": [m[keep] for m in means],
            "ws": [w[keep] for w in ws], "zero": weight[0], "rho": float(weight @ (1 - rest))}


def root_chi_square(degrees, panels=None):
    """Nodes of sqrt(V / nu), V a chi-square of nu degrees, over ln V, and their probabilities."""
    wide, panels = np.sqrt(2 / degrees), panels or (16 if degrees > 3 else 48)
    x, dx = composite(-10 * wide - (60 / degrees), min(10 * wide, 8.0), panels)      # x = ln(V / nu)
    log_density = degrees / 2 * (x + np.log(degrees / 2)) - degrees / 2 * np.exp(x) - gammaln(degrees / 2)
    p = np.exp(log_density) * dx
    assert abs(p.sum() - 1) < 1e-11, (degrees, p.sum())
    return np.exp(x / 2), p


def below(law, cell, z, limit):
    """P(mu_c - z s <= limit): (Z + z sqrt W) / sqrt(V / nu) is a noncentral t."""
    root, p = law.get("nodes") or law.setdefault("nodes", root_chi_square(law["degrees"]))
    w, k = np.sqrt(law["ws"][cell]), (law["means"][cell] - limit) / law["s"]
    return float(law["weight"] @ (ndtr(w[:, None] * (z - k[:, None] * root)) @ p))


def quantile(law, cell, z, share):
    """The limit below which mu_c - z s lies with the probability share."""
    middle, wide = float(law["weight"] @ law["means"][cell]), float(np.median(law["s"]))
    low, high = middle - 4 * wide, middle + wide
    while below(law, cell, z, low) > share:
        low -= 4 * wide
    while below(law, cell, z, high) < share:
        high += wide
    return brentq(lambda limit: below(law, cell, z, limit) - share, low, high, xtol=1e-11, rtol=1e-13)


def bounds(cells, fractile=0.05, **grid):
    """Lower bound (90 %), median estimate and upper bound (10 %) of the fractile of each cell."""
    law, z = mixture(summaries(cells), **grid), -ndtri(fractile)
    return law, [[quantile(law, c, z, share) for share in (0.1, 0.5, 0.9)] for c in range(len(cells))]


def known(cells, rho, cell=0, confidence=0.9, fractile=0.05):
    """The bound at a known rho."""
    log_l, s, degrees, means, ws = at_correlation(summaries(cells), [1 - rho])
    law = {"weight": np.ones(1), "s": s, "degrees": degrees, "means": means, "ws": ws}
    return quantile(law, cell, -ndtri(fractile), 1 - confidence)
