"""Mean models, recomputed from the printed equations with nothing of the library. Run: python3 mean_models.py

Cases in mm and MPa. Prints kN. The least load of the cone-and-bond models is found by a fine search, not by the closed
form. The numbers stand beside the calls in ../mean-models.test.ts.
"""
from math import pi, sqrt

from development import FRP, INCH, LB, PSI, STEEL, centre, clear

BOND = {
    "A": dict(d=16, h=125, fc=25, tau=12.0, c=1e9, n=1, s=0),
    "B": dict(d=20, h=240, fc=40, tau=15.0, c=90.0, n=1, s=0),
    "C": dict(d=12, h=60, fc=20, tau=25.0, c=1e9, n=1, s=0),
}


def uniform(k):
    s = min(20 * k["d"] * sqrt(k["tau"] / 10), 3 * k["h"])
    c = s / 2
    area = (min(k["c"], c) + c) * s / s**2
    edge = 1 if k["c"] >= c else 0.7 + 0.3 * k["c"] / c
    return k["tau"] * pi * k["d"] * k["h"] * area * edge


def least(load, h):
    """least of load(depth) for depths up to h: golden section after a coarse scan"""
    n = 4000
    best = min(range(1, n + 1), key=lambda i: load(h * i / n))
    a, b = h * max(best - 1, 1e-9) / n, h * min(best + 1, n) / n
    g = (sqrt(5) - 1) / 2
    for _ in range(200):
        x, y = b - g * (b - a), a + g * (b - a)
        if load(x) < load(y):
            b = y
        else:
            a = x
    return load((a + b) / 2)


def cone_1993(k):
    return least(lambda z: 0.92 * z * z * sqrt(k["fc"]) + k["tau"] * pi * k["d"] * (k["h"] - z), k["h"])


def cone_bond_ccd(k):
    """stationary depth where the cone's slope 1.5 k sqrt(f) sqrt(z) equals the bond's slope, by bisection"""
    slope = k["tau"] * pi * k["d"]
    low, high = 0.0, 1e6
    for _ in range(300):
        z = (low + high) / 2
        if 1.5 * 14.6 * sqrt(k["fc"]) * sqrt(z) < slope:
            low = z
        else:
            high = z
    z = min(low, k["h"])
    return 14.6 * sqrt(k["fc"]) * z**1.5 + slope * (k["h"] - z)


def wambeke_shield(k):
    u = sqrt(k["fc"] / PSI) * (4 + 0.3 * min(centre(k) / k["d"], 3.5) + 100 * k["d"] / k["le"])
    return u * PSI * pi * k["d"] * k["le"]


def orangun(k):
    u = sqrt(k["fc"] / PSI) * (1.2 + 3 * clear(k) / k["d"] + 50 * k["d"] / k["le"])
    return u * PSI * pi * k["d"] * k["le"]


def aci408(k):
    d, le, c, a = k["d"] / INCH, k["le"] / INCH, clear(k) / INCH, k["A"] / INCH**2
    return (k["fc"] / PSI) ** 0.25 * (59.9 * le * (c + 0.5 * d) + 2400 * a) * LB


if __name__ == "__main__":
    for name, function, cases in (
        ("uniform bond", uniform, BOND), ("cone 1993", cone_1993, BOND), ("cone and bond", cone_bond_ccd, BOND),
        ("Wambeke Shield", wambeke_shield, FRP), ("Orangun", orangun, STEEL), ("408R", aci408, STEEL),
    ):
        for case, k in cases.items():
            print(f"{name} {case}: {function(k) / 1000:.9f} kN")
