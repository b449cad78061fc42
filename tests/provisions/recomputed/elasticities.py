"""Elasticities d ln N / d ln x from the printed equations, with nothing of the library. Run: python3 elasticities.py

Central differences of ln N at steps h and h/2, extrapolated (Richardson); the second number is the change by the
extrapolation, a bound on the error. The numbers stand beside the calls in ../sensitivity/elasticities.test.ts.
"""
from math import exp, log, pi, sqrt

INCH, PSI = 25.4, 4.4482216152605 / 645.16


def aci_breakout(fc, h, c1, c2, sx):
    """ACI 318-19 17.6.2 in lb, in., psi: two post-installed bars, spacing sx normal to edge 1, near edges 1 and 2, cracked"""
    fc, h, c1, c2, sx = fc / PSI, h / INCH, c1 / INCH, c2 / INCH, sx / INCH
    reach = 1.5 * h
    area = min((min(c1, reach) + sx + reach) * (min(c2, reach) + reach), 2 * 9 * h * h)
    return area / (9 * h * h) * (0.7 + 0.3 * min(min(c1, c2) / reach, 1)) * 17 * sqrt(min(fc, 8000)) * h**1.5


def aci_bond(tau, tau_u, d, h, c1):
    """ACI 318-19 17.6.5 in lb, in., psi: one bar near edge 1, cracked"""
    tau, tau_u, d, h, c1 = tau / PSI, tau_u / PSI, d / INCH, h / INCH, c1 / INCH
    c = 10 * d * sqrt(tau_u / 1100)
    return (min(c1, c) + c) * 2 * c / (2 * c) ** 2 * (0.7 + 0.3 * min(c1 / c, 1)) * tau * pi * d * h


def en_cone(fck, h, c1):
    """EN 1992-4:2018 7.2.1.4 in N, mm, MPa: one bonded bar near one edge, cracked, k1 = 7.7"""
    n0 = 7.7 * sqrt(fck) * h**1.5
    area = (min(c1, 1.5 * h) + 1.5 * h) * 3 * h
    return n0 * area / (3 * h) ** 2 * min(1, 0.7 + 0.3 * c1 / (1.5 * h))


def ccd_shear(fc, d, h, c1, c2, ha):
    """concrete capacity method 1995 in lb, in., psi: one bar in shear towards edge 1, near edge 2 in a thin member, uncracked"""
    fc, d, h, c1, c2, ha = fc / PSI, d / INCH, h / INCH, c1 / INCH, c2 / INCH, ha / INCH
    area = (min(c2, 1.5 * c1) + 1.5 * c1) * min(ha, 1.5 * c1)
    return 13 * (min(h, 8 * d) / d) ** 0.2 * sqrt(d) * sqrt(fc) * c1**1.5 * area / (4.5 * c1**2) * (0.7 + 0.3 * min(c2 / (1.5 * c1), 1))


def elasticity(f, case, name, h=2e-3):
    def central(step):
        at = [log(f(**{**case, name: case[name] * exp(s * step)})) for s in (-1, 1)]
        return (at[1] - at[0]) / (2 * step)

    coarse, fine = central(h), central(h / 2)
    best = fine + (fine - coarse) / 3
    return best, abs(best - fine)


CASES = [
    (aci_breakout, dict(fc=28.0, h=150.0, c1=120.0, c2=170.0, sx=110.0)),
    (aci_bond, dict(tau=8.0, tau_u=12.0, d=15.875, h=150.0, c1=90.0)),
    (en_cone, dict(fck=25.0, h=125.0, c1=120.0)),
    (ccd_shear, dict(fc=30.0, d=15.875, h=100.0, c1=110.0, c2=130.0, ha=140.0)),
]

if __name__ == "__main__":
    for f, case in CASES:
        print(f.__name__, {name: tuple(float(f"{v:.12g}") for v in elasticity(f, case, name)) for name in case})
