# Design points of curved limit states, independent of the library: scipy minimises |u|^2 on g(x(u)) = 0 from several starts.
# python3 design-points.py prints one name, index and the point's u a line.
import numpy as np
from scipy.optimize import minimize
from scipy.special import log_ndtr

def normal(mean, sd):
    return lambda u: mean + sd * u

def lognormal(mean, cov):
    s = np.sqrt(np.log1p(cov**2))
    return lambda u: mean * np.exp(s * u - s * s / 2)

def gumbel(mean, cov):
    scale = mean * cov * np.sqrt(6) / np.pi
    return lambda u: mean - np.euler_gamma * scale - scale * np.log(-log_ndtr(u))

def weibull(shape, scale):
    return lambda u: scale * (-log_ndtr(-u)) ** (1 / shape)

cases = {
    "fourVariables": ([lognormal(1.15, .12), lognormal(1.3, .15), normal(.5, .05), gumbel(.3, .25)], lambda m, p, d, l: m * p - d - l),
    "weibullStrength": ([weibull(8, 12), lognormal(2, .1), gumbel(9, .3)], lambda r, a, q: r * a - q),
    # Cubes of two normal variables, on which the first-order recursion with full steps runs in a circle.
    "cubes": ([normal(10, 5), normal(9.9, 5)], lambda a, b: a**3 + b**3 - 18),
    "curvedResistance": ([lognormal(30, .15), normal(16, .5), gumbel(55, .2)], lambda f, d, q: 1.2 * np.sqrt(np.abs(f)) * d - q),
}
for name, (laws, g) in cases.items():
    limit = lambda u: g(*[law(v) for law, v in zip(laws, u)])
    best = None
    for seed in range(6):
        start = np.random.default_rng(seed).normal(size=len(laws))
        found = minimize(lambda u: u @ u / 2, start, constraints={"type": "eq", "fun": limit}, method="SLSQP", options={"ftol": 1e-15, "maxiter": 200})
        if found.success and abs(limit(found.x)) < 1e-7 and (best is None or found.fun < best.fun):
            best = found
    print(name, "%.7f" % np.sqrt(2 * best.fun), *["%.5f" % v for v in best.x])
