# P(R < D + L) by numerical integration, independent of the library: R log-normal, D normal, L Gumbel of largest values.
# Design: 0.7 R_n = max(1.4 D, 1.2 D + 1.6 L), L/(D + L) = 0.5, loads of Nowak and Szerszen 2003, bias 1.1, V_R 0.15.
import numpy as np
from scipy import stats
from scipy.optimize import minimize

nominal = max(1.4 * 0.5, 1.2 * 0.5 + 1.6 * 0.5) / 0.7
s = np.sqrt(np.log1p(0.15**2))
resistance = stats.lognorm(s, scale=1.1 * nominal * np.exp(-s * s / 2))
dead = stats.norm(1.05 * 0.5, 1.05 * 0.5 * 0.10)
scale = 0.5 * 0.18 * np.sqrt(6) / np.pi
live = stats.gumbel_r(0.5 - np.euler_gamma * scale, scale)
# Gauss-Legendre over D and R in panels: the tail of L closes the integral.
x, w = np.polynomial.legendre.leggauss(40)
def panels(a, b, k):
    e = np.linspace(a, b, k + 1)
    return (np.add.outer((e[1:] + e[:-1]) / 2, np.diff(e)[0] / 2 * x)).ravel(), np.tile(np.diff(e)[0] / 2 * w, k)
d, wd = panels(dead.mean() - 10 * dead.std(), dead.mean() + 10 * dead.std(), 20)
r, wr = panels(1e-6, 12.0, 120)
p = (wd * dead.pdf(d)) @ live.sf(r[None, :] - d[:, None]) @ (wr * resistance.pdf(r))
print("failureProbability %.12g" % p)
g = lambda u: (38 + 3.8 * u[0]) * (54 + 2.7 * u[1]) - 1140
o = minimize(lambda u: u @ u, [-3, -1], constraints={"type": "eq", "fun": g}, method="SLSQP", options={"ftol": 1e-14})
print("productIndex %.6f" % np.sqrt(o.fun))
