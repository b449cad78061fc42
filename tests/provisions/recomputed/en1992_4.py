"""EN 1992-4:2018, recomputed from the printed equations with nothing of the library. Run: python3 en1992_4.py

N, mm, MPa. Prints kN. The numbers stand beside the calls in ../en1992-4-2018.test.ts.
"""
from math import cos, pi, radians, sin, sqrt

INF = float("inf")
CASES = {
    # single bar near one edge, cracked
    "A": dict(d=16, h=125, fck=25, tau=8, tau_u=12, cracked=True, c=[120, INF, INF, INF], nx=1, ny=1, sx=0, sy=0, ex=0, ey=0, ha=300, fu=900, As=201.06),
    # group of four near a corner, eccentric, uncracked
    "B": dict(d=20, h=170, fck=35, tau=11, tau_u=13, cracked=False, c=[150, 200, INF, INF], nx=2, ny=2, sx=100, sy=120, ex=20, ey=10, ha=220, fu=700, As=314.16),
    # row of three in a narrow thin strip, three edges near, dense reinforcement, sustained tension
    "C": dict(d=12, h=95, fck=30, tau=9, tau_u=14, cracked=True, c=[130, 110, INF, 140], nx=1, ny=3, sx=0, sy=90, ex=0, ey=0, ha=160, fu=1000, As=113.1, dense=True, sus=0.75),
}


def rectangle(k, reach):
    c = [min(x, reach) for x in k["c"]]
    across = c[0] + (k["nx"] - 1) * k["sx"] + c[2]
    along = c[1] + (k["ny"] - 1) * k["sy"] + c[3]
    return across * along


def edge_factor(c, reach):
    return 1.0 if c >= reach else 0.7 + 0.3 * c / reach


def eccentric(k, s):
    return 1 / (1 + 2 * k["ex"] / s) / (1 + 2 * k["ey"] / s)


def spalling(k):
    return min(1, 0.5 + k["h"] / 200) if k.get("dense") and k["h"] < 100 else 1


def cone(k):
    near = [c for c in k["c"] if c < 1.5 * k["h"]]
    h = k["h"]
    if len(near) >= 3:
        h = min(h, max(max(near) / (1.5 * h), max(k["sx"], k["sy"]) / (3 * h)) * h)
    n0 = (7.7 if k["cracked"] else 11.0) * sqrt(k["fck"]) * h**1.5
    area = min(rectangle(k, 1.5 * h), k["nx"] * k["ny"] * 9 * h * h)
    return n0 * area / (9 * h * h) * edge_factor(min(k["c"]), 1.5 * h) * spalling(k) * eccentric(k, 3 * h)


def psi_sus(k):
    a = k.get("sus", 0)
    return 1 if a <= 0.6 else 0.6 + 1 - a


def combined(k, sustained=True):
    p = psi_sus(k) if sustained else 1
    s_cr = min(7.3 * k["d"] * sqrt(p * k["tau_u"]), 3 * k["h"])
    n0 = p * k["tau"] * pi * k["d"] * k["h"]
    n = k["nx"] * k["ny"]
    tau_c = (7.7 if k["cracked"] else 11.0) / (pi * k["d"]) * sqrt(k["h"] * k["fck"])
    g0 = max(1, sqrt(n) - (sqrt(n) - 1) * (k["tau"] / tau_c) ** 1.5)
    spacings = [s for m, s in ((k["nx"], k["sx"]), (k["ny"], k["sy"])) if m > 1]
    s = sum(spacings) / len(spacings) if spacings else 0
    g = max(1, g0 - sqrt(s / s_cr) * (g0 - 1))
    area = min(rectangle(k, s_cr / 2), n * s_cr**2)
    return n0 * area / s_cr**2 * g * edge_factor(min(k["c"]), s_cr / 2) * spalling(k) * eccentric(k, s_cr)


def splitting(k, ratio=2.0, h_min=150.0):
    # N0_Rk,p of 7.2.1.6 holds psi_sus; the first version of this script had left it out here.
    c_cr = ratio * k["h"]
    n0 = min(psi_sus(k) * k["tau"] * pi * k["d"] * k["h"], (7.7 if k["cracked"] else 11.0) * sqrt(k["fck"]) * k["h"] ** 1.5)
    area = min(rectangle(k, c_cr), k["nx"] * k["ny"] * 4 * c_cr**2)
    c1 = min(k["c"])
    psi_h = min((k["ha"] / h_min) ** (2 / 3), max(1, ((k["h"] + 1.5 * c1) / h_min) ** (2 / 3)), 2)
    return n0 * area / (4 * c_cr**2) * edge_factor(c1, c_cr) * spalling(k) * eccentric(k, 2 * c_cr) * psi_h


def edge(k, angle=0.0, k9=None, strength=None):
    c1, c2, _, c4 = k["c"]
    if c2 < 1.5 * c1 and c4 < 1.5 * c1 and k["ha"] < 1.5 * c1:
        c1 = min(c1, max(max(c2, c4) / 1.5, k["ha"] / 1.5, k["sy"] / 3))
    d = k["d"]
    lf = min(k["h"], 12 * d) if d <= 24 else min(k["h"], max(8 * d, 300))
    alpha, beta = 0.1 * (lf / c1) ** 0.5, 0.1 * (d / c1) ** 0.2
    v0 = (k9 or (1.7 if k["cracked"] else 2.4)) * d**alpha * lf**beta * sqrt(strength or k["fck"]) * c1**1.5
    a0 = 4.5 * c1 * c1
    area = min((min(c2, 1.5 * c1) + (k["ny"] - 1) * k["sy"] + min(c4, 1.5 * c1)) * min(k["ha"], 1.5 * c1), k["ny"] * a0)
    t = radians(angle)
    psi_a = max(1, sqrt(1 / (cos(t) ** 2 + (0.5 * sin(t)) ** 2)))
    psi_h = max(1, sqrt(1.5 * c1 / k["ha"]))
    return v0 * area / a0 * edge_factor(min(c2, c4), 1.5 * c1) * psi_h / (1 + 2 * k["ey"] / (3 * c1)) * psi_a


def pryout(k):
    return (1 if k["h"] < 60 else 2) * min(cone(k), combined(k, sustained=False))


if __name__ == "__main__":
    for name, k in CASES.items():
        print(f"{name} steel {k['nx'] * k['ny'] * k['As'] * k['fu'] / 1000:.9f} cone {cone(k) / 1000:.9f} combined {combined(k) / 1000:.9f} splitting {splitting(k) / 1000:.9f} edge {edge(k) / 1000:.9f} edge30 {edge(k, 30) / 1000:.9f} pryout {pryout(k) / 1000:.9f} mean2005 {edge(k, 0, 3.0 * (0.7 if k['cracked'] else 1), k['fck'] / 0.85) / 1000:.9f}")
