"""Lower bound of a fractile of tests in series, recomputed by brute force over a grid of (mean, ln SD, correlation).

Written from the docstring of characteristicBySeries alone: likelihood of y = mu + sd (sqrt(rho) u + sqrt(1 - rho) e), prior uniform in
(mu, ln sd, t), t = ln(1 + n0 rho / (1 - rho)) > 0, and a weight sqrt(pi / 2) sqrt(2 / (k - 1) + 2 / (n - k)) at t = 0.
Run: python3 series-bound.py (numpy, scipy); prints the numbers of series-bound.test.ts.
"""
import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.stats import nct, norm

BATCHES = [
    [99.0239966, 103.341238, 100.30213, 98.4634133, 92.264728, 103.487693, 113.734763],
    [108.172659, 108.426732, 116.260375, 121.04961, 111.223082, 104.574843, 103.222552],
    [99.3918538, 87.3421658, 102.730741, 96.3694916, 99.5946088, 97.0712407],
]
MORE = [[10.1, 10.9, 9.4], [12.0, 11.2, 11.8, 12.5], [9.0, 9.9], [10.4, 11.3, 10.8, 9.7, 10.2], [8.6, 9.3, 8.9], [11.0, 10.1], [12.9, 12.2, 13.1, 12.4]]


def bound(groups, censored, fractile, confidence):
    flat = np.concatenate([np.asarray(g, float) for g in groups])
    centre, unit = flat.mean(), flat.std()
    z = -norm.ppf(fractile)
    failed = [[(y - centre) / unit for y, c in zip(g, f) if not c] for g, f in zip(groups, censored)]
    limits = [[(y - centre) / unit for y, c in zip(g, f) if c] for g, f in zip(groups, censored)]
    sizes = np.array([len(g) for g in failed if g], float)
    n, k = sizes.sum(), len(sizes)
    n0 = (n - (sizes**2).sum() / n) / (k - 1)
    mu, ls = np.linspace(-9, 9, 361), np.linspace(-1.6, 2.6, 85)
    nodes, weights = np.polynomial.legendre.leggauss(48)
    t = np.concatenate([[0.0], 6 * (1 + nodes)])
    measure = np.concatenate([[np.sqrt(np.pi / 2) * np.sqrt(2 / (k - 1) + 2 / (n - k))], 6 * weights])
    x = np.linspace(-7, 7, 141)
    density = norm.pdf(x) / norm.pdf(x).sum()
    mass = np.zeros((len(t), len(ls), len(mu)))
    for a, at in enumerate(t):
        ratio = np.expm1(at) / n0
        rho = ratio / (1 + ratio)
        for b, s in enumerate(np.exp(ls)):
            total = np.zeros(len(mu))
            for f, c in zip(failed, limits):
                m = len(f)
                if not c:
                    v = s * s * ((1 - rho) * np.eye(m) + rho)
                    inverse, (_, logdet) = np.linalg.inv(v), np.linalg.slogdet(v)
                    d = np.asarray(f)[None, :] - mu[:, None]
                    total += -0.5 * np.einsum("ij,jk,ik->i", d, inverse, d) - 0.5 * logdet
                    continue
                # the series' own share integrated by plain steps, failures and limits together
                inner = np.log(density)[None, :] + np.zeros((len(mu), len(x)))
                for y in f:
                    inner += norm.logpdf((y - mu[:, None] - s * np.sqrt(rho) * x[None, :]) / (s * np.sqrt(1 - rho))) - np.log(s * np.sqrt(1 - rho)) + 0.5 * np.log(2 * np.pi)
                for y in c:
                    inner += norm.logsf((y - mu[:, None] - s * np.sqrt(rho) * x[None, :]) / (s * np.sqrt(1 - rho)))
                top = inner.max(axis=1)
                total += top + np.log(np.exp(inner - top[:, None]).sum(axis=1))
            mass[a, b] = total
    mass = np.exp(mass - mass.max()) * measure[:, None, None]
    cumulated = np.concatenate([np.zeros(mass.shape[:2] + (1,)), np.cumsum(0.5 * (mass[:, :, 1:] + mass[:, :, :-1]), axis=2)], axis=2)
    whole = cumulated[:, :, -1].sum()

    def below(level):
        return sum(np.interp(level + z * s, mu, cumulated[a, b]) for a in range(len(t)) for b, s in enumerate(np.exp(ls))) / whole

    return centre + unit * brentq(lambda level: below(level) - (1 - confidence), -12, 1, xtol=1e-6)


def bound_free(groups, fractile, confidence):
    """Without lower bounds: at each rho the noncentral t of generalised least squares, n - 1 degrees of freedom, mixed by adaptive quadrature."""
    flat = np.concatenate([np.asarray(g, float) for g in groups])
    sizes = np.array([len(g) for g in groups], float)
    n, k = sizes.sum(), len(sizes)
    n0 = (n - (sizes**2).sum() / n) / (k - 1)
    z = -norm.ppf(fractile)

    def parts(t):
        rho = np.expm1(t) / n0 / (1 + np.expm1(t) / n0)
        labels = np.repeat(np.arange(k), sizes.astype(int))
        v = (1 - rho) * np.eye(int(n)) + rho * (labels[:, None] == labels[None, :])
        inverse = np.linalg.inv(v)
        weight = inverse.sum()
        mean = (inverse @ flat).sum() / weight
        q = (flat - mean) @ inverse @ (flat - mean)
        return -0.5 * np.linalg.slogdet(v)[1] - 0.5 * np.log(weight) - (n - 1) / 2 * np.log(q), weight, mean, np.sqrt(q / (n - 1))

    top = max(parts(t)[0] for t in np.linspace(0, 8, 81))
    at_zero = np.sqrt(np.pi / 2) * np.sqrt(2 / (k - 1) + 2 / (n - k))
    weigh = lambda f: at_zero * f(0.0) + quad(f, 0, 3, limit=200)[0] + quad(f, 3, 20, limit=200)[0]
    whole = weigh(lambda t: np.exp(parts(t)[0] - top))

    def below(level):
        def f(t):
            log_weight, weight, mean, sd = parts(t)
            return np.exp(log_weight - top) * nct.sf((mean - level) / sd * np.sqrt(weight), n - 1, z * np.sqrt(weight))
        return weigh(f) / whole

    return brentq(lambda level: below(level) - (1 - confidence), flat.mean() - 12 * flat.std(), flat.mean(), xtol=1e-7)


if __name__ == "__main__":
    free = lambda groups: [[False] * len(g) for g in groups]
    above = lambda groups, limit: [[y >= limit for y in g] for g in groups]
    cut = lambda groups, limit: [[min(y, limit) for y in g] for g in groups]
    print("more, 5 % at 90 %:", bound_free(MORE, 0.05, 0.9))
    print("more, 10 % at 95 %:", bound_free(MORE, 0.1, 0.95))
    print("batches, 10 % at 95 %:", bound_free(BATCHES, 0.1, 0.95))
    # By brute force, some minutes each.
    print("more, 5 % at 90 %:", bound(MORE, free(MORE), 0.05, 0.9))
    print("more, limits at 11.5, 5 % at 90 %:", bound(cut(MORE, 11.5), above(MORE, 11.5), 0.05, 0.9))
    print("more, limits at 10.5, 5 % at 90 %:", bound(cut(MORE, 10.5), above(MORE, 10.5), 0.05, 0.9))
